// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "formulary/formulary.h"
#include "record/patient_record.h"
#include "rules/rules.h"

namespace evenfall {

/// A stretch of days on one daily amount: what was or is planned to be taken.
struct Stretch {
    enum class Kind { before, past, today, committed, outlook, hold, off };
    Kind kind = Kind::before;
    int step = 0;  ///< number of the step; 0 before the first
    Day from{};
    std::optional<Day> to;   ///< the day after the last; empty: until further notice
    Dose daily;              ///< of the course's agent
    DiazepamRange diazepam;  ///< all agents of the day; zeros where one has no equivalence
    std::vector<PlannedDose> doses;
    std::vector<Flag> flags;
    Share percent_of_last;
    bool agreed = true;  ///< false: of the outlook

    bool operator==(const Stretch&) const = default;
};

/// What the diary says was taken on a day.
struct TakenDay {
    Day day{};
    Dose total;                   ///< of the plan's agent
    std::optional<Dose> planned;  ///< what the stretch of that day asks for

    bool operator==(const TakenDay&) const = default;
};

/// A mark on the contact lane.
struct ContactMark {
    enum class Kind { check_in, paper, signature, planned, note, supply, regimen };
    Kind kind = Kind::note;
    Day on{};
    Message text;
    EventId event;

    bool operator==(const ContactMark&) const = default;
};

/// Everything that the Course page and the patient band show, derived from the record as of a time.
struct Course {
    /// The plan's agent; where it has not begun, or without a plan, the first agent that is taken today.
    std::string drug;
    std::optional<Regimen> today;  ///< the regimen in force today
    Dose daily_today;              ///< of `drug`
    DiazepamRange diazepam_today;
    std::vector<Stretch> stretches;      ///< in order of time, without gaps from the first regimen on
    std::optional<std::size_t> current;  ///< index of today's stretch
    int day_of_step = 0;                 ///< from 1; 0 where no step runs
    std::optional<int> days_of_step;
    std::optional<Day> signed_through;  ///< the last day that committed steps cover; empty in a hold
    bool on_hold = false;
    std::vector<TakenDay> taken;
    std::vector<ContactMark> contacts;
    std::optional<ContactPlanned> next_contact;
    std::vector<Flag> flags;

    bool operator==(const Course&) const = default;
};

/// Derives the course. Pure: the same record, formulary, rules and time give the same course.
Course derive_course(const PatientRecord& record, const Formulary& formulary, const Rules& rules,
                     LocalTime as_of);

/// The hold that no signature has followed, begun or not: of several (two laptops) from the first day of any
/// until the last review. Empty where the plan has ended.
std::optional<HoldStarted> open_hold(const PatientRecord& record);
/// A hold written while another is open: both, from the first day of either until the last review.
HoldStarted joined_hold(const std::optional<HoldStarted>& open, const HoldStarted& next);
/// Whether a hold keeps a signed step back: one that begins on its first day, or later.
bool is_kept_back(const Step& step, const std::optional<HoldStarted>& hold);
/// What a hold from a day on would keep: the dose of the day before, or of a regimen that was recorded for
/// that day. Never an outlook. Null where nothing is known.
const Stretch* kept_by_hold(const Course& course, Day from);
/// Whether nothing of any agent is taken today. An agent that came off beside one that goes on is not OFF.
bool nothing_is_taken(const Course& course);

/// The plan in force, or null: the last commitment unless the plan has ended.
const Entry<PlanCommitted>* plan_in_force(const PatientRecord& record);
/// The regimen as taken, in force on a day and before any plan, or null.
const Entry<RegimenRecorded>* regimen_in_force(const PatientRecord& record, Day on);

}  // namespace evenfall
