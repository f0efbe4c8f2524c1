// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <vector>

#include "planning/crossover.h"
#include "planning/taper.h"

// Steps that a clinician sets, rather than the planner: a date or a dose changed by hand, going back up, a
// schedule made elsewhere, the stages of a crossover. The same rules bite.

namespace evenfall {

/// What is taken from a day on, as it was set. A dose of zero is left out: its dose time ends.
struct HandStep {
    Day starts{};
    std::vector<DoseTime> doses;  ///< of every agent, in order of clock time
    std::optional<int> days;      ///< how long it lasts; empty: the request's interval

    bool operator==(const HandStep&) const = default;
};

/// The first `keep` steps of a plan unchanged but for the last one's length, then this step with its pieces
/// and its flags (`cut-over-cap`, `dose-time-dropped`, `dose-time-rises`, `fall-over-two-weeks`); nothing
/// after it. It is committed. Where it rises, no flag says so here: casework asks for the reason.
///
/// Faults, at "step N": `hand-no-such-step`, `hand-early` (not after the step before), `hand-nothing` (no
/// dose of the plan's agent), `hand-order` (dose times out of order or twice), `hand-not-makeable` (names the
/// nearest amounts).
Result<Plan> with_hand_step(const Plan& plan, int keep, const HandStep& step, const Rules& rules);

/// The plan of a crossover: its stages as steps, of the new agent by `request.drug`, with nothing after them.
/// The first `request.commit_steps` stages are committed.
Plan plan_of_crossover(const PlanRequest& request, const CrossoverInput& input,
                       const CrossoverPlan& crossover);

/// How many of a plan's first steps are the stages of a crossover; 0 for a plain taper.
int crossover_stages(const Plan& plan);

/// The first day on which a cut may follow a crossover: what rule `crossover-first-cut` said on its last
/// stage. Empty for a plain taper.
std::optional<Day> first_cut_after_crossover(const Plan& plan);

/// The taper of the new agent after a crossover's stages, which stay; `request.drug` is the new agent.
/// Faults: those of `replan`.
Result<Plan> taper_after_crossover(const Plan& crossover, PlanRequest request, TaperInput input,
                                   const Rules& rules, const std::stop_token& stop = {});

/// What speaks against crossing for this person, strongly enough to be heard before any way across is shown;
/// and what asks for care on the way. Of the flags of a plan's first stage, each once.
std::vector<Flag> case_against_crossing(const CrossoverPlan& plan);
std::vector<Flag> care_in_crossing(const CrossoverPlan& plan);

/// What is taken on a step, as a regimen.
Regimen regimen_of(const Step& step);

}  // namespace evenfall
