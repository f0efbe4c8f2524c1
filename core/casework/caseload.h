// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "casework/course.h"
#include "response/scales.h"

namespace evenfall {

/// What everything derived rests on, beside the record and the time.
struct Ground {
    const Formulary& formulary;
    const Rules& rules;
    const Scales& scales;
};

/// How much something presses.
enum class Urgency { red_flag, today, this_week, steady };

/// Why a person stands where they stand in the list: the rule that says so, with its values.
struct Reason {
    Urgency urgency = Urgency::steady;
    int rank = 0;  ///< among reasons of one urgency: what could hurt soonest comes first
    Flag flag;

    bool operator==(const Reason&) const = default;
};

/// A point of the small dose line: days from the first, and mg a day (for drawing only).
struct SparkPoint {
    int day = 0;
    double mg = 0;

    bool operator==(const SparkPoint&) const = default;
};

/// A reason that is put off, and until when.
struct Snoozed {
    Reason reason;
    Day until{};
    std::string because;

    bool operator==(const Snoozed&) const = default;
};

/// One line of the caseload.
struct CaseloadLine {
    PatientId patient;
    std::string reference;
    std::string name;
    std::string drug;
    Dose daily;
    std::vector<Reason> reasons;  ///< the most pressing first; never empty
    std::vector<SparkPoint> spark;
    std::string phone;
    std::string safe_times;  ///< when it is safe to phone
    std::string clinician, nurse;
    std::vector<Snoozed> snoozed;
    CareStanding standing = CareStanding::in_care;  ///< anything else is never on the call list

    bool operator==(const CaseloadLine&) const = default;
};

/// Everything that presses for one person, the most pressing first, what is put off left out; one steady
/// reason where nothing does. Nothing presses for a person who is no longer in care.
std::vector<Reason> reasons_for(const PatientRecord& record, const Course& course, const Ground& ground,
                                LocalTime as_of);

/// What would press and is put off. A danger and a supply that ends are never put off.
std::vector<Snoozed> snoozed_for(const PatientRecord& record, const Course& course, const Ground& ground,
                                 LocalTime as_of);

/// Whether a reason of this rule is never put off.
bool is_never_put_off(const std::string& rule, const Rules& rules);

CaseloadLine caseload_line(const PatientRecord& record, const Course& course, const Ground& ground,
                           LocalTime as_of);

/// Orders lines by what presses: urgency, then rank, then name.
void sort_caseload(std::vector<CaseloadLine>& lines);

/// What to do next for a person, why, and the act itself.
struct NextAct {
    enum class Act {
        record_regimen,
        record_risks,
        record_baseline,
        sign_suitability,
        build_plan,
        sign_step,
        print_schedule,
        call,
        count_supply,
        review_hold,
        review_next_cut,
        tell_danger,     ///< tell someone of a danger, and write down who
        read_response,   ///< look at how the last step was borne
        look_at_diary,   ///< see what was taken
        record_test,     ///< a drug test or a look into the monitoring database
        read_medicines,  ///< look at what else is taken
        record_life,     ///< write down what happened and what it means for the plan
        record_team,     ///< who looks after the person
        settle_entries,  ///< two entries of one call
        none
    };
    Act act = Act::none;
    Urgency urgency = Urgency::steady;
    Flag why;  ///< a rule with its sentence and source

    bool operator==(const NextAct&) const = default;
};

std::vector<NextAct> next_acts(const PatientRecord& record, const Course& course, const Ground& ground,
                               LocalTime as_of);

}  // namespace evenfall
