// SPDX-License-Identifier: GPL-3.0-or-later
#include "casework/call.h"

#include <algorithm>
#include <set>

#include "casework/dangers.h"
#include "casework/looking.h"
#include "units/dose_text.h"

namespace evenfall {
namespace {

using std::chrono::days;

constexpr int kQuarters = 4;
constexpr std::int64_t kMillionths = 1'000'000;
constexpr std::int64_t kMostCounted = 9999;  // units, or millilitres

/// Asked where nothing is tracked for a person yet.
const std::vector<std::string> kUsualSymptoms = {"anxiety", "low mood", "muscle tension", "poor sleep",
                                                 "restlessness"};

const Stretch* stretch_on(const Course& course, Day day) {
    for (const Stretch& stretch : course.stretches)
        if (stretch.from <= day && (!stretch.to || day < *stretch.to)) return &stretch;
    return nullptr;
}

/// A danger goes into the record by itself before the call that it is told in is saved.
bool is_danger_alone(const CheckIn& check_in, const Rules& rules) {
    return check_in.answers.size() == 1 && check_in.own_words.empty() &&
           !danger_rule(check_in.answers.front().first, rules).empty();
}

/// The last call in which the days could be told; of all calls where `rules` is null.
std::optional<LocalTime> last_call_of(const PatientRecord& record, LocalTime as_of, const Rules* rules) {
    std::optional<LocalTime> last;
    for (const auto& call : record.check_ins)
        if (call.value.at < as_of && (!last || *last < call.value.at) &&
            !(rules && is_danger_alone(call.value, *rules)))
            last = call.value.at;
    return last;
}

/// Whether the diary says that something else was taken than was planned. A day that still runs is not
/// judged.
bool is_off_plan(const Course& course, Day day, Day today) {
    const auto taken = std::ranges::find(course.taken, day, &TakenDay::day);
    return day < today && taken != course.taken.end() && taken->planned && taken->total != *taken->planned;
}

std::set<Day> days_in_diary(const PatientRecord& record) {
    std::set<Day> written;
    for (const auto& noted : record.intake) {
        for (const Intake& entry : noted.value.entries) written.insert(day_of(entry.taken_at));
        written.insert(noted.value.kept_empty.begin(), noted.value.kept_empty.end());
    }
    return written;
}

bool is_written_after(const PatientRecord& record, LocalTime time) {
    return std::ranges::any_of(record.intake, [time](const Entry<IntakeNoted>& noted) {
        return std::ranges::any_of(noted.value.entries, [time](const Intake& entry) {
            return entry.taken_at > time && day_of(entry.taken_at) == day_of(time);
        });
    });
}

/// Whether a day's doses up to a call were told in it: something of them is in the diary, or the call says
/// that the day was not as planned.
bool was_told(const PatientRecord& record, LocalTime call) {
    const std::string off = "not as planned on " + print_day(day_of(call));
    for (const auto& each : record.check_ins)
        if (each.value.at == call)
            for (const auto& [question, answer] : each.value.answers)
                if (question == off) return true;
    return std::ranges::any_of(record.intake, [call](const Entry<IntakeNoted>& noted) {
        return std::ranges::find(noted.value.kept_empty, day_of(call)) != noted.value.kept_empty.end() ||
               std::ranges::any_of(noted.value.entries, [call](const Intake& entry) {
                   return entry.taken_at <= call && day_of(entry.taken_at) == day_of(call);
               });
    });
}

/// The days since the last call. Of the day of that call the doses before it are asked only where it did not
/// tell them, and the evening's in any case: it would else count as missed for ever.
std::vector<AskedDay> asked_days(const PatientRecord& record, const Course& course, const Rules& rules,
                                 LocalTime as_of, const std::optional<LocalTime>& last) {
    const Day today = day_of(as_of);
    const Day earliest = today - days(rules.whole("call-days", "most"));
    const auto written = days_in_diary(record);
    std::vector<AskedDay> asked;
    const Day first = last ? std::max(day_of(*last), earliest) : earliest;
    for (Day day = first; day <= today; day += days(1)) {
        const Stretch* stretch = stretch_on(course, day);
        if (!stretch) continue;
        const bool was_called = last && day == day_of(*last);
        const bool told = was_called && was_told(record, *last);
        AskedDay each{day, {}, was_called ? is_written_after(record, *last) : written.contains(day), false};
        each.off_plan = each.in_diary && is_off_plan(course, day, today);
        for (const PlannedDose& dose : stretch->doses) {
            const LocalTime at = at_clock(day, dose.at);
            if (at <= as_of && !(told && at <= *last)) each.doses.push_back(dose);
        }
        if (!each.doses.empty()) asked.push_back(std::move(each));
    }
    return asked;
}

/// Symptoms that were rated lately or stood at the baseline, the ones rated last first.
void add_symptoms(const PatientRecord& record, const Rules& rules, CallAsks& asks) {
    std::map<std::string, std::pair<LocalTime, int>> latest;
    for (const auto& noted : record.symptoms)
        for (const Rating& rating : noted.value.entries) {
            if (!danger_rule(rating.item, rules).empty()) continue;
            auto& known = latest[rating.item];
            if (known.first <= rating.rated_at) known = {rating.rated_at, rating.severity};
        }
    for (const auto& [item, rated] : latest) asks.last_scores[item] = rated.second;
    std::set<std::string> items;
    for (const auto& [item, rated] : latest) items.insert(item);
    if (record.baseline)
        for (const auto& [item, severity] : record.baseline->value.severity) items.insert(item);
    asks.symptoms.assign(items.begin(), items.end());
    if (asks.symptoms.empty()) asks.symptoms = kUsualSymptoms;
}

void add_intake(const CallForm& form, const CallAsks& asks, std::vector<Change>& changes) {
    IntakeNoted noted;
    for (const AskedDay& day : asks.days) {
        const auto said = form.days.find(day.day);
        if (day.in_diary || said == form.days.end() || said->second != CallDay::as_planned) continue;
        for (const PlannedDose& dose : day.doses)
            noted.entries.push_back(
                {at_clock(day.day, dose.at), dose.drug, dose.amount, TakenWhy::as_planned, ""});
    }
    if (!noted.entries.empty()) changes.emplace_back(std::move(noted));
}

void add_check_in(const CallForm& form, const CallAsks& asks, std::vector<Change>& changes) {
    CheckIn check_in{form.begun, {}, form.own_words};
    for (const std::string& question : asks.dangers)
        if (const auto said = form.answers.find(question);
            said != form.answers.end() && !said->second.empty())
            check_in.answers.emplace_back(question, said->second);
    for (const auto& [question, answer] : form.answers)
        if (!answer.empty() && std::ranges::find(asks.dangers, question) == asks.dangers.end())
            check_in.answers.emplace_back(question, answer);
    for (const auto& [question, score] : form.function)
        check_in.answers.emplace_back(question, std::to_string(score));
    for (const AskedDay& day : asks.days)
        if (const auto said = form.days.find(day.day);
            said != form.days.end() && said->second == CallDay::not_as_planned)
            check_in.answers.emplace_back("not as planned on " + print_day(day.day), "yes");
    changes.emplace_back(std::move(check_in));
}

/// Quarters of a unit that the finest piece of a product is.
int finest_piece(Cuts cuts) {
    return cuts == Cuts::whole ? kQuarters : cuts == Cuts::halves ? 2 : 1;
}

std::optional<SupplyCounted> counted_of(const CallForm& form, const CallAsks& asks, Faults& faults) {
    SupplyCounted counted{day_of(form.begun), {}};
    for (const Product& product : asks.products) {
        const auto typed = form.counted.find(product_name(product));
        if (typed == form.counted.end() || typed->second.empty()) continue;
        auto count = read_count(product, typed->second);
        if (count)
            counted.on_hand.push_back(std::move(*count));
        else
            faults.insert(faults.end(), count.faults().begin(), count.faults().end());
    }
    if (counted.on_hand.empty()) return std::nullopt;
    return counted;
}

}  // namespace

Result<OnHand> read_count(const Product& product, const std::string& typed) {
    const Fault unreadable{
        product.cuts == Cuts::whole && !is_liquid(product.form) ? "count-unreadable" : "count-not-in-pieces",
        product_name(product),
        {{"text", typed.substr(0, 40)}}};
    // Units follow the same rules as millilitres: plain digits, with a point.
    const auto counted = parse_ml(typed, {});
    if (!counted || counted->nl() > kMostCounted * kMillionths) return unreadable;
    if (is_liquid(product.form)) return OnHand{product, 0, *counted};
    const std::int64_t piece = kMillionths / kQuarters * finest_piece(product.cuts);
    if (counted->nl() % piece != 0) return unreadable;
    return OnHand{product, static_cast<int>(counted->nl() / (kMillionths / kQuarters)), {}};
}

bool CallForm::empty() const {
    return answers.empty() && scores.empty() && function.empty() && days.empty() && counted.empty() &&
           own_words.empty() && next_on.empty();
}

CallAsks asks_of(const PatientRecord& record, const Course& course, const Rules& rules, LocalTime as_of) {
    CallAsks asks;
    if (const auto last = last_call_of(record, as_of, nullptr)) asks.last_call = day_of(*last);
    asks.days = asked_days(record, course, rules, as_of, last_call_of(record, as_of, &rules));
    add_symptoms(record, rules, asks);
    asks.dangers = danger_questions(rules);
    for (const auto& call : record.check_ins)
        if (call.value.at < as_of)
            for (const auto& [question, answer] : call.value.answers) asks.last_answers[question] = answer;
    if (record.products)
        for (const Product& product : record.products->value.products)
            if (std::ranges::find(asks.products, product_name(product), &product_name) == asks.products.end())
                asks.products.push_back(product);
    if (record.goals) asks.goals = record.goals->value.goals;
    return asks;
}

std::vector<std::string> unanswered(const CallForm& form, const CallAsks& asks) {
    std::vector<std::string> open;
    for (const std::string& question : asks.dangers) {
        const auto said = form.answers.find(question);
        if (said == form.answers.end() || (said->second != "yes" && said->second != "no"))
            open.push_back(question);
    }
    return open;
}

Result<std::vector<Change>> changes_of(const CallForm& form, const CallAsks& asks) {
    Faults faults;
    std::vector<Change> changes;
    add_intake(form, asks, changes);
    SymptomsNoted rated;
    for (const auto& [item, severity] : form.scores) rated.entries.push_back({form.begun, item, severity});
    if (!rated.entries.empty()) changes.emplace_back(std::move(rated));
    if (auto counted = counted_of(form, asks, faults)) changes.emplace_back(std::move(*counted));
    add_check_in(form, asks, changes);
    if (!form.next_on.empty()) {
        Day next{};
        if (take(parse_day(form.next_on, "next contact"), next, faults))
            changes.emplace_back(ContactPlanned{next, "call"});
    }
    if (!faults.empty()) return faults;
    return changes;
}

std::vector<Flag> to_be_asked(const CallForm& form, const CallAsks& asks, const PatientRecord& record,
                              const Course& course, const Ground& ground) {
    std::vector<Flag> flags;
    Faults ignored;
    bool some = false;
    if (auto counted = counted_of(form, asks, ignored)) {
        some = std::ranges::any_of(
            counted->on_hand, [](const OnHand& each) { return each.quarters > 0 || each.volume > Volume(); });
        PatientRecord with = record;
        with.supply.push_back({"", {}, std::move(*counted)});
        casework::Looking looking{with, course, ground, form.begun};
        casework::look_at_counts(looking);
        for (const Reason& reason : looking.found) flags.push_back(reason.flag);
    }
    const auto out = form.answers.find("run out of tablets");
    if (out != form.answers.end() && out->second == "yes" && some)
        flags.push_back({"call-out-yet-counted", {}, {}});
    return flags;
}

}  // namespace evenfall
