// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "sample_data/story.h"

namespace evenfall::sample {

/// How a person keeps to the doses that were meant. Shares in percent of doses.
struct Habit {
    int spread = 20;       ///< minutes early or late, at most
    int weekend_late = 0;  ///< minutes later on Saturdays and Sundays
    int missed = 0;
    int late = 0;     ///< much later than meant, by one to four hours
    int doubled = 0;  ///< after a missed dose the next is doubled
    int extra = 0;    ///< of days: half a dose more at midday, for symptoms
};

/// Diary entries for each day from `from` to the day before the day told, handed in weekly.
void keep_diary(Story& story, Day from, const Habit& habit, Draws& draws);

/// As keep_diary for use as needed: `amount` on about `percent` of days, other days kept empty.
void keep_diary_as_needed(Story& story, Day from, const std::string& drug, Dose amount, int percent,
                          Draws& draws);

/// How symptoms go: what they are without a cut, and how they answer one.
struct Symptoms {
    std::map<std::string, int> items{};  ///< severity without a cut
    int lag = 4;                         ///< days from a cut to the worst
    int rise = 2;                        ///< points at the worst of a cut of 10 %
    int drift = 0;                       ///< points that are gone at the end of the diary
};

/// One rating of every item in the evening of each day from `from` on, handed in weekly.
void rate_symptoms(Story& story, Day from, const Symptoms& symptoms, Draws& draws);

/// Ratings at several hours of the day that follow the hours since the last dose in the diary: worse late.
void rate_between_doses(Story& story, Day from, const std::string& item, Draws& draws);

}  // namespace evenfall::sample
