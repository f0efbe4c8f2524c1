// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QString>
#include <functional>

namespace evenfall::ui {

/// A text whose words that say one thing together are joined by no-break spaces (U+00A0), for a column of a
/// width. A number and its unit always stay together; so do, where the column is wide enough for them, a
/// date, a number and what it counts, an agent and its amount, a part of the day and its clock time, a plus
/// sign and what it adds. `measure` says how wide words are, in the unit of `width`.
QString with_words_kept(const QString& text, double width,
                        const std::function<double(const QString&)>& measure);

/// The same with nothing joined but numbers and their units: what even the narrowest column keeps together.
QString with_units_kept(const QString& text);

/// The same with strengths of liquids ("1 mg per mL"), what a dose was ("was 4 mg") and dates too, where the
/// column is wide enough: they are torn for no line less.
QString with_amounts_kept(const QString& text, double width,
                          const std::function<double(const QString&)>& measure);

/// Where the last line of a text set so is a strength and the sum alone ("of 0.5 mg = 1 mg"): the text with
/// the sum on a line of its own. Otherwise the text as it is.
QString with_sum_apart(const QString& text, const QString& last_line);

/// Where the last line of a text set so is one short word, or two very short ones: the text with the word
/// before them joined to them, so that the last line has more. Otherwise, or where that would leave less on
/// the line before than on the last, the text as it is.
QString without_lone_word(const QString& text, const QString& line_before, const QString& last_line);

}  // namespace evenfall::ui
