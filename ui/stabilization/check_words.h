// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QString>
#include <optional>
#include <utility>
#include <vector>

#include "rules/texts.h"
#include "stabilization/check.h"

namespace evenfall::ui {

/// Text ids of what the check says.
const char* verdict_text(Verdict verdict);
const char* verdict_meaning(Verdict verdict);
const char* use_text(Use use);
const char* dose_times_text(DoseTimes source);

/// "84 %": of a level, or of a share.
QString percent(double value);
QString share_percent(double share);

/// A measure in words and with units, what it is made of, and the rule that it is held against (empty: none).
struct MeasureRow {
    QString what, says, because;
    std::string rule;
};
std::vector<MeasureRow> measure_rows(const StabilizationCheck& check);
/// How each intended dose time was kept: agent and time, then in words.
std::vector<MeasureRow> dose_time_rows(const StabilizationCheck& check);
/// "Rule late-dose (minutes 60). Source: clinic's choice."
QString rule_in_words(const Rules& rules, const std::string& id);

/// The modelled day in a sentence: peaks and troughs, as taken and as intended.
QString level_sentence(const LevelBand& levels);
/// The between-dose numbers in a sentence.
QString between_sentence(const BetweenDose& between);

/// The civil day that an entry's name begins with ("2026-12-01T08:05 …"), as the diary day it belongs to.
std::optional<Day> day_in(const std::string& entry, ClockTime begins);
/// "Tue 1 Dec, 08:05 lorazepam 1 mg"; an entry of another kind as it is.
QString entry_in_words(const std::string& entry);

}  // namespace evenfall::ui
