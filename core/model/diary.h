// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "model/words.h"
#include "units/day.h"
#include "units/dose.h"

namespace evenfall {

/// Why a dose was taken when it was, where the diary says.
enum class TakenWhy { unsaid, as_planned, symptoms, forgot, other };
template <>
struct Words<TakenWhy> {
    static constexpr std::array<WordPair<TakenWhy>, 5> table{{{TakenWhy::unsaid, ""},
                                                              {TakenWhy::as_planned, "as planned"},
                                                              {TakenWhy::symptoms, "symptoms"},
                                                              {TakenWhy::forgot, "forgot"},
                                                              {TakenWhy::other, "other"}}};
};

/// A dose that was taken.
struct Intake {
    LocalTime taken_at{};
    std::string drug;
    Dose amount;
    TakenWhy why = TakenWhy::unsaid;
    std::string note;

    bool operator==(const Intake&) const = default;
};

/// A symptom as the person rated it, 0 (none) to 10 (worst).
struct Rating {
    LocalTime rated_at{};
    std::string item;
    int severity = 0;

    bool operator==(const Rating&) const = default;
};

/// How the agent is used. Only scheduled use is matched to dose times.
enum class Use { scheduled, night_only, as_needed, unknown };
template <>
struct Words<Use> {
    static constexpr std::array<WordPair<Use>, 4> table{{{Use::scheduled, "scheduled"},
                                                         {Use::night_only, "night only"},
                                                         {Use::as_needed, "as needed"},
                                                         {Use::unknown, "unknown"}}};
};

/// What the person wrote down.
struct Diary {
    Use use = Use::scheduled;
    std::vector<Intake> intake;
    std::vector<Rating> ratings;
    std::vector<Day> kept_empty;  ///< days on which the diary was kept and nothing was taken

    bool operator==(const Diary&) const = default;
};

/// Answers of a call or visit: question to answer ("suicidal thoughts": "no"), as `resources` words them.
struct CheckIn {
    LocalTime at{};
    std::vector<std::pair<std::string, std::string>> answers;
    std::string own_words;

    bool operator==(const CheckIn&) const = default;
};

/// Answers to a published scale.
struct ScaleAnswers {
    std::string scale;
    Day on{};
    std::vector<int> items;

    bool operator==(const ScaleAnswers&) const = default;
};

}  // namespace evenfall
