// SPDX-License-Identifier: GPL-3.0-or-later
#include "casework/caseload.h"

#include <algorithm>

#include "casework/supply_left.h"
#include "units/dose_text.h"

namespace evenfall {
namespace {

using std::chrono::days;

std::string in_days(Day from, Day to) {
    return std::to_string((to - from).count());
}

/// Collects what presses for one person.
class Pressing {
  public:
    Pressing(const PatientRecord& record, const Course& course, const Rules& rules, LocalTime as_of)
        : record_(record), course_(course), rules_(rules), today_(day_of(as_of)) {}

    std::vector<Reason> all() {
        // In the order of what could hurt soonest: an abrupt stop comes before a late call or a late
        // signature.
        for (const auto look : {&Pressing::red_flags, &Pressing::supply, &Pressing::contact, &Pressing::hold,
                                &Pressing::steps, &Pressing::silence, &Pressing::before_the_first_plan}) {
            (this->*look)();
            ++rank_;
        }
        if (reasons_.empty()) steady();
        std::ranges::stable_sort(reasons_, {}, [](const Reason& r) { return std::pair(r.urgency, r.rank); });
        return std::move(reasons_);
    }

  private:
    void add(Urgency urgency, std::string rule, Args args = {}) {
        reasons_.push_back({urgency, rank_, {std::move(rule), std::move(args), {}}});
    }

    /// A danger that was answered with yes stands until a later call answers no.
    void red_flags() {
        std::map<std::string, std::pair<std::string, const Entry<CheckIn>*>> latest;
        for (const auto& check_in : record_.check_ins)
            for (const auto& [question, answer] : check_in.value.answers)
                latest[question] = {answer, &check_in};
        for (const auto& [question, answered] : latest) {
            std::string rule = "red-flag-" + question;
            std::ranges::replace(rule, ' ', '-');
            if (answered.first == "yes" && rules_.find(rule))
                add(Urgency::red_flag, rule, {{"on", print_day(day_of(answered.second->value.at))}});
        }
    }

    void steps() {
        const auto* plan = plan_in_force(record_);
        if (!plan || course_.on_hold) return;
        const Step* next = nullptr;
        for (const Step& step : plan->value.plan.steps)
            if (step.status == StepStatus::outlook && !next) next = &step;
        if (!next) return;
        const Args args = {{"step", std::to_string(next->number)},
                           {"on", print_day(next->starts)},
                           {"dose", print_dose(next->daily)}};
        if (next->starts <= today_)
            add(Urgency::today, "step-due-unsigned", args);
        else if (next->starts <= today_ + days(rules_.whole("step-due-soon", "days")))
            add(Urgency::this_week, "step-due-soon", args);
        if (plan->value.plan.floor.amount && course_.daily_today <= *plan->value.plan.floor.amount)
            add(Urgency::this_week, "at-the-floor", {{"dose", print_dose(course_.daily_today)}});
    }

    void supply() {
        const auto out = supply_runs_out(record_, course_);
        if (!out) return;
        const Day last = *out - days(1);
        const Args args = {{"on", print_day(last)}, {"days", in_days(today_, last)}};
        if (last < today_)
            add(Urgency::today, "supply-ended", args);
        else if (last <= today_ + days(rules_.whole("supply-ends-today", "days")))
            add(Urgency::today, last == today_ ? "supply-ends-today" : "supply-ends-tomorrow", args);
        else if (last <= today_ + days(rules_.whole("supply-ends-soon", "days")))
            add(Urgency::this_week, "supply-ends-soon", args);
    }

    void hold() {
        if (!course_.on_hold || record_.holds.empty()) return;
        const Day review = record_.holds.back().value.review_on;
        if (review <= today_)
            add(Urgency::today, "hold-ended", {{"on", print_day(review)}});
        else if (review <= today_ + days(rules_.whole("hold-ends", "days")))
            add(Urgency::this_week, "hold-ends", {{"on", print_day(review)}});
    }

