// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "model/person.h"
#include "model/words.h"
#include "record/event.h"
#include "units/day.h"

// What is written down between visits: calls that reached nobody, what was done about a danger, and what
// happens in a life beside the taper. Words are for the record, not about the person's worth.

namespace evenfall {

/// A call that reached nobody.
struct ContactAttempted {
    LocalTime at{};
    std::string number;  ///< by which number
    std::string note;

    bool operator==(const ContactAttempted&) const = default;
};

/// Where the person is, asked first when a danger is heard.
struct WhereaboutsNoted {
    EventId danger;  ///< the entry that raised it: a check-in, a form, a rating
    LocalTime at{};
    std::string where;
    std::string with_whom;
    std::string call_back;  ///< a number

    bool operator==(const WhereaboutsNoted&) const = default;
};

/// Who was told of a danger, and what they answered.
struct DangerTold {
    EventId danger;  ///< the entry that raised it
    LocalTime at{};
    std::string who;
    std::string number;
    std::string answer;

    bool operator==(const DangerTold&) const = default;
};

/// A reason of the caseload is put off. It comes back on its day, or when it grows more pressing.
struct ReasonSnoozed {
    std::string rule;
    Day until{};  ///< the day on which it stands again
    std::string reason;

    bool operator==(const ReasonSnoozed&) const = default;
};

/// Whether the person is on the call list. The record stays whatever this says.
enum class CareStanding { in_care, care_ended, moved_away, died };
template <>
struct Words<CareStanding> {
    static constexpr std::array<WordPair<CareStanding>, 4> table{{{CareStanding::in_care, "in care"},
                                                                  {CareStanding::care_ended, "care ended"},
                                                                  {CareStanding::moved_away, "moved away"},
                                                                  {CareStanding::died, "died"}}};
};

struct StandingChanged {
    CareStanding standing = CareStanding::in_care;
    Day on{};
    std::string note;

    bool operator==(const StandingChanged&) const = default;
};

/// Who looks after the person, by the names that the clinic's users go by.
struct CareTeamSet {
    std::string clinician;
    std::string nurse;

    bool operator==(const CareTeamSet&) const = default;
};

/// How a result agrees with what the person said they take.
enum class TestAgrees { not_known, expected, not_expected };
template <>
struct Words<TestAgrees> {
    static constexpr std::array<WordPair<TestAgrees>, 3> table{
        {{TestAgrees::not_known, "not known"},
         {TestAgrees::expected, "as expected"},
         {TestAgrees::not_expected, "not as expected"}}};
};

/// A drug test as far as it has come. A later entry of one test names the first one that it continues.
struct DrugTestNoted {
    EventId continues;                ///< empty for a new test
    std::optional<Day> explained_on;  ///< to the person, beforehand
    std::optional<Day> ordered_on;
    std::optional<Day> result_on;
    std::string assay;
    std::string result;  ///< in the laboratory's words
    TestAgrees agrees = TestAgrees::not_known;
    std::string note;

    bool operator==(const DrugTestNoted&) const = default;
};

/// A look into the prescription-monitoring database.
struct MonitoringChecked {
    Day on{};
    std::string found;
    std::optional<Day> next_due;

    bool operator==(const MonitoringChecked&) const = default;
};

/// What happens in a life and touches the plan.
enum class LifeKind {
    hospital_stay,
    surgery,
    travel,
    vomiting,
    lost_supply,
    stock_out,
    prescriber_absent,
    prescriber_changed,
    taken_over,
    forced,
    other
};
template <>
struct Words<LifeKind> {
    static constexpr std::array<WordPair<LifeKind>, 11> table{
        {{LifeKind::hospital_stay, "hospital stay"},
         {LifeKind::surgery, "surgery"},
         {LifeKind::travel, "travel"},
         {LifeKind::vomiting, "vomiting"},
         {LifeKind::lost_supply, "lost supply"},
         {LifeKind::stock_out, "stock-out"},
         {LifeKind::prescriber_absent, "prescriber absent"},
         {LifeKind::prescriber_changed, "prescriber changed"},
         {LifeKind::taken_over, "taken over from elsewhere"},
         {LifeKind::forced, "forced by someone else"},
         {LifeKind::other, "other"}}};
};

struct LifeEvent {
    LifeKind what = LifeKind::other;
    Day from{};
    std::optional<Day> to;  ///< the last day; empty while it goes on or for a moment
    std::string note;

    bool operator==(const LifeEvent&) const = default;
};

/// Tablets that were left over and given back.
struct TabletsReturned {
    Day on{};
    std::vector<OnHand> returned;
    std::string to_whom;

    bool operator==(const TabletsReturned&) const = default;
};

}  // namespace evenfall
