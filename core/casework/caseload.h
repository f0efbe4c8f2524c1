// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "casework/course.h"

namespace evenfall {

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

/// One line of the caseload.
struct CaseloadLine {
    PatientId patient;
    std::string reference;
    std::string name;
    std::string drug;
    Dose daily;
    std::vector<Reason> reasons;  ///< the most pressing first; never empty
    std::vector<SparkPoint> spark;

    bool operator==(const CaseloadLine&) const = default;
};

/// Everything that presses for one person, the most pressing first; one steady reason where nothing does.
std::vector<Reason> reasons_for(const PatientRecord& record, const Course& course, const Rules& rules,
                                LocalTime as_of);

CaseloadLine caseload_line(const PatientRecord& record, const Course& course, const Rules& rules,
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
        none
    };
    Act act = Act::none;
    Urgency urgency = Urgency::steady;
    Flag why;  ///< a rule with its sentence and source

    bool operator==(const NextAct&) const = default;
};

std::vector<NextAct> next_acts(const PatientRecord& record, const Course& course, const Rules& rules,
                               LocalTime as_of);

}  // namespace evenfall
