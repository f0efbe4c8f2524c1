// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QRegularExpression>
#include <QString>
#include <functional>
#include <vector>

#include "rules/texts.h"

namespace evenfall::ui {

/// What no line is broken inside, by the words of languages (texts "kept-was", "kept-per", …): small words
/// that turn what follows into something else, such as "was" before an amount and "not" before a verb.
class KeptWords {
  public:
    /// The words of all these languages: what was typed in one may stand on a paper of another.
    explicit KeptWords(const std::vector<Texts>& languages);
    /// Of every language in the folder of resources, read once.
    static const KeptWords& of_all_languages();

    /// What stands between a number and its unit.
    const QRegularExpression& units() const { return units_; }
    /// What is not torn where that can be helped, dates first.
    const std::vector<QRegularExpression>& phrases() const { return phrases_; }
    /// The strength of a liquid, and what a dose was.
    const QRegularExpression& whole_amount() const { return whole_amount_; }
    /// A strength and the sum alone on a line.
    const QRegularExpression& torn_sum() const { return torn_sum_; }

  private:
    QRegularExpression units_;
    std::vector<QRegularExpression> phrases_;
    QRegularExpression whole_amount_;
    QRegularExpression torn_sum_;
};

/// A text whose words that say one thing together are joined by no-break spaces (U+00A0), for a column of a
/// width. A number and its unit always stay together; so do, where the column is wide enough for them, a
/// date, a number and what it counts, an agent and its amount, a part of the day and its clock time, a plus
/// sign and what it adds. `measure` says how wide words are, in the unit of `width`.
QString with_words_kept(const QString& text, double width,
                        const std::function<double(const QString&)>& measure,
                        const KeptWords& words = KeptWords::of_all_languages());

/// The same with nothing joined but numbers and their units: what even the narrowest column keeps together.
QString with_units_kept(const QString& text, const KeptWords& words = KeptWords::of_all_languages());

/// The same with strengths of liquids ("1 mg per mL"), what a dose was ("was 4 mg") and dates too, where the
/// column is wide enough: they are torn for no line less.
QString with_amounts_kept(const QString& text, double width,
                          const std::function<double(const QString&)>& measure,
                          const KeptWords& words = KeptWords::of_all_languages());

/// Where the last line of a text set so is a strength and the sum alone ("of 0.5 mg = 1 mg"): the text with
/// the sum on a line of its own. Otherwise the text as it is.
QString with_sum_apart(const QString& text, const QString& last_line,
                       const KeptWords& words = KeptWords::of_all_languages());

/// Where the last line of a text set so is one short word, or two very short ones: the text with the word
/// before them joined to them, so that the last line has more. Otherwise, or where that would leave less on
/// the line before than on the last, the text as it is.
QString without_lone_word(const QString& text, const QString& line_before, const QString& last_line);

}  // namespace evenfall::ui
