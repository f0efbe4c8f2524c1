// SPDX-License-Identifier: GPL-3.0-or-later
#include "papers/source.h"

#include <algorithm>

#include "casework/course.h"
#include "casework/dangers.h"
#include "casework/interactions.h"
#include "casework/record_check.h"
#include "casework/supply_left.h"
#include "papers/code.h"
#include "papers/papers.h"

namespace evenfall::papers {
namespace {

constexpr std::string_view kPartsRule = "parts-of-day";

void take_person(PaperSource& source, const PatientRecord& record) {
    if (record.person) source.person = record.person->value;
    if (record.risks)
        for (const auto& [risk, answer] : record.risks->value.answers)
            if (answer == Answer::yes) source.risks.insert(risk);
    if (record.other_medicines) {
        source.naloxone_at_home = record.other_medicines->value.naloxone_at_home;
        for (const OtherMedicine& medicine : record.other_medicines->value.medicines)
            source.other_medicines.push_back(medicine.name);
    }
    if (record.goals) {
        source.goals = record.goals->value.goals;
        source.confidence = record.goals->value.confidence;
    }
    if (record.history) source.taken_for = record.history->value.taken_for;
    if (record.baseline)
        for (const auto& [item, severity] : record.baseline->value.severity)
            source.tracked_items.push_back(item);
}

/// The last schedule that went out and is not the one being made.
void take_replaced(PaperSource& source, const PatientRecord& record) {
    const std::string code = code_of(source);
    for (const auto& issued : record.papers)
        if (issued.value.paper == word(Paper::schedule) && issued.value.code != code) {
            source.replaces_code = issued.value.code;
            source.replaces_on = issued.value.on;
        }
}

/// The plan as far as it is firm: what is not agreed, or would begin after a hold, is not dispensed for.
Plan firm_plan(const PaperSource& source) {
    Plan firm = *source.plan;
    std::erase_if(firm.steps, [&](const Step& step) {
        return step.status != StepStatus::committed || is_kept_back(step, source.hold);
    });
    return firm;
}

/// What may be dispensed: the plan's products, and what else this person has or can get.
std::vector<Product> dispensable(const Plan& plan, const PatientRecord& record) {
    std::vector<Product> products = plan.products;
    if (record.products)
        for (const Product& product : record.products->value.products)
            if (std::ranges::count(products, product) == 0) products.push_back(product);
    return products;
}

/// Makes the starting regimen, and the doses of other agents, of what the person has: what the pharmacy is
/// told in pieces. A dose of the plan's own agent keeps the pieces that were signed.
void take_pieces(PaperSource& source, const PatientRecord& record, const PieceWeights& weights) {
    if (!source.plan) return;
    Plan& plan = *source.plan;
    const std::vector<Product> products = dispensable(plan, record);
    for (const DoseTime& dose : plan.start.doses)
        source.before.push_back({dose.at, dose.drug, dose.amount, {}});
    add_usual_pieces(source.before, source.on_hand, products, weights);
    for (Step& step : plan.steps) {
        std::vector<PlannedDose> others = step.doses;
        std::erase_if(others, [&](const PlannedDose& dose) { return dose.drug == plan.request.drug; });
        add_usual_pieces(others, source.on_hand, products, weights);
        auto other = others.begin();
        for (PlannedDose& dose : step.doses)
            if (dose.drug != plan.request.drug) dose = *other++;
    }
}

/// Where a hold began before any step, the papers tell what goes on until its review, as a step of its own.
void take_held_start(PaperSource& source) {
    if (!source.plan || !source.hold) return;
    Plan& plan = *source.plan;
    const bool any = std::ranges::any_of(plan.steps, [&](const Step& step) {
        return step.status == StepStatus::committed && !is_kept_back(step, source.hold);
    });
    if (any || source.before.empty()) return;
    Step held;
    held.number = 0;
    held.starts = std::min(source.as_of, source.hold->from) - std::chrono::days(1);
    held.days = 1;  // the hold makes it last
    held.status = StepStatus::committed;
    held.doses = source.before;
    for (const PlannedDose& dose : held.doses)
        if (dose.drug == plan.request.drug) held.daily += dose.amount;
    plan.steps.insert(plan.steps.begin(), std::move(held));
}

/// What the course tells: an opioid that was entered as a medicine, whatever the risk screen says, and what
/// is left at home.
void take_from_course(PaperSource& source, const PatientRecord& record, const Rules& rules) {
    const Course course = derive_course(record, *source.formulary, rules, at_clock(source.as_of, {}));
    source.agent = course.drug;
    if (!source.plan) {
        // The course knows what is taken after a plan has ended: the dose that was kept, or nothing.
        source.regimen = course.today.value_or(Regimen{});
        const auto* regimen = regimen_in_force(record, source.as_of);
        source.as_needed = regimen && regimen->value.use == Use::as_needed;
    }
    for (const Met& met : interactions_of(record, course, *source.formulary, rules))
        if (met.opioid) source.risks.insert("opioid");
    const SupplyCounted* count = last_count(record, source.as_of);
    if (!count) return;
    source.on_hand = on_hand_on(record, course, source.as_of, PieceWeights::from(rules));
    source.counted_on = count->on;
    for (const OnHand& each : count->on_hand) source.counted.insert(each.product.drug);
}

/// The dangers that stand at the end of the day of issue.
void take_reported(PaperSource& source, const PatientRecord& record, const Rules& rules,
                   const Scales& scales) {
    const LocalTime end = at_clock(source.as_of, {24 * 60 - 1});
    for (const Danger& danger : standing_dangers(record, rules, scales, end))
        if (danger.level != DangerLevel::to_be_asked) source.reported.push_back(danger.flag);
}

/// The fills that the committed steps need, from the day of issue to the last committed day. What was counted
/// at home earlier is less today by what the course took since.
void take_supply(PaperSource& source, const PatientRecord& record, const Rules& rules) {
    const auto last = valid_through(source);
    if (!source.plan || !last || *last < source.as_of) return;
    SupplyInput input;
    input.from = source.as_of;
    input.to = *last + std::chrono::days(1);
    Plan firm = firm_plan(source);
    firm.products = dispensable(firm, record);
    input.doses = doses_of(firm, input.from, PieceWeights::from(rules), source.on_hand);
    input.days_per_fill = source.clinic.days_per_fill;
    input.reserve_days = source.clinic.reserve_days;
    input.limits = SupplyLimits::from(rules);
    input.on_hand = source.on_hand;
    if (auto made = supply_for(input)) source.supply = std::move(*made);
}

}  // namespace

PartsOfDay PartsOfDay::from(const Rules& rules) {
    return {rules.whole(kPartsRule, "morning_hour"), rules.whole(kPartsRule, "midday_hour"),
            rules.whole(kPartsRule, "afternoon_hour"), rules.whole(kPartsRule, "evening_hour"),
            rules.whole(kPartsRule, "bedtime_hour")};
}

PaperSource source_from_record(const PatientRecord& record, const Clinic& clinic, const Formulary& formulary,
                               const Rules& rules, const Scales& scales, Day as_of) {
    PaperSource source;
    source.rules = &rules;
    source.clinic = clinic;
    source.formulary = &formulary;
    source.parts = PartsOfDay::from(rules);
    source.as_of = as_of;
    take_person(source, record);
    if (const auto* plan = plan_in_force(record)) {
        source.plan = plan->value.plan;
        source.plan_id = plan->id;
        source.prescriber = plan->value.signed_by;
        source.hold = open_hold(record);
    }
    take_replaced(source, record);
    take_from_course(source, record, rules);
    take_pieces(source, record, PieceWeights::from(rules));
    take_held_start(source);
    take_reported(source, record, rules, scales);
    take_supply(source, record, rules);
    return source;
}

void take_check(PaperSource& source, const PatientRecord& record, const Rules& rules, const Zone& zone,
                LocalTime as_of, std::optional<int> judged_days) {
    if (record.intake.empty() && record.symptoms.empty()) return;
    const Course course = derive_course(record, *source.formulary, rules, as_of);
    source.rules = &rules;
    source.judged = Judged{check_stabilization(check_input_of(record, course, as_of, judged_days),
                                               *source.formulary, rules, zone),
                           as_of};
}

}  // namespace evenfall::papers
