// SPDX-License-Identifier: GPL-3.0-or-later
#include "papers/kept_words.h"

#include <QRegularExpression>
#include <QStringList>
#include <vector>

namespace evenfall::ui {
namespace {

constexpr QChar kNoBreak(0x00A0);
constexpr qsizetype kLongWord = 12;   // letters of a word that may stand alone on a last line
constexpr int kDates = 3;             // phrases below, from the first on
constexpr qsizetype kShortWords = 6;  // letters of several words that may not: "a day"

/// Makes every space inside what the pattern finds a no-break space.
void join(QString& text, const QRegularExpression& phrase) {
    for (auto it = phrase.globalMatch(text); it.hasNext();) {
        const auto found = it.next();
        for (qsizetype at = found.capturedStart(); at < found.capturedEnd(); ++at)
            if (text.at(at) == u' ') text[at] = kNoBreak;
    }
}

/// What is not torn where that can be helped; units are joined before.
const std::vector<QRegularExpression>& phrases() {
    static const std::vector<QRegularExpression> kPhrases = [] {
        std::vector<QRegularExpression> made;
        for (const char* pattern : {
                 R"(^\p{L}{3} \d{1,2} \p{L}{3}$)",                            // Mon 18 Jan
                 R"((\b\p{L}{3} )?\b\d{1,2} (de )?\p{L}{3,} (de )?\d{4}\b)",  // Mon 18 Jan 2027
                 R"(\p{L}{3,} (de )?\d{4}\b)",                                // January 2027
                 R"((?<![\d:.,\p{L}-])\d{1,3}([.,]\d+)? \p{L})",              // 5 days
                 R"(\p{L} \d[\d.,]*\x{A0}(mg|mL|%)(?!\p{L}| per| por))",      // diazepam 5 mg
                 R"((?<!\b\p{L}{2} )\b\p{L}+ \d{1,2}:\d\d)",  // Morning 08:00, not Al acostarse 22:00
                 R"(\p{L} \p{Lu}{2,}-\d)",                    // reference HL-1016
                 R"(% (less|menos)\b)",                       // 5 % less
                 R"(\p{L}: \d{1,2} \p{L}{3,} \d{4}\b)",       // nacimiento: 2 abr 1968
                 R"(\b(of|de) \d[\d.,]*\x{A0}(mg|mL)\b)",     // of 0.5 mg
                 R"(\bp \d)",                                 // p 0.05
                 R"(mg (a day|al d\x{ED}a)\b)",               // 0.75 mg a day
                 R"((?<=[.?!] )\p{Lu}[^.?! ]*( [^.?! ]+){1,3}[.?!](?= |$))",  // Do not take extra.
                 R"((?<!\p{L})(do not|Do not|[Nn]ever|[Nn]unca) \p{L}+)",     // Do not take
                 R"((?<!\p{L})([Nn]o|sin) (se |la |lo )?\p{L}+)",             // no more; ya no tome
                 R"(\S \x{B7})",                                              // a dot between ends a line
                 R"((?<![^ \x{A0}])\+ \S)",                                   // + half
             })
            made.emplace_back(QString::fromUtf8(pattern), QRegularExpression::UseUnicodePropertiesOption);
        return made;
    }();
    return kPhrases;
}

/// The strength of a liquid, and what a dose was.
const QRegularExpression& whole_amount() {
    static const QRegularExpression kAmount(QStringLiteral(
        "\\d\\x{A0}mg (per|por)\\x{A0}mL\\b|\\b(was|antes)[ \\x{A0}]\\d[\\d.,]*\\x{A0}(mg|mL)( "
        "=\\x{A0}\\d[\\d.,]*\\x{A0}mg)?"));
    return kAmount;
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

QString with_units_kept(const QString& text) {
    static const QRegularExpression kUnit(
        QStringLiteral("(?<=\\d) (?=(mg|mL|%)(?![A-Za-z]))|(?<==) (?=\\d)|(?<=\\b(per|por)) (?=mL\\b)"));
    QString kept = text;
    join(kept, kUnit);
    return kept;
}

QString with_words_kept(const QString& text, double width,
                        const std::function<double(const QString&)>& measure) {
    if (!text.contains(u' ')) return text;
    const QString units = with_units_kept(text);
    QString kept = units;
    for (const QRegularExpression& phrase : phrases()) join(kept, phrase);
    join(kept, whole_amount());
    return with_wide_ones_parted(std::move(kept), units, width, measure);
}

QString with_amounts_kept(const QString& text, double width,
                          const std::function<double(const QString&)>& measure) {
    const QString units = with_units_kept(text);
    QString kept = units;
    join(kept, whole_amount());
    for (int i = 0; i < kDates; ++i) join(kept, phrases().at(i));
    return with_wide_ones_parted(std::move(kept), units, width, measure);
}

QString with_sum_apart(const QString& text, const QString& last_line) {
    // "2 tablets / of 0.5 mg = 1 mg" would read as if 0.5 mg were 1 mg.
    static const QRegularExpression kTorn(
        QStringLiteral("^\\s*((of|de)[ \\x{A0}])?[\\d.,]+\\x{A0}(mg|mL) =[ \\x{A0}]"));
    if (!kTorn.match(last_line).hasMatch()) return text;
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
