// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QString>

#include "texts/render.h"
#include "units/day.h"
#include "units/dose.h"

namespace evenfall::ui {

/// "Mon 30 Nov", in the window's language.
QString short_day(Day day);
/// "Mon 30 Nov 2026".
QString full_day(Day day);
/// The digits of an amount, for places where the unit stands beside a whole lane or column: "20.5".
QString amount_digits(Dose dose);
/// "20.5 mg".
QString amount_text(Dose dose);
/// "20.5 mg a day".
QString daily_text(Dose dose);
/// A word with a capital in front, as a lane's row begins.
QString capitalised(const QString& text);

}  // namespace evenfall::ui
