// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "course/scene.h"
#include "diary/diary_view.h"
#include "rules/texts.h"

namespace evenfall::ui {

/// What the line beneath the diary says about something chosen: the sentence, and where it comes from.
LaneItem explain_spot(const Sheet& sheet, const DiarySpot& spot, const Texts& texts);

/// A day's doses and its symptoms as two plain sentences, for the table beside the diary.
QString doses_of_day(const Sheet& sheet, std::size_t row, const Texts& texts);
QString symptoms_of_day(const Sheet& sheet, std::size_t row);

/// "08:05 lorazepam 1 mg".
QString entry_words(const Intake& intake);

}  // namespace evenfall::ui
