// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "formulary/formulary.h"
#include "record/changes.h"
#include "rules/rules.h"
#include "sample_data/draws.h"

namespace evenfall::sample {

/// The time as of which the caseload is told: a Monday.
inline const LocalTime kTold = at_clock(day_at(2026, 12, 21), {9 * 60});
inline const Day kToday = day_of(kTold);

/// So many days before the day told.
inline Day ago(int days) {
    return kToday - std::chrono::days(days);
}

/// Something that was written into a person's record at a time.
struct Written {
    LocalTime at{};
    Change change;
};

/// What a person is meant to take from a day on.
struct Intended {
    Day from{};
    std::vector<PlannedDose> doses;
};

/// One invented person: who they are, all that was written of them, and what they were meant to take when.
struct Story {
    Person person;
    Day opened{};
    std::vector<Written> written{};
    std::vector<Override> overrides{};  ///< what the prescriber answers where a rule stands against an entry
    std::vector<Intended> intended{};   ///< by day
    std::vector<std::pair<Day, int>> cuts{};  ///< day and size in percent of the dose before
    Use use = Use::scheduled;

    void at(LocalTime time, Change change) { written.push_back({time, std::move(change)}); }
    void on(Day day, Change change) { at(at_clock(day, {10 * 60}), std::move(change)); }
    void overrule(std::string rule, std::string reason) {
        overrides.push_back({std::move(rule), std::move(reason)});
    }
    /// The doses meant for a day; none before the first.
    const std::vector<PlannedDose>& doses_on(Day day) const;
};

/// What every story is told with.
struct Teller {
    const Formulary& formulary;
    const Rules& rules;
    Draws& draws;
};

/// Milligrams as they are written ("0.5"). REQUIRES a plain decimal number.
Dose mg(const std::string& digits);
/// A dose of a regimen at an hour and minute.
DoseTime dose(const std::string& drug, const std::string& at, const std::string& amount,
              const std::string& how = {}, const std::string& why = {});
Product tablet(const std::string& drug, const std::string& strength, Cuts cuts = Cuts::halves);
Product product(const std::string& drug, Form form, const std::string& strength);
/// An oral solution measured in steps of 0.1 mL, so many milligrams in one millilitre.
Product solution(const std::string& drug, const std::string& strength);

/// The regimen from a day on, written on that day: where that is earlier, when the record was opened, and
/// where it is still to come, three days before the day told.
void take(Story& story, Day from, Regimen regimen);

}  // namespace evenfall::sample
