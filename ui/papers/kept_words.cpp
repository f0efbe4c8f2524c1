// SPDX-License-Identifier: GPL-3.0-or-later
#include "papers/kept_words.h"

#include <QStringList>
#include <algorithm>

namespace evenfall::ui {
namespace {

constexpr QChar kNoBreak(0x00A0);
constexpr qsizetype kLongWord = 12;   // letters of a word that may stand alone on a last line
constexpr int kDates = 3;             // phrases, from the first on
constexpr qsizetype kShortWords = 6;  // letters of several words that may not: "a day"

/// Makes every space inside what the pattern finds a no-break space.
void join(QString& text, const QRegularExpression& phrase) {
    for (auto it = phrase.globalMatch(text); it.hasNext();) {
        const auto found = it.next();
        for (qsizetype at = found.capturedStart(); at < found.capturedEnd(); ++at)
            if (text.at(at) == u' ') text[at] = kNoBreak;
    }
}

/// What is too wide for the column is let go from its end, join by join, down to what no column parts; both
/// texts are equally long.
QString with_wide_ones_parted(QString kept, const QString& units, double width,
                              const std::function<double(const QString&)>& measure) {
    for (qsizetype begin = 0; begin < kept.size();) {
        qsizetype end = kept.indexOf(u' ', begin);
        if (end < 0) end = kept.size();
        while (end > begin) {
            const QString word = kept.mid(begin, end - begin);
            if (!word.contains(kNoBreak) || measure(word) <= width) break;
            qsizetype at = end;
            do at = kept.lastIndexOf(kNoBreak, at - 1);
            while (at > begin && units.at(at) == kNoBreak);
            if (at <= begin || units.at(at) == kNoBreak) break;  // a number and its unit alone
            kept[at] = u' ';
            end = at;
        }
        begin = end + 1;
    }
    return kept;
}

}  // namespace

QString with_units_kept(const QString& text, const KeptWords& words) {
    QString kept = text;
    join(kept, words.units());
    return kept;
}

QString with_words_kept(const QString& text, double width,
                        const std::function<double(const QString&)>& measure, const KeptWords& words) {
    if (!text.contains(u' ')) return text;
    const QString units = with_units_kept(text, words);
    QString kept = units;
    for (const QRegularExpression& phrase : words.phrases()) join(kept, phrase);
    join(kept, words.whole_amount());
    return with_wide_ones_parted(std::move(kept), units, width, measure);
}

QString with_amounts_kept(const QString& text, double width,
                          const std::function<double(const QString&)>& measure, const KeptWords& words) {
    const QString units = with_units_kept(text, words);
    QString kept = units;
    join(kept, words.whole_amount());
    for (int i = 0; i < kDates; ++i) join(kept, words.phrases().at(i));
    return with_wide_ones_parted(std::move(kept), units, width, measure);
}

QString with_sum_apart(const QString& text, const QString& last_line, const KeptWords& words) {
    // "2 tablets / of 0.5 mg = 1 mg" would read as if 0.5 mg were 1 mg.
    if (!words.torn_sum().match(last_line).hasMatch()) return text;
    QString apart = text;
    apart[apart.lastIndexOf(QStringLiteral(" ="))] = QChar::LineSeparator;
    return apart;
}

QString without_lone_word(const QString& text, const QString& line_before, const QString& last_line) {
    const QString last = last_line.trimmed();
    if (last.size() > (last.contains(u' ') ? kShortWords : kLongWord)) return text;
    const QString before = line_before.trimmed();
    const qsizetype at = text.lastIndexOf(u' ', text.size() - 1 - last.size());
    const qsizetype left = before.lastIndexOf(u' ');
    if (at <= 0 || left < before.size() - left + last.size()) return text;
    QString joined = text;
    joined[at] = kNoBreak;
    return joined;
}

}  // namespace evenfall::ui
