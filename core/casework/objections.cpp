// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>

#include "casework/caseload.h"
#include "casework/checks.h"
#include "planning/adjust.h"
#include "planning/crossover_person.h"
#include "units/dose_text.h"

namespace evenfall {
namespace {

/// Rules that a step may break and a prescriber has to answer for before signing it.
bool bites(const std::string& rule) {
    static const std::vector<std::string> biting = {
        "cut-over-cap",    "fall-over-two-weeks", "to-off",      "dose-time-dropped",
        "dose-time-rises", "not-makeable",        "skipped-day", "percent-of-first"};
    return std::ranges::find(biting, rule) != biting.end();
}

/// What speaks against a crossover, or against a cut too soon after one.
bool bites_in_crossing(const std::string& rule, bool stage) {
    if (!stage) return rule == "crossover-first-cut";
    return rule == "crossover-one-day" || speaks_against_crossing({rule, {}, {}});
}

bool is_stage(const Step& step) {
    return std::ranges::any_of(step.flags, [](const Flag& f) { return f.rule == "crossover-review"; });
}

/// How many days without the agent the diary ends with, though it was kept and doses were intended.
int days_without(const Course& course) {
    int count = 0;
    for (auto day = course.taken.rbegin(); day != course.taken.rend(); ++day, ++count)
        if (!day->total.is_zero() || !day->planned || day->planned->is_zero()) break;
    return count;
}

class Objector {
  public:
    Objector(const PatientRecord& record, const Ground& ground, LocalTime as_of,
             std::vector<Objection>& objections)
        : record_(record),
          ground_(ground),
          formulary_(ground.formulary),
          rules_(ground.rules),
          as_of_(as_of),
          objections_(objections) {}

    void operator()(const PlanCommitted& committed) {
        if (!record_.suitability)
            object("plan-without-suitability");
        else if (record_.suitability->value.outcome != SuitabilityOutcome::outpatient_taper)
            object("plan-against-suitability", {{"outcome", word(record_.suitability->value.outcome)}});
        if (!record_.baseline) object("plan-without-baseline");
        if (!record_.history || record_.history->value.treatment.empty()) object("plan-without-treatment");
        if (const auto* now = plan_in_force(record_); now && committed.replaces != now->id)
            object("plan-replaces-unnamed");
        for (const Step& step : committed.plan.steps)
            if (step.status == StepStatus::committed && !was_signed(step))
                for (const Flag& flag : step.flags)
                    if (bites(flag.rule) || bites_in_crossing(flag.rule, is_stage(step))) object(flag);
        object_to_cuts(committed.plan);
        const Course course = derive_course(record_, formulary_, rules_, as_of_);
        if (const int days = days_without(course); days > 0)
            for (const Flag& flag : after_missed(course.drug, days, formulary_, rules_)) object(flag);
        // Who was told is asked for elsewhere: the danger itself stands against a cut.
        for (const Reason& reason : reasons_for(record_, course, ground_, as_of_))
            if (reason.urgency == Urgency::red_flag && reason.flag.rule != "danger-untold")
                object(reason.flag);
    }

    void operator()(const Suitability& suitability) {
        if (suitability.outcome != SuitabilityOutcome::outpatient_taper) return;
        const auto view = assess_suitability(record_, formulary_, rules_, day_of(as_of_));
        for (const Flag& finding : view.findings)
            if (rules_.whole(finding.rule, "level") > 0) object(finding);
        const auto unasked = std::ranges::count(view.missing, "risk-not-asked", &Flag::rule);
        if (unasked > 0) object("screen-incomplete", {{"questions", std::to_string(unasked)}});
    }

    void operator()(const RegimenRecorded& recorded) {
        const Regimen& regimen = recorded.regimen.regimen;
        for (const std::string& agent : agents_of(regimen)) {
            const Drug* drug = formulary_.find(agent);
            const Dose daily = daily_amount(regimen, agent);
            if (drug && looks_like_unit_slip(*drug, daily))
                object("unit-slip-likely", {{"amount", print_dose(daily)}, {"drug", agent}});
        }
        const auto* plan = plan_in_force(record_);
        if (!plan) return;
        const Course course = derive_course(record_, formulary_, rules_, as_of_);
        const Regimen today = course.today.value_or(Regimen{});
        for (const std::string& agent : agents_of(regimen))
            if (const Dose was = daily_amount(today, agent), is = daily_amount(regimen, agent); is > was)
                return object("going-back-up", {{"from", print_dose(was)}, {"to", print_dose(is)}});
    }

    template <class T>
    void operator()(const T&) {}

  private:
    /// A step that the plan in force has with the same doses from the same day: it was answered for then.
    bool was_signed(const Step& step) const {
        const auto* now = plan_in_force(record_);
        return now && std::ranges::any_of(now->value.plan.steps, [&](const Step& known) {
                   return known.status == StepStatus::committed && known.starts == step.starts &&
                          known.doses == step.doses;
               });
    }

    /// The cap, and going back up, are held against the doses themselves, whatever flags the plan came with.
    /// A stage of a crossover raises the new agent on purpose.
    void object_to_cuts(const Plan& plan) {
        Dose before = daily_amount(plan.start, plan.request.drug);
        for (const Step& step : plan.steps) {
            if (step.status == StepStatus::committed && !was_signed(step)) object_to_step(plan, step, before);
            before = step.daily;
        }
    }
    void object_to_step(const Plan& plan, const Step& step, Dose before) {
        const bool flagged =
            std::ranges::any_of(step.flags, [](const Flag& f) { return f.rule == "cut-over-cap"; });
        if (!flagged && !before.is_zero() && !step.daily.is_zero() &&
            Share::cut(before, step.daily) > plan.request.cap)
            object("cut-over-cap", {{"percent", print_percent(Share::cut(before, step.daily))},
                                    {"cap", print_percent(plan.request.cap)}});
        if (!before.is_zero() && step.daily > before && !is_stage(step))
            object("going-back-up", {{"from", print_dose(before)}, {"to", print_dose(step.daily)}});
    }

    void object(std::string rule, Args args = {}) { object(Flag{std::move(rule), std::move(args), {}}); }
    void object(const Flag& flag) {
        const bool known =
            std::ranges::any_of(objections_, [&](const Objection& o) { return o.flag == flag; });
        if (!known) objections_.push_back({flag, true});
    }

    const PatientRecord& record_;
    const Ground& ground_;
    const Formulary& formulary_;
    const Rules& rules_;
    LocalTime as_of_;
    std::vector<Objection>& objections_;
};

}  // namespace

std::vector<Objection> object_to(const Change& change, const PatientRecord& record, const Ground& ground,
                                 LocalTime as_of) {
    std::vector<Objection> objections;
    std::visit(Objector(record, ground, as_of, objections), change);
    return objections;
}

}  // namespace evenfall
