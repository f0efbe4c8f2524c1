// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>

#include "casework/course.h"
#include "papers/common.h"
#include "planning/by_hand.h"
#include "units/dose_text.h"

namespace evenfall::papers {
namespace {

constexpr int kDaysBefore = 28;  // of the starting dose on the chart
constexpr std::size_t kMostAmounts = 6;

/// Dates at the beginning of a month, at most about six, so that they can be read.
std::vector<std::pair<Day, std::string>> axis_dates(const Wording& say, Day from, Day to) {
    const int months = std::max<int>(1, static_cast<int>((to - from).count() / 30 / 6 + 1));
    std::vector<std::pair<Day, std::string>> dates;
    auto date = calendar(from);
    for (auto month = date.year() / date.month() + std::chrono::months(1); Day(month / 1) < to;
         month += std::chrono::months(months))
        dates.emplace_back(Day(month / 1), say.short_date(Day(month / 1)));
    return dates;
}

/// Round amounts below the starting dose, the largest first: 1, 2 and 5 times a power of ten; none below
/// what the chart shows.
std::vector<std::pair<double, std::string>> axis_amounts(Dose start, Dose least) {
    std::vector<std::pair<double, std::string>> amounts;
    for (Dose power = Dose::milligrams(1'000); !power.is_zero(); power = power.part(10).value_or(Dose()))
        for (const int digit : {5, 2, 1})
            if (const Dose amount = power * digit;
                amount <= start && amount >= least && amounts.size() < kMostAmounts)
                amounts.emplace_back(amount.mg(), print_dose(amount));
    return amounts;
}

/// How late the steps are that are not agreed: one that was not signed begins tomorrow at the soonest, one
/// that a hold keeps back on the day after its review.
std::chrono::days overdue(const PaperSource& source) {
    const auto open = std::ranges::find_if(source.plan->steps, [&](const Step& step) {
        return step.status != StepStatus::committed || is_kept_back(step, source.hold);
    });
    if (open == source.plan->steps.end()) return std::chrono::days(0);
    const bool held = is_kept_back(*open, source.hold);
    const Day soonest =
        (held ? std::max(source.hold->review_on, source.as_of) : source.as_of) + std::chrono::days(1);
    return std::max(std::chrono::days(0), soonest - open->starts);
}

/// The dose of each day of one agent; where no step takes it any more, down to none.
DoseChart chart_of(const PaperDesk& desk, const std::string& agent) {
    const Plan& plan = *desk.source.plan;
    const Wording& say = desk.say;
    DoseChart chart;
    chart.title = begun(say("letter-chart", {{"agent", say.agent(agent)}}));
    chart.agreed = say("letter-chart-agreed");
    chart.outlook = say("letter-chart-outlook");
    const Dose start = daily_amount(plan.start, agent);
    chart.stairs.push_back({plan.request.start - std::chrono::days(kDaysBefore), start.mg(), true});
    const auto agreed = [&](const Step& step) {
        return step.status == StepStatus::committed && !is_kept_back(step, desk.source.hold);
    };
    const std::chrono::days late = overdue(desk.source);
    const auto begins = [&](const Step& step) { return agreed(step) ? step.starts : step.starts + late; };
    if (start.is_zero()) chart.off = say("letter-chart-off");
    Dose most = start, least = start;
    for (const Step& step : plan.steps) {
        const Dose taken = daily_amount(regimen_of(step.doses), agent);
        chart.stairs.push_back({begins(step), taken.mg(), agreed(step)});
        if (taken.is_zero()) chart.off = say("letter-chart-off");
        most = std::max(most, taken);
        if (!taken.is_zero()) least = least.is_zero() ? taken : std::min(least, taken);
    }
    const Step* last = plan.steps.empty() ? nullptr : &plan.steps.back();
    chart.to =
        last ? begins(*last) + std::chrono::days(last->days.value_or(kDaysBefore)) : plan.request.start;
    chart.dates = axis_dates(say, chart.stairs.front().from, chart.to);
    chart.amounts = axis_amounts(most, std::min(least, most.part(2).value_or(most)));
    return chart;
}

/// The agents whose dose the plan changes: both of a crossover.
std::vector<std::string> charted_agents(const PaperDesk& desk) {
    const Plan& plan = *desk.source.plan;
    if (crossover_stages(plan) == 0) return {desk.drug};
    std::vector<std::string> agents = agents_of(plan.start);
    if (!std::ranges::count(agents, desk.drug)) agents.push_back(desk.drug);
    std::erase_if(agents, [&](const std::string& agent) {
        const Dose start = daily_amount(plan.start, agent);
        return std::ranges::all_of(plan.steps, [&](const Step& step) {
            return daily_amount(regimen_of(step.doses), agent) == start;
        });
    });
    return agents;
}

std::vector<std::string> steps_in_words(const PaperDesk& desk) {
    std::vector<std::string> lines;
    for (const FirmStep& step : desk.steps) {
        const Regimen day = regimen_of(step.step->doses);
        const bool before = is_before_plan(step);
        const Args args = {{"date", desk.say.date(before ? step.last : step.from)},
                           {"doses", daily_in_words(desk, day)}};
        lines.push_back(desk.say(step.step->doses.empty() ? "letter-step-off"
                                 : before                 ? "letter-step-before"
                                                          : "letter-step",
                                 args));
    }
    return lines;
}

/// What the person comes off: both agents of a crossover, else the plan's.
std::string intro_of(const PaperDesk& desk) {
    const auto& plan = desk.source.plan;
    if (plan && crossover_stages(*plan) > 0)
        return desk.say("letter-intro", {{"agent", agents_in_words(desk)}});
    if (takes_nothing(desk)) return desk.say("letter-intro-off", {{"agent", desk.agent()}});
    if (!plan) return desk.say("letter-intro-care", {{"agent", agents_in_words(desk)}});
    std::vector<std::string> others = agents_on_sheet(desk);
    std::erase(others, desk.drug);
    std::string intro = desk.say("letter-intro", {{"agent", desk.agent()}});
    if (others.empty()) return intro;
    return intro + " " + desk.say("letter-intro-also", {{"agents", in_one_phrase(desk, others)}});
}

/// What was reported and is not over first, then what the risk screen says.
std::string risks_in_words(const PaperDesk& desk) {
    std::vector<std::string> words = dangers_in_words(desk);
    for (const std::string& risk : kRiskWords)
        if (desk.source.risks.contains(risk)) words.push_back(risk_in_words(desk, risk));
    return words.empty() ? desk.say("letter-none") : joined(words, ", ");
}

std::string or_none(const PaperDesk& desk, const std::vector<std::string>& words) {
    const std::string all = joined(words, "; ");
    return all.empty() ? desk.say("letter-none") : all;
}

std::string goals_in_words(const PaperDesk& desk) {
    std::vector<std::string> words;
    for (const std::string& goal : desk.source.goals) words.push_back(printable(goal));
    return or_none(desk, words);
}

/// The last day of the agreed steps, where they are over and the next one is not agreed.
std::optional<Day> agreed_until(const PaperSource& source) {
    std::optional<Day> last;
    if (source.plan)
        for (const Step& step : source.plan->steps)
            if (step.status == StepStatus::committed && !is_kept_back(step, source.hold) && step.days &&
                !step.doses.empty())
                last = step.starts + std::chrono::days(*step.days - 1);
    return last;
}

KeyValues state_of(const PaperDesk& desk) {
    const Wording& say = desk.say;
    const PaperSource& source = desk.source;
    KeyValues values;
    values.rows.emplace_back(say("letter-now"), daily_in_words(desk, regimen_on_issue(source)));
    if (source.plan) values.rows.emplace_back(say("letter-before"), daily_in_words(desk, source.plan->start));
    if (const auto until = valid_through(source))
        values.rows.emplace_back(say("letter-agreed"), say.date(*until));
    else if (const auto ended = agreed_until(source); ended && !source.hold && !takes_nothing(desk))
        values.rows.emplace_back(say("letter-agreed"),
                                 say("letter-agreed-ended", {{"date", say.date(*ended)}}));
    if (!source.taken_for.empty()) values.rows.emplace_back(say("letter-for"), printable(source.taken_for));
    values.rows.emplace_back(say("letter-risks"), risks_in_words(desk));
    values.rows.emplace_back(say("letter-medicines"), or_none(desk, medicines_in_words(desk)));
    values.rows.emplace_back(say("letter-goals"), goals_in_words(desk));
    if (source.confidence)
        values.rows.emplace_back(
            say("letter-confidence"),
            say("letter-confidence-value", {{"number", std::to_string(*source.confidence)}}));
    return values;
}

/// What is asked about opioids, by whether one is taken and naloxone is at home.
const char* about_opioids(const PaperSource& source) {
    if (!source.risks.contains("opioid")) return "letter-ask-opioid";
    return source.naloxone_at_home ? "letter-ask-opioid-naloxone" : "letter-ask-opioid-taken";
}

}  // namespace

Document make_letter(const PaperDesk& desk) {
    const Wording& say = desk.say;
    const Clinic& clinic = desk.source.clinic;
    const Args agent = {{"agent", agents_in_words(desk)}};
    const bool off = takes_nothing(desk);
    Document document = begin(Paper::letter, desk, say("letter-title"), say.date(desk.source.as_of));
    add(document, Paragraph{intro_of(desk), false});
    add(document, state_of(desk));
    if (desk.source.plan)
        for (const std::string& drug : charted_agents(desk)) add(document, chart_of(desk, drug));
    List steps{steps_in_words(desk), false};
    if (std::string hold = hold_in_words(desk); !hold.empty()) steps.items.push_back(std::move(hold));
    if (!steps.items.empty()) {
        add(document, Heading{say("letter-steps-heading"), 2}, true);
        add(document, std::move(steps));
    }
    add(document, Heading{say("letter-ask-heading"), 2}, true);
    List asked{{say(off ? "letter-ask-off" : "letter-ask-stop", agent),
                say(off ? "letter-ask-prescribe-off" : "letter-ask-prescribe", agent),
                say(about_opioids(desk.source)), say("letter-ask-tell")},
               false};
    if (desk.source.plan) asked.items.push_back(say("letter-ask-kind"));  // it speaks of a cut
    add(document, std::move(asked));
    add(document, KeyValues{{{say("paper-call-office"),
                              joined({printable(clinic.phone), printable(clinic.name)}, " · ")},
                             {say("paper-call-after"), printable(clinic.after_hours)}},
                            false});
    add(document, prescriber_lines(desk, {}));
    return document;
}

}  // namespace evenfall::papers
