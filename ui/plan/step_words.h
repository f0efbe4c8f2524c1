// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QString>

#include "model/plan.h"

// What is said of a step, in the table, in questions and on cards.

namespace evenfall::ui {

/// Whether a step is a stage of a crossover.
bool is_stage(const Step& step);
/// Whether its cut is over the cap.
bool is_over_cap(const Step& step);

/// "1.5 mg of alprazolam + 20 mg of diazepam": each agent of a stage; of a plain step the plan's agent alone,
/// "2.375 mg a day".
QString step_amounts(const Plan& plan, const Step& step);

/// "2.375 mg a day of clonazepam"; of a stage each agent.
QString taken_text(const Plan& plan, const Step& step);

/// "5 % of the last dose"; "more than the last dose"; empty for a stage.
QString share_text(const Plan& plan, std::size_t index);

}  // namespace evenfall::ui
