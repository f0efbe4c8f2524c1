// SPDX-License-Identifier: GPL-3.0-or-later
#include "casework/dangers.h"

#include <algorithm>
#include <map>
#include <set>
#include <tuple>

#include "units/letters.h"

namespace evenfall {
namespace {

constexpr std::string_view kPrefix = "red-flag-";

DangerLevel level_of(const std::string& rule, const Rules& rules) {
    const Rule* levels = rules.find("flag-levels");
    if (!levels || !levels->values.contains(rule)) return DangerLevel::same_day;
    return static_cast<DangerLevel>(rules.whole("flag-levels", rule));
}

/// When a question was last answered each way, and in which entries it was heard.
struct Heard {
    std::optional<LocalTime> yes, no;
    std::vector<EventId> entries;  ///< of the latest yes

    bool stands() const { return yes && (!no || *yes >= *no); }

    void add_yes(LocalTime at, const EventId& entry) {
        if (!yes || *yes < at) entries.clear();
        if (!yes || *yes <= at) {
            yes = at;
            entries.push_back(entry);
        }
    }
    void add_no(LocalTime at) {
        if (!no || *no < at) no = at;
    }
};

/// Looks for what stands.
class DangerSearch {
  public:
    DangerSearch(const PatientRecord& record, const Rules& rules, const Scales& scales, LocalTime as_of)
        : record_(record), rules_(rules), scales_(scales), as_of_(as_of) {}

    std::vector<Danger> all() {
        hear_calls();
        hear_ratings();
        for (const auto& [rule, heard] : heard_)
            if (heard.stands())
                add({rule, {{"on", print_day(day_of(*heard.yes))}}, {}}, *heard.yes, heard.entries);
        read_forms();
        std::ranges::stable_sort(dangers_, {}, [](const Danger& each) {
            return std::tuple(each.told.has_value(), each.level, -each.heard.time_since_epoch());
        });
        return std::move(dangers_);
    }

  private:
    void hear_calls() {
        for (const auto& call : record_.check_ins) {
            if (call.value.at > as_of_) continue;
            for (const auto& [question, answer] : call.value.answers) {
                if (answer != "yes" && answer != "no") continue;
                const std::string rule = danger_rule(question, rules_);
                if (rule.empty()) continue;
                if (answer == "yes")
                    heard_[rule].add_yes(call.value.at, call.id);
                else
                    heard_[rule].add_no(call.value.at);
            }
        }
    }

    /// A rating above 0 is a yes; a 0 is no no.
    void hear_ratings() {
        for (const auto& noted : record_.symptoms)
            for (const Rating& rating : noted.value.entries) {
                if (rating.severity <= 0 || rating.rated_at > as_of_) continue;
                const std::string rule = danger_rule(rating.item, rules_);
                if (!rule.empty()) heard_[rule].add_yes(rating.rated_at, noted.id);
            }
    }

    /// The alarms of the latest form of each scale, unless a call of a later day asked and heard no.
    void read_forms() {
        std::map<std::string, const Entry<ScaleAnswers>*> latest;
        for (const auto& form : record_.scales) {
            if (form.value.on > day_of(as_of_)) continue;
            auto& known = latest[form.value.scale];
            if (!known || known->value.on <= form.value.on) known = &form;
        }
        for (const auto& [scale, form] : latest) {
            const auto scored = score(form->value, scales_, scale);
            if (!scored) continue;
            for (const Flag& flag : scored->flags) raise_form(flag, *form);
        }
    }

    void raise_form(const Flag& flag, const Entry<ScaleAnswers>& form) {
        const Rule* levels = rules_.find("flag-levels");
        if (!levels || !levels->values.contains(flag.rule)) return;
        const auto asked = heard_.find(form.value.scale == "BARS" ? "red-flag-cannot-sit-still"
                                                                  : "red-flag-suicidal-thoughts");
        const bool cleared = asked != heard_.end() && asked->second.no && !asked->second.stands() &&
                             day_of(*asked->second.no) > form.value.on;
        if (cleared && level_of(flag.rule, rules_) != DangerLevel::emergency) return;
        add(flag, at_clock(form.value.on, {}), {form.id});
    }

    void add(Flag flag, LocalTime heard, const std::vector<EventId>& entries) {
        Danger danger;
        danger.level = level_of(flag.rule, rules_);
        danger.flag = std::move(flag);
        danger.heard = heard;
        danger.entry = entries.back();
        const auto of_it = [&](const EventId& id) { return std::ranges::find(entries, id) != entries.end(); };
        for (const auto& noted : record_.whereabouts)
            if (of_it(noted.value.danger)) danger.whereabouts = noted;
        for (const auto& told : record_.told)
            if (of_it(told.value.danger)) danger.told = told;
        dangers_.push_back(std::move(danger));
    }

    const PatientRecord& record_;
    const Rules& rules_;
    const Scales& scales_;
    LocalTime as_of_;
    std::map<std::string, Heard> heard_;
    std::vector<Danger> dangers_;
};

}  // namespace

std::string danger_rule(const std::string& question, const Rules& rules) {
    const std::string rule = std::string(kPrefix) + with_dashes(question);
    const Rule* found = rules.find(rule);
    return found && found->group == "red-flag" ? rule : std::string();
}

std::vector<Danger> standing_dangers(const PatientRecord& record, const Rules& rules, const Scales& scales,
                                     LocalTime as_of) {
    return DangerSearch(record, rules, scales, as_of).all();
}

std::vector<std::string> danger_questions(const Rules& rules) {
    std::vector<std::string> questions;
    for (const auto& [id, rule] : rules.all()) {
        if (rule.group != "red-flag" || !id.starts_with(kPrefix)) continue;
        std::string question = id.substr(kPrefix.size());
        std::ranges::replace(question, '-', ' ');
        questions.push_back(std::move(question));
    }
    // Thoughts of suicide and restlessness are asked first: they are the hardest to bring up late.
    static const std::vector<std::string> order = {"suicidal thoughts", "cannot sit still", "seizure",
                                                   "collapse or head injury"};
    std::ranges::stable_sort(questions, {}, [&](const std::string& each) {
        return std::pair(std::ranges::find(order, each) - order.begin(),
                         level_of(danger_rule(each, rules), rules));
    });
    return questions;
}

}  // namespace evenfall
