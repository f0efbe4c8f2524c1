// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <map>
#include <optional>
#include <utility>
#include <vector>

#include "papers/source.h"

namespace evenfall::papers {

/// Which agent at which time, for finding what a dose was before.
using DoseKey = std::pair<ClockTime, std::string>;

/// A committed step as papers show it.
struct FirmStep {
    const Step* step = nullptr;
    Day from{};                                           ///< its first day
    Day last{};                                           ///< its last day, that of a hold included
    bool held = false;                                    ///< it lasts longer than planned because of a hold
    std::map<DoseKey, Dose> before;                       ///< the doses of the day before it began
    std::map<DoseKey, std::vector<Piece>> pieces_before;  ///< as far as they are known
};

/// Whether it is what is taken before the plan's first step, which a hold keeps back: it has no first day of
/// its own.
bool is_before_plan(const FirmStep& step);

/// A dose that stays the same and is made from something else than in the step before.
enum class Remade { no, other_products, other_cuts };
Remade remade(const FirmStep& step, const PlannedDose& dose);

/// The committed steps that run on or after the day of issue, in order. During a hold, the step that is held
/// runs until the review, and nothing that was to follow is firm any more. The step to OFF has `last` ==
/// `from`.
std::vector<FirmStep> firm_steps(const PaperSource& source);

/// Doses of a plan as a day's regimen.
Regimen regimen_of(const std::vector<PlannedDose>& doses);

/// Every dose time and agent of the steps, in order of the clock.
std::vector<ClockTime> dose_times(const std::vector<FirmStep>& steps);

/// The doses that a step takes at a time.
std::vector<const PlannedDose*> doses_at(const Step& step, ClockTime at);

/// The doses that differ from those of the day before the step, with what they were (zero: not taken before)
/// and what they are (zero: not taken any more).
struct ChangedDose {
    ClockTime at;
    std::string drug;
    Dose was;
    Dose now;
    std::vector<Piece> pieces_was;  ///< as far as they are known
    std::vector<Piece> pieces_now;
};
std::vector<ChangedDose> changes_of(const FirmStep& step);

}  // namespace evenfall::papers
