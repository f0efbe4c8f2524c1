// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QWidget>
#include <optional>

#include "casework/plan_base.h"
#include "planning/by_hand.h"

// The decisions on a plan in force that are no next step: each asks with its consequence.

namespace evenfall::ui {

class Workbench;

/// "Hold the dose": from which day, reviewed when, and why. Writes it. Returns whether it was written.
bool ask_to_hold(Workbench& workbench, const PlanBase& base, QWidget* parent);

/// "Go on": the day of the next reduction, or nothing where it was left. Writes nothing: a signature does.
std::optional<Day> ask_to_go_on(Workbench& workbench, const PlanBase& base, QWidget* parent);

/// "Stay at this dose": a maintenance dose is agreed. Writes it.
bool ask_to_stay(Workbench& workbench, const PlanBase& base, QWidget* parent);

/// "End the plan": it is no longer followed. Writes it; the dose in force goes on.
bool ask_to_end(Workbench& workbench, const PlanBase& base, QWidget* parent);

/// "Go back up": from which day and to which doses, with what it costs and what else could be done. Writes
/// nothing: it is signed on its own.
std::optional<HandStep> ask_to_go_back_up(Workbench& workbench, const PlanBase& base, QWidget* parent);

}  // namespace evenfall::ui
