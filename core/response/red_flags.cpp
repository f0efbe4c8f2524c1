// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <cctype>

#include "diary/days.h"
#include "response/assess.h"
#include "units/letters.h"

namespace evenfall::response {
namespace {

using std::chrono::days;

/// An answer as it counts: anything but yes and no is not an answer, and never a no.
Answer answer_of(std::string text) {
    std::erase_if(text, [](unsigned char c) { return std::isspace(c) != 0; });
    text = in_lower_case(std::move(text));
    return text == "yes" ? Answer::yes : text == "no" ? Answer::no : Answer::not_asked;
}

/// When a question was last answered each way. Ratings above 0 of a red-flag item count as yes; a 0 is no no.
struct Heard {
    std::optional<LocalTime> yes, no;

    bool stands() const { return yes && (!no || *yes >= *no); }
};

void later(std::optional<LocalTime>& known, LocalTime at) {
    if (!known || *known < at) known = at;
}

std::map<std::string, Heard> heard_of(const Context& context) {
    std::map<std::string, Heard> heard;
    for (const CheckIn& call : context.input.checkins) {
        if (call.at > context.input.as_of) continue;
        for (const auto& [question, answer] : call.answers) {
            if (answer_of(answer) == Answer::yes) later(heard[question].yes, call.at);
            if (answer_of(answer) == Answer::no) later(heard[question].no, call.at);
        }
    }
    for (const Rating& rating : context.input.diary.ratings)
        if (rating.rated_at <= context.input.as_of && rating.severity > 0)
            later(heard[rating.item].yes, rating.rated_at);
    std::erase_if(heard, [&](const auto& each) { return !is_red_flag(context.rules, each.first); });
    return heard;
}

enum class Level { none = 0, emergency = 1, same_day = 2, unanswered = 3 };

Level level_of(const Rules& rules, const std::string& rule, Level unlisted) {
    const Rule* levels = rules.find("flag-levels");
    if (!levels || !levels->values.contains(rule)) return unlisted;
    return static_cast<Level>(rules.whole("flag-levels", rule));
}

void raise(const Context& context, Level level, Flag flag, RedFlags& result) {
    const Rule* asks = context.rules.find("prescriber-decision");
    if (asks && asks->values.contains(flag.rule)) result.ask_prescriber = true;
    if (level == Level::emergency)
        result.emergencies.push_back(std::move(flag));
    else if (level == Level::unanswered)
        result.unanswered.push_back(std::move(flag));
    else if (level != Level::none)
        result.same_day.push_back(std::move(flag));
}

/// The latest form of each scale up to today.
std::map<std::string, const ScaleScore*> latest_forms(const Context& context) {
    std::map<std::string, const ScaleScore*> latest;
    for (const ScaleScore& score : context.input.scales)
        if (score.on <= context.today() && (!latest[score.scale] || latest[score.scale]->on <= score.on))
            latest[score.scale] = &score;
    std::erase_if(latest, [](const auto& each) { return !each.second; });
    return latest;
}

/// A form's alarm stands until a later form, or until a call of a later day asks and hears no; an emergency
/// only until a later form.
void raise_scales(const Context& context, const std::map<std::string, Heard>& heard, RedFlags& result) {
    for (const auto& [scale, form] : latest_forms(context)) {
        const auto asked = heard.find(scale == "BARS" ? "cannot sit still" : "suicidal thoughts");
        const bool cleared = asked != heard.end() && asked->second.no && !asked->second.stands() &&
                             day_of(*asked->second.no) > form->on;
        for (const Flag& flag : form->flags) {
            const Level level = level_of(context.rules, flag.rule, Level::none);
            if (!cleared || level == Level::emergency) raise(context, level, flag, result);
        }
    }
}

/// Whether a day's doses as written down are off what was intended by more than the rule's percent.
bool is_off(const Context& context, const DiaryDay& day, int percent) {
    const Regimen& intended = regimen_on(context.input, day.day);
    return std::ranges::any_of(agents_of(intended), [&](const std::string& agent) {
        Dose taken;
        for (const auto i : day.intake)
            if (context.input.diary.intake[i].drug == agent) taken += context.input.diary.intake[i].amount;
        const Dose meant = daily_amount(intended, agent);
        const Dose off = taken > meant ? taken - meant : meant - taken;
        return off * 100 > meant * percent;
    });
}

}  // namespace

RedFlags red_flags_of(const Context& context) {
    RedFlags result;
    const auto heard = heard_of(context);
    for (const auto& [question, times] : heard) {
        if (!times.stands()) continue;
        const std::string rule = "red-flag-" + with_dashes(question);
        raise(
            context, level_of(context.rules, rule, Level::same_day),
            {rule, {{"on", print_day(day_of(*times.yes))}}, {print_local_time(*times.yes) + " " + question}},
            result);
    }
    raise_scales(context, heard, result);
    return result;
}

std::optional<Flag> doses_off(const Context& context) {
    const Diary& diary = context.input.diary;
    if (diary.use != Use::scheduled) return std::nullopt;
    const Day from = context.today() - days(context.rules.whole("decide-doses-missed", "days"));
    const int percent = context.rules.whole("decide-doses-missed", "percent");
    Flag flag{"decide-doses-missed", {}, {}};
    for (const DiaryDay& day : diary_days(diary, context.input.as_of, diary_day_begins(context.rules))) {
        const bool kept =
            !day.intake.empty() || std::ranges::find(diary.kept_empty, day.day) != diary.kept_empty.end();
        if (day.day >= from && day.known == DayKnown::recorded && kept && is_off(context, day, percent))
            flag.entries.push_back(print_day(day.day));
    }
    if (flag.entries.empty()) return std::nullopt;
    flag.args["count"] = std::to_string(flag.entries.size());
    return flag;
}

std::vector<Flag> scales_worse(const Context& context) {
    std::vector<Flag> worse;
    const Rule* limits = context.rules.find("scale-worse");
    for (const auto& [scale, latest] : latest_forms(context)) {
        if (!limits || !limits->values.contains(scale) || !latest->total) continue;
        const ScaleScore* earlier = nullptr;
        for (const ScaleScore& each : context.input.scales)
            if (each.scale == scale && each.total && each.on < latest->on &&
                (!earlier || each.on >= earlier->on))
                earlier = &each;
        if (!earlier || *latest->total - *earlier->total < context.rules.whole("scale-worse", scale))
            continue;
        worse.push_back({"scale-worse",
                         {{"scale", scale},
                          {"on", print_day(latest->on)},
                          {"total", std::to_string(*latest->total)},
                          {"earlier", std::to_string(*earlier->total)}},
                         {}});
    }
    return worse;
}

}  // namespace evenfall::response
