// SPDX-License-Identifier: GPL-3.0-or-later
#include "casework/caseload.h"

#include <algorithm>

#include "casework/drawn_course.h"
#include "casework/looking.h"
#include "units/dose_text.h"

namespace evenfall {
namespace {

using casework::Looking;
using std::chrono::days;

/// Everything that presses, put off or not.
std::vector<Reason> all_reasons(Looking& looking) {
    using namespace casework;
    for (const auto look :
         {&look_at_dangers, &look_at_supply, &look_at_life, &look_at_attempts, &look_at_forms,
          &look_at_response, &look_at_contact, &look_at_hold, &look_at_plan_conflict, &look_at_steps,
          &look_at_interactions, &look_at_dosing, &look_at_counts, &look_at_double_entries, &look_at_silence,
          &look_after_off, &look_before_the_first_plan, &look_at_tests, &look_at_team}) {
        look(looking);
        ++looking.rank;
    }
    return std::move(looking.found);
}

bool in_care(const PatientRecord& record) {
    return !record.standing || record.standing->value.standing == CareStanding::in_care;
}

/// The latest word on putting a rule off; null where it is not put off today.
const ReasonSnoozed* snooze_of(const PatientRecord& record, const std::string& rule, Day today) {
    const ReasonSnoozed* latest = nullptr;
    for (const auto& each : record.snoozed)
        if (each.value.rule == rule) latest = &each.value;
    return latest && latest->until > today ? latest : nullptr;
}

bool is_put_off(const Reason& reason, const PatientRecord& record, const Rules& rules, Day today) {
    return reason.urgency != Urgency::red_flag && !is_never_put_off(reason.flag.rule, rules) &&
           snooze_of(record, reason.flag.rule, today) != nullptr;
}

void add_steady(Looking& looking) {
    const Course& course = looking.course;
    if (looking.is_off()) return looking.add(Urgency::steady, "steady-off");
    if (looking.record.plan_ended)
        return looking.add(Urgency::steady, "steady-maintenance", {{"dose", print_dose(course.daily_today)}});
    if (course.current && course.stretches[*course.current].step > 0)
        return looking.add(Urgency::steady, "steady-step",
                           {{"step", std::to_string(course.stretches[*course.current].step)}});
    looking.add(Urgency::steady, "steady-waiting");
}

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

/// What presses and what is put off, each in order.
struct Sorted {
    std::vector<Reason> reasons;
    std::vector<Snoozed> snoozed;
};

Sorted sort_reasons(const PatientRecord& record, const Course& course, const Ground& ground,
                    LocalTime as_of) {
    Looking looking{record, course, ground, as_of};
    Sorted sorted;
    if (!in_care(record)) {
        looking.add(Urgency::steady, "not-in-care",
                    {{"standing", word(record.standing->value.standing)},
                     {"on", print_day(record.standing->value.on)}});
        sorted.reasons = std::move(looking.found);
        return sorted;
    }
    for (Reason& reason : all_reasons(looking)) {
        if (!is_put_off(reason, record, ground.rules, looking.today())) {
            sorted.reasons.push_back(std::move(reason));
            continue;
        }
        const ReasonSnoozed* snooze = snooze_of(record, reason.flag.rule, looking.today());
        sorted.snoozed.push_back({std::move(reason), snooze->until, snooze->reason});
    }
    if (sorted.reasons.empty()) {
        looking.found.clear();
        add_steady(looking);
        sorted.reasons = std::move(looking.found);
    }
    std::ranges::stable_sort(sorted.reasons, {},
                             [](const Reason& r) { return std::pair(r.urgency, r.rank); });
    return sorted;
}

}  // namespace

bool is_never_put_off(const std::string& rule, const Rules& rules) {
    const Rule* found = rules.find(rule);
    if (found && found->group == "red-flag") return true;
    for (const char* list : {"flag-levels", "snooze-never"}) {
        const Rule* never = rules.find(list);
        if (never && never->values.contains(rule)) return true;
    }
    return false;
}

std::vector<Reason> reasons_for(const PatientRecord& record, const Course& course, const Ground& ground,
                                LocalTime as_of) {
    return sort_reasons(record, course, ground, as_of).reasons;
}

std::vector<Snoozed> snoozed_for(const PatientRecord& record, const Course& course, const Ground& ground,
                                 LocalTime as_of) {
    return sort_reasons(record, course, ground, as_of).snoozed;
}

CaseloadLine caseload_line(const PatientRecord& record, const Course& course, const Ground& ground,
                           LocalTime as_of) {
    CaseloadLine line;
    line.patient = record.id;
    if (record.person) {
        line.reference = record.person->value.reference;
        line.name = record.person->value.name;
        line.phone = record.person->value.phone;
    }
    if (record.supports) line.safe_times = record.supports->value.safe_times;
    if (record.team) {
        line.clinician = record.team->value.clinician;
        line.nurse = record.team->value.nurse;
    }
    if (record.standing) line.standing = record.standing->value.standing;
    line.drug = course.drug;
    line.daily = course.daily_today;
    Sorted sorted = sort_reasons(record, course, ground, as_of);
    line.reasons = std::move(sorted.reasons);
    line.snoozed = std::move(sorted.snoozed);
    line.spark =
        spark_of(agents_trade_places(course) ? with_doses_as_diazepam(course) : course, day_of(as_of));
    return line;
}

void sort_caseload(std::vector<CaseloadLine>& lines) {
    std::ranges::stable_sort(lines, [](const CaseloadLine& a, const CaseloadLine& b) {
        const auto key = [](const CaseloadLine& l) {
            const Reason& first = l.reasons.front();
            return std::tuple<bool, Urgency, int, const std::string&, const std::string&>(
                l.standing != CareStanding::in_care, first.urgency, first.rank, l.name, l.reference);
        };
        return key(a) < key(b);
    });
}

}  // namespace evenfall
