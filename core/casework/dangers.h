// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "record/patient_record.h"
#include "response/scales.h"
#include "rules/rules.h"

namespace evenfall {

/// How fast a danger is acted on, as rule `flag-levels` says.
enum class DangerLevel { emergency = 1, same_day = 2, to_be_asked = 3 };

/// A danger that stands: answered yes in a call, rated above 0, or raised by a form. A later call that asks
/// and hears no ends it; silence never does.
struct Danger {
    Flag flag;  ///< a rule of the group red-flag, or of a form
    DangerLevel level = DangerLevel::same_day;
    LocalTime heard{};                                   ///< when it was last heard
    EventId entry;                                       ///< the entry that it was last heard in
    std::optional<Entry<WhereaboutsNoted>> whereabouts;  ///< the latest, of that call
    std::optional<Entry<DangerTold>> told;               ///< the latest, of that call

    bool operator==(const Danger&) const = default;
};

/// The dangers that stand as of a time: those that nobody has been told of first, then by level, then the
/// latest.
std::vector<Danger> standing_dangers(const PatientRecord& record, const Rules& rules, const Scales& scales,
                                     LocalTime as_of);

/// The rule of a question that must never be left out, by its words ("suicidal thoughts"); empty for any
/// other question.
std::string danger_rule(const std::string& question, const Rules& rules);

/// The questions of these rules as calls ask them, the most pressing first ("seizure", …).
std::vector<std::string> danger_questions(const Rules& rules);

}  // namespace evenfall
