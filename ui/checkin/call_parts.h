// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QString>
#include <string>
#include <vector>

#include "casework/call.h"
#include "controls/clear_layout.h"

class QGridLayout;
class QLayout;
class QWidget;
class QVBoxLayout;

namespace evenfall::ui {

class Card;
class ScoreCell;
class Workbench;

/// The width of the names beside lines of text.
inline constexpr int kNameWidth = 190;

/// A card with a heading and a note, added to a column.
Card* add_part(QVBoxLayout& column, const QString& title, const QString& note = {});

/// "work", "home", "company", "confidence": rated 0 to 10.
const std::vector<std::string>& function_questions();

/// Cells in columns, each with the numeral of last time beside it.
void lay_out_scores(QGridLayout& grid, const std::vector<ScoreCell*>& cells, const CallAsks& asks,
                    bool function);

/// When it is safe to phone, who else may be called, when the last call was, and calls without an answer.
QString call_head_words(const PatientRecord& record, const CallAsks& asks, Day today);

/// Fills the card of what is asked back before saving.
void show_asked_back(Card& card, const Workbench& workbench, const std::vector<Flag>& flags, int open);

}  // namespace evenfall::ui
