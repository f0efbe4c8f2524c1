// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "controls/sign_dialog.h"
#include "model/plan.h"

namespace evenfall::ui {

/// A step with its date, dose and pieces, as it stands in a question before a signature.
SignLine sign_line(const Plan& plan, std::size_t index);

/// Puts the steps from `from` on that are to sign; `replaces` says that a plan in force is replaced.
SignRequest steps_to_sign(const Plan& plan, int from, bool replaces, const QString& commit);

/// Puts the step to nothing: agreed on its own, with its milligrams in the question.
SignRequest off_to_agree(const Plan& plan, const QString& commit);

/// Puts going back up, the step at `index`.
SignRequest back_up_to_sign(const Plan& plan, int index);

/// How many steps from `from` on are to sign.
int count_to_sign(const Plan& plan, int from);

}  // namespace evenfall::ui
