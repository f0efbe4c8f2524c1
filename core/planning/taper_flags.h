// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <vector>

#include "planning/taper.h"

namespace evenfall::planning {

/// What the path knew of a step: whether its cut is over the cap, and whether no smaller one could be made.
struct StepNote {
    bool over_cap = false;
    bool smallest = false;
};

/// Puts each step's flags on it (cut-over-cap, cap-cannot-be-kept, over-target, dose-time-dropped,
/// pieces-changed, fall-over-two-weeks, to-off), from the step numbered `from` on.
void flag_steps(Plan& plan, const std::vector<StepNote>& notes, std::size_t from, const Rules& rules);

/// Puts the flags of the plan as a whole on it; `from` is the first step that was planned now.
void flag_plan(Plan& plan, std::size_t from, const std::optional<Day>& today, const Rules& rules);

/// Minutes as hours with at most one decimal: "13.5".
std::string in_hours(int minutes);

/// The hours of the longest gap between doses of one agent within the repeated day; 24 for a single one, 0
/// for none.
int longest_gap_minutes(const std::vector<ClockTime>& times);

/// The steps whose dose, at its lowest within a window of days, lies more than the rule's share below the
/// dose in force just before the window (rule `fall-over-two-weeks`, read as: for every window that begins at
/// a step). `daily[0]` is the dose before the first step, `daily[i + 1]` that of the step which starts on
/// `starts[i]`. Returns, by step, the largest such fall that the step completes, zero where there is none.
std::vector<Share> window_falls(const std::vector<Day>& starts, const std::vector<Dose>& daily, int days);

}  // namespace evenfall::planning
