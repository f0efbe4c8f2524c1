// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "exchange/compute.h"
#include "model/plan.h"

// One function for each kind of answer, and the small shapes that they share.

namespace evenfall::answers {

Result<Answered> equivalence(const Basis& basis);
Result<Answered> levels(const Basis& basis);
Result<Answered> stabilization(const Basis& basis);
Result<Answered> taper(const Basis& basis);
Result<Answered> crossover(const Basis& basis);
Result<Answered> review(const Basis& basis);
Result<Answered> supply(const Basis& basis);
Result<Answered> response(const Basis& basis);
Result<Answered> scales(const Basis& basis);

/// "case-needs" for a part that a computation needs.
Fault needs(std::string part);

/// A table as CSV: the columns' names, then the rows; a number as it stands, text quoted where it has to be.
std::string table_of(const Answered& columns, const Answered& rows);

Answered amount(Dose dose);
Answered percent(const Share& share);
Answered range(const DiazepamRange& diazepam);
/// [{"rule","text","source"}]
Answered flags(const std::vector<Flag>& flags, const Rules& rules);
Answered flag(const Flag& flag, const Rules& rules);
Answered piece(const Piece& piece);
/// [{"at","amount_mg","pieces"}], with the drug where `with_drug`.
Answered doses(const std::vector<PlannedDose>& doses, bool with_drug);
Answered day(Day day);

/// What the case overrides of the formulary, added to an answer where there is any.
void add_overrides(Answered& answer, const Basis& basis);

/// The plans of a case's `plan` part and of those that follow it (`then`), computed: at least one. Faults:
/// needs, and those of the planner.
Result<std::vector<Plan>> plans_of(const Basis& basis);
/// The plan of a case's `plan` part, computed. Faults: needs, and those of the planner.
Result<Plan> plan_of(const Basis& basis);

}  // namespace evenfall::answers
