// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <utility>

#include "casework/caseload.h"

// How the reasons of the caseload are looked for, one matter after the other.

namespace evenfall::casework {

/// What each look reads, and where it puts what it finds.
struct Looking {
    const PatientRecord& record;
    const Course& course;
    const Ground& ground;
    LocalTime as_of{};
    std::vector<Reason> found{};
    int rank = 0;

    Day today() const { return day_of(as_of); }
    const Rules& rules() const { return ground.rules; }
    /// The day that lies a rule's number of days back.
    Day days_ago(std::string_view rule, std::string_view name) const;
    /// The day of the last check-in up to now; empty where there is none.
    std::optional<Day> last_call() const;
    /// Whether a planned contact lies ahead, or was due and has not been met.
    bool contact_is_planned() const;
    bool is_off() const { return nothing_is_taken(course); }
    void add(Urgency urgency, std::string rule, Args args = {});
};

/// Whether a monitoring database that was never looked at is no more than a note: a look belongs to the
/// weighing of risk and benefit before a plan is signed (rule `monitoring-never`).
bool monitoring_is_a_note(const PatientRecord& record, const Rules& rules);

std::string in_days(Day from, Day to);

// In the order of what could hurt soonest.
void look_at_dangers(Looking& looking);
void look_at_supply(Looking& looking);
void look_at_life(Looking& looking);
void look_at_attempts(Looking& looking);
void look_at_forms(Looking& looking);
void look_at_response(Looking& looking);
void look_at_contact(Looking& looking);
void look_at_hold(Looking& looking);
void look_at_plan_conflict(Looking& looking);
void look_at_steps(Looking& looking);
void look_at_tests(Looking& looking);
void look_at_interactions(Looking& looking);
void look_at_dosing(Looking& looking);
void look_at_counts(Looking& looking);
void look_at_double_entries(Looking& looking);
void look_at_silence(Looking& looking);
void look_after_off(Looking& looking);
void look_before_the_first_plan(Looking& looking);
void look_at_team(Looking& looking);

}  // namespace evenfall::casework
