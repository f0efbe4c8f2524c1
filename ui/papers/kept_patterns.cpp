// SPDX-License-Identifier: GPL-3.0-or-later
#include <QStringList>
#include <algorithm>

#include "papers/kept_words.h"

// The words of a line that are kept together. What depends on a language stands in its texts, several words
// with a stroke between them; here its place is held by @was@, @per@, …

namespace evenfall::ui {
namespace {

/// What is not torn where that can be helped; units are joined before.
constexpr const char* kPhrases[] = {
    R"(^\p{L}{3} \d{1,2} \p{L}{3}$)",                                        // Mon 18 Jan
    R"((\b\p{L}{3} )?\b\d{1,2} ((@date@) )?\p{L}{3,} ((@date@) )?\d{4}\b)",  // Mon 18 Jan 2027
    R"(\p{L}{3,} ((@date@) )?\d{4}\b)",                                      // January 2027
    R"((?<![\d:.,\p{L}-])\d{1,3}([.,]\d+)? \p{L})",                          // 5 days
    R"(\p{L} \d[\d.,]*\x{A0}(mg|mL|%)(?!\p{L}| (@per@)))",                   // diazepam 5 mg
    R"((?<!\b\p{L}{2} )\b\p{L}+ \d{1,2}:\d\d)",                  // Morning 08:00, not Al acostarse 22:00
    R"(\p{L} \p{Lu}{2,}-\d)",                                    // reference HL-1016
    R"(% (@less@)\b)",                                           // 5 % less
    R"(\p{L}: \d{1,2} \p{L}{3,} \d{4}\b)",                       // nacimiento: 2 abr 1968
    R"(\b(@of@) \d[\d.,]*\x{A0}(mg|mL)\b)",                      // of 0.5 mg
    R"(\bp \d)",                                                 // p 0.05
    R"(mg (@day@)\b)",                                           // 0.75 mg a day
    R"((?<=[.?!] )\p{Lu}[^.?! ]*( [^.?! ]+){1,3}[.?!](?= |$))",  // Do not take extra.
    R"((?<!\p{L})(@never@) \p{L}+)",                             // Do not take
    R"((?<!\p{L})(@no@) \p{L}+)",                                // no more; ya no tome
    R"(\S \x{B7})",                                              // a dot between ends a line
    R"((?<![^ \x{A0}])\+ \S)",                                   // + half
};

constexpr const char* kUnits =
    R"((?<=\d) (?=(mg|mL|%)(?![A-Za-z]))|(?<==) (?=\d)|(?<=@behind-per@) (?=mL\b))";

constexpr const char* kWholeAmount =
    R"(\d\x{A0}mg (@per@)\x{A0}mL\b|\b(@was@)[ \x{A0}]\d[\d.,]*\x{A0}(mg|mL)( =\x{A0}\d[\d.,]*\x{A0}mg)?)";

constexpr const char* kTornSum = R"(^\s*((@of@)[ \x{A0}])?[\d.,]+\x{A0}(mg|mL) =[ \x{A0}])";

constexpr const char* kNothing = "(?!)";  // where no language has such a word

/// The words of a list in all languages, the longest first: "no se" is looked for before "no".
QStringList words_of(const std::string& list, const std::vector<Texts>& languages) {
    QStringList words;
    for (const Texts& texts : languages)
        if (const std::string id = "kept-" + list; texts.has(id))
            words += QString::fromStdString(texts.text(id)).split(u'|', Qt::SkipEmptyParts);
    words.removeDuplicates();
    std::ranges::stable_sort(words, std::greater(), [](const QString& word) { return word.size(); });
    for (QString& word : words) word = QRegularExpression::escape(word);
    return words;
}

}  // namespace

KeptWords::KeptWords(const std::vector<Texts>& languages) {
    std::vector<std::pair<QString, QString>> lists;
    for (const char* list : {"was", "per", "of", "date", "less", "day", "never", "no"}) {
        const QStringList words = words_of(list, languages);
        const QString name = QString::fromLatin1(list);
        const auto either = [&](const QString& between) {
            return words.isEmpty() ? QString::fromLatin1(kNothing) : words.join(between);
        };
        lists.emplace_back(QStringLiteral("@") + name + QStringLiteral("@"), either(QStringLiteral("|")));
        // What is looked for behind a place has to be of one length in each branch.
        lists.emplace_back(QStringLiteral("@behind-") + name + QStringLiteral("@"),
                           QStringLiteral("\\b") + either(QStringLiteral("|\\b")));
    }
    const auto made = [&](const char* pattern) {
        QString filled = QString::fromLatin1(pattern);
        for (const auto& [place, words] : lists) filled.replace(place, words);
        return QRegularExpression(filled, QRegularExpression::UseUnicodePropertiesOption);
    };
    units_ = made(kUnits);
    for (const char* pattern : kPhrases) phrases_.push_back(made(pattern));
    whole_amount_ = made(kWholeAmount);
    torn_sum_ = made(kTornSum);
}

const KeptWords& KeptWords::of_all_languages() {
    static const KeptWords kAll = [] {
        std::vector<Texts> all;
        for (const std::string& language : languages(resources_folder()))
            if (auto texts = Texts::load(resources_folder(), language)) all.push_back(std::move(*texts));
        return KeptWords(all);
    }();
    return kAll;
}

}  // namespace evenfall::ui
