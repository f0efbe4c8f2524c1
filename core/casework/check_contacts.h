// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "record/changes.h"
#include "rules/rules.h"

// What makes an entry made between visits impossible to write. Every fault names its field.

namespace evenfall {

struct PatientRecord;

/// Faults: `day-in-future`, `check-in-too-many` (answers), `text-too-long`, `text-control`.
void check_contact(const CheckIn& value, Day today, Faults& faults);
/// Faults: `day-in-future`, `score-out-of-range` (below none, or absurdly high), `scale-unnamed`.
void check_contact(const ScaleAnswers& value, Day today, Faults& faults);
/// Faults: `day-in-future`, `count-negative`, `counted-nothing`.
void check_contact(const SupplyCounted& value, Day today, Faults& faults);
/// Faults: `day-too-far`, those of texts.
void check_contact(const ContactPlanned& value, Day today, Faults& faults);
void check_contact(const ContactAttempted& value, Day today, Faults& faults);
/// Faults: `danger-unnamed`, `whereabouts-empty`.
void check_contact(const WhereaboutsNoted& value, Day today, Faults& faults);
/// Faults: `danger-unnamed`, `told-nobody`, `told-without-answer`.
void check_contact(const DangerTold& value, Day today, Faults& faults);
/// Faults: `reason-missing`, `snooze-not-ahead`.
void check_contact(const ReasonSnoozed& value, Day today, Faults& faults);
void check_contact(const StandingChanged& value, Day today, Faults& faults);
void check_contact(const CareTeamSet& value, Day today, Faults& faults);
/// Faults: `test-empty`, `test-result-undated`, `days-out-of-order`.
void check_contact(const DrugTestNoted& value, Day today, Faults& faults);
/// Faults: `day-in-future`, `days-out-of-order`.
void check_contact(const MonitoringChecked& value, Day today, Faults& faults);
/// Faults: `day-too-far`, `days-out-of-order`.
void check_contact(const LifeEvent& value, Day today, Faults& faults);
/// Faults: `day-in-future`, `counted-nothing`, `count-negative`.
void check_contact(const TabletsReturned& value, Day today, Faults& faults);

/// What the rest of the record makes impossible. Faults: `check-in-before-record` (dated before anything is
/// known to have been taken), `entry-unknown` (a danger or a test that is not in the record), `snooze-danger`
/// (a danger, or a supply that ends, is never put off), `snooze-too-long`.
Faults check_against_record(const Change& change, const PatientRecord& record, const Rules& rules, Day today);

}  // namespace evenfall
