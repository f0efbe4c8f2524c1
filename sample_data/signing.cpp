// SPDX-License-Identifier: GPL-3.0-or-later
#include "sample_data/signing.h"

#include <algorithm>
#include <stdexcept>

#include "planning/taper.h"

namespace evenfall::sample {
namespace {

using std::chrono::days;

template <class T>
T must(Result<T> result, const Story& story) {
    if (result) return std::move(*result);
    std::string text = story.person.name + ": " + result.faults().front().id;
    for (const auto& [key, value] : result.faults().front().args) text += " " + key + "=" + value;
    throw std::runtime_error(text);
}

TaperInput input_of(const Signing& signing, const Teller& teller) {
    const Drug& drug = *teller.formulary.find(signing.request.drug);
    TaperInput input{signing.start, signing.products, {}, slowest_half_life_h(drug.kinetics)};
    for (const ListedProduct& listed : drug.products)
        if (listed.for_steps) input.candidates.push_back(listed.product);
    return input;
}

Plan first_plan(const Story& story, const Signing& signing, const Teller& teller) {
    return must(plan_taper(signing.request, input_of(signing, teller), teller.rules), story);
}

std::size_t signed_steps(const Plan& plan) {
    return static_cast<std::size_t>(std::ranges::count(plan.steps, StepStatus::committed, &Step::status));
}

void hand_out(Story& story, const Plan& plan, Day day) {
    story.on(day, PlanCommitted{plan, {}, {}});
    const Step& last = plan.steps[signed_steps(plan) - 1];
    story.on(day, PaperIssued{"schedule", {}, {}, day, last.starts + days(last.days.value_or(28) - 1)});
}

void remember(Story& story, const Plan& plan) {
    for (const Step& step : plan.steps) {
        if (step.status != StepStatus::committed) continue;
        story.intended.push_back({step.starts, step.doses});
        const Share& cut = step.percent_of_last;
        story.cuts.emplace_back(step.starts, static_cast<int>(100 * cut.numerator() / cut.denominator()));
    }
}

/// The step to OFF is agreed like any other where nothing else is left to agree.
void agree_off(Plan& plan, const Signing& signing) {
    Step& last = plan.steps.back();
    if (signing.off_too && last.daily.is_zero() && signed_steps(plan) + 1 == plan.steps.size())
        last.status = StepStatus::committed;
}

}  // namespace

PlanRequest usual_request(const std::string& drug) {
    PlanRequest request;
    request.drug = drug;
    request.target = Share::percent(8);
    return request;
}

void start_so_that(Signing& signing, int step, int days_ago, const Teller& teller) {
    signing.request.start = kToday;
    const Plan plan = first_plan(Story{{}, {}}, signing, teller);
    const std::size_t index = step == 0 ? plan.steps.size() - 1 : static_cast<std::size_t>(step - 1);
    const auto offset = plan.steps.at(index).starts - kToday;
    signing.request.start = kToday - days(days_ago) - offset;
}

Plan sign(Story& story, const Signing& signing, const Teller& teller) {
    Plan plan = first_plan(story, signing, teller);
    hand_out(story, plan, signing.request.start - days(3));
    for (;;) {
        const std::size_t count = signed_steps(plan);
        if (count >= plan.steps.size()) break;
        const Day next = plan.steps[count].starts;
        const Day day = next - days(signing.lead_days);
        if (day > signing.until || day >= kToday || plan.steps[count].daily.is_zero()) break;
        Replan change{static_cast<int>(count), next, signing.request, input_of(signing, teller)};
        plan = must(replan(plan, change, teller.rules), story);
        agree_off(plan, signing);
        hand_out(story, plan, day);
    }
    remember(story, plan);
    return plan;
}

}  // namespace evenfall::sample