    /// A planned contact is met by a check-in on that day or later.
    void contact() {
        if (!record_.next_contact) return;
        const ContactPlanned& planned = record_.next_contact->value;
        for (const auto& check_in : record_.check_ins)
            if (day_of(check_in.value.at) >= planned.on) return;
        const Args args = {
            {"on", print_day(planned.on)}, {"how", planned.how}, {"days", in_days(planned.on, today_)}};
        if (planned.on < today_)
            add(Urgency::today, "contact-overdue", args);
        else if (planned.on == today_)
            add(Urgency::today, "contact-today", args);
    }

    void silence() {
        if (!course_.current || course_.daily_today.is_zero()) return;
        Day heard = Day::min();
        for (const auto& check_in : record_.check_ins) heard = std::max(heard, day_of(check_in.value.at));
        if (!course_.taken.empty()) heard = std::max(heard, course_.taken.back().day);
        if (heard == Day::min()) return;
        if (today_ - heard > days(rules_.whole("nothing-heard", "days")))
            add(Urgency::this_week, "nothing-heard",
                {{"heard_days", in_days(heard, today_)}, {"on", print_day(heard)}});
    }

    /// A gate that was gone round presses until an outcome is signed.
    void before_the_first_plan() {
        if (!record_.plans.empty()) {
            if (plan_in_force(record_) && !record_.suitability) add(Urgency::this_week, "suitability-open");
            return;
        }
        if (record_.regimens.empty()) return add(Urgency::this_week, "intake-open");
        if (!record_.suitability) return add(Urgency::this_week, "suitability-open");
        if (record_.suitability->value.outcome == SuitabilityOutcome::outpatient_taper)
            add(Urgency::this_week, "plan-open");
    }

    void steady() {
        if (course_.current && course_.daily_today.is_zero()) return add(Urgency::steady, "steady-off");
        if (record_.plan_ended)
            return add(Urgency::steady, "steady-maintenance", {{"dose", print_dose(course_.daily_today)}});
        if (course_.current && course_.stretches[*course_.current].step > 0)
            return add(Urgency::steady, "steady-step",
                       {{"step", std::to_string(course_.stretches[*course_.current].step)}});
        add(Urgency::steady, "steady-waiting");
    }

    const PatientRecord& record_;
    const Course& course_;
    const Rules& rules_;
    Day today_;
    std::vector<Reason> reasons_;
    int rank_ = 0;
};

std::vector<SparkPoint> spark_of(const Course& course, Day today) {
    std::vector<SparkPoint> spark;
    if (course.stretches.empty()) return spark;
    const Day first = course.stretches.front().from;
    for (const Stretch& stretch : course.stretches) {
        if (stretch.from > today) break;
        const Day end = stretch.to ? std::min(*stretch.to, today + days(1)) : today + days(1);
        spark.push_back({static_cast<int>((stretch.from - first).count()), stretch.daily.mg()});
        spark.push_back({static_cast<int>((end - first).count()), stretch.daily.mg()});
    }
    return spark;
}

}  // namespace

std::vector<Reason> reasons_for(const PatientRecord& record, const Course& course, const Rules& rules,
                                LocalTime as_of) {
    return Pressing(record, course, rules, as_of).all();
}

CaseloadLine caseload_line(const PatientRecord& record, const Course& course, const Rules& rules,
                           LocalTime as_of) {
    CaseloadLine line;
    line.patient = record.id;
    if (record.person) {
        line.reference = record.person->value.reference;
        line.name = record.person->value.name;
    }
    line.drug = course.drug;
    line.daily = course.daily_today;
    line.reasons = reasons_for(record, course, rules, as_of);
    line.spark = spark_of(course, day_of(as_of));
    return line;
}

void sort_caseload(std::vector<CaseloadLine>& lines) {
    std::ranges::stable_sort(lines, [](const CaseloadLine& a, const CaseloadLine& b) {
        const auto key = [](const CaseloadLine& l) {
            const Reason& first = l.reasons.front();
            return std::tie(first.urgency, first.rank, l.name, l.reference);
        };
        return key(a) < key(b);
    });
}

}  // namespace evenfall
