// SPDX-License-Identifier: GPL-3.0-or-later
#include <filesystem>
#include <fstream>

#include <gtest/gtest.h>

#include "papers/kept_words.h"
#include "papers/paper_text.h"

namespace evenfall::ui {
namespace {

/// Every letter one wide, so that widths are counted; joins are shown as "_".
std::string kept(const char* text, double width = 100) {
    QString words = with_words_kept(QString::fromUtf8(text), width,
                                    [](const QString& word) { return static_cast<double>(word.size()); });
    return words.replace(QChar(0x00A0), u'_').toStdString();
}

TEST(KeptWords, ANumberAndItsUnitStayTogetherHoweverNarrowTheColumn) {
    EXPECT_EQ(kept("0.5 mg", 2), "0.5_mg");
    EXPECT_EQ(kept("20 %", 1), "20_%");
    EXPECT_EQ(kept("= 5.5 mg", 3), "=_5.5_mg");
    EXPECT_EQ(with_units_kept(QStringLiteral("5 mgs")), QStringLiteral("5 mgs"));
}

TEST(KeptWords, ADateStaysTogether) {
    EXPECT_EQ(kept("from 18 Jan 2027 on"), "from 18_Jan_2027 on");
    EXPECT_EQ(kept("Monday 1 February 2027"), "Monday 1_February_2027");
    EXPECT_EQ(kept("lunes 21 de diciembre de 2026"), "lunes 21_de_diciembre_de_2026");
    EXPECT_EQ(kept("desde el 14 dic 2026"), "desde el 14_dic_2026");
    EXPECT_EQ(kept("Mon 18 Jan 2027"), "Mon_18_Jan_2027");
    EXPECT_EQ(kept("dom 10 ene 2027", 10), "dom_10_ene 2027") << "as every day of a narrow column";
    EXPECT_EQ(kept("Mon 18 Jan"), "Mon_18_Jan");
}

TEST(KeptWords, NoStrengthStandsAloneBeforeTheSum) {
    const QString text = with_units_kept(QStringLiteral("2 tablets of 0.5 mg = 1 mg"));
    EXPECT_EQ(with_sum_apart(text, QStringLiteral("2 tablets of 0.5\u00A0mg =\u00A01\u00A0mg")), text);
    EXPECT_EQ(with_sum_apart(text, QStringLiteral("of 0.5\u00A0mg =\u00A01\u00A0mg")),
              QStringLiteral("2 tablets of 0.5\u00A0mg\u2028=\u00A01\u00A0mg"));
}

TEST(KeptWords, WhatADoseWasIsNotReadAsTheDose) {
    EXPECT_EQ(kept("Changed: was 4 mg"), "Changed: was_4_mg");
    EXPECT_EQ(kept("Changed: was 3 mL = 3 mg"), "Changed: was_3_mL_=_3_mg");
}

/// Every letter one wide, by the words of the given languages alone.
std::string kept_in(const KeptWords& words, const char* text) {
    const auto measure = [](const QString& word) { return static_cast<double>(word.size()); };
    return with_words_kept(QString::fromUtf8(text), 100, measure, words)
        .replace(QChar(0x00A0), u'_')
        .toStdString();
}

TEST(KeptWords, ALanguageBringsItsWordsInItsTexts) {
    const auto folder = std::filesystem::temp_directory_path() / "evenfall-kept-words";
    std::filesystem::create_directories(folder / "texts" / "xx");
    std::ofstream(folder / "texts" / "xx" / "kept.json")
        << R"({"kept-was": "vorher|bis dahin", "kept-per": "je", "kept-of": "zu", "kept-date": "im",)"
        << R"("kept-less": "weniger", "kept-day": "am Tag", "kept-never": "nie", "kept-no": "kein"})";
    const KeptWords words({Texts::load(folder, "xx").value()});
    std::filesystem::remove_all(folder);
    EXPECT_EQ(kept_in(words, "a b: vorher 4 mg"), "a b: vorher_4_mg");
    EXPECT_EQ(kept_in(words, "a b: bis dahin 4 mg"), "a b: bis_dahin_4_mg");
    EXPECT_EQ(kept_in(words, "a b 1 mg je mL"), "a b 1_mg_je_mL");
    EXPECT_EQ(kept_in(words, "a b zu 0.5 mg"), "a b zu_0.5_mg");
    EXPECT_EQ(kept_in(words, "a b 5 im Januar im 2027"), "a b 5_im_Januar_im_2027");
    EXPECT_EQ(kept_in(words, "a b 5 % weniger"), "a b_5_%_weniger");
    EXPECT_EQ(kept_in(words, "1 mg am Tag"), "1_mg_am_Tag");
    EXPECT_EQ(kept_in(words, "a nie nehmen"), "a nie_nehmen");
    EXPECT_EQ(kept_in(words, "a kein Mittel"), "a kein_Mittel");
    EXPECT_EQ(kept_in(words, "a b: was 4 mg, never take"), "a b: was_4_mg, never take")
        << "a number with the word before it, and no word of another language";
    const QString sum = QStringLiteral("2 T zu 0.5\u00A0mg =\u00A01\u00A0mg");
    EXPECT_NE(with_sum_apart(sum, QStringLiteral("zu 0.5\u00A0mg =\u00A01\u00A0mg"), words), sum);
    EXPECT_EQ(with_sum_apart(sum, QStringLiteral("of 0.5\u00A0mg =\u00A01\u00A0mg"), words), sum);
    EXPECT_EQ(kept_in(KeptWords({}), "a b: vorher 4 mg je mL, no more"), "a b: vorher_4_mg je mL, no more");
}

TEST(KeptWords, EveryLanguageNamesItsWords) {
    for (const std::string& language : languages(resources_folder()))
        for (const char* list : {"was", "per", "of", "date", "less", "day", "never", "no"})
            EXPECT_TRUE(Texts::load(resources_folder(), language).value().has("kept-" + std::string(list)))
                << language << " " << list;
    for (const QRegularExpression& phrase : KeptWords::of_all_languages().phrases())
        EXPECT_TRUE(phrase.isValid()) << phrase.pattern().toStdString();
    EXPECT_TRUE(KeptWords::of_all_languages().units().isValid());
    EXPECT_TRUE(KeptWords::of_all_languages().whole_amount().isValid());
    EXPECT_TRUE(KeptWords::of_all_languages().torn_sum().isValid());
}

TEST(KeptWords, AShortSentenceStaysWhole) {
    EXPECT_EQ(kept("Do not stop suddenly. Do not take extra."), "Do_not_stop suddenly. Do_not_take_extra.");
    EXPECT_EQ(kept("1.625 mg a day on 21 Dec"), "1.625_mg_a_day on 21_Dec");
}

TEST(KeptWords, NoLineBeginsWithADotBetween) {
    EXPECT_EQ(kept("12 Oct 1984 \u00B7 reference"), "12_Oct_1984_\u00B7 reference");
}

TEST(KeptWords, ANumberStaysWithWhatItCounts) {
    EXPECT_EQ(kept("when you have 5 days left"), "when you have 5_days left");
    EXPECT_EQ(kept("26 tablets: take 1.5 tablets"), "26_tablets: take 1.5_tablets");
    EXPECT_EQ(kept("at 08:00 and 555-0140 too"), "at_08:00 and 555-0140 too");
}

TEST(KeptWords, AnAgentStaysWithItsAmountAndAPartOfTheDayWithItsTime) {
    EXPECT_EQ(kept("Bedtime 23:00: lorazepam 0.75 mg"), "Bedtime_23:00: lorazepam_0.75_mg");
    EXPECT_EQ(kept("Al acostarse 22:30"), "Al acostarse 22:30") << "the part stays together as well";
    EXPECT_EQ(kept("1 mg per mL liquid"), "1_mg_per_mL liquid");
    EXPECT_EQ(kept("marked 1 mg per mL", 14), "marked 1_mg_per_mL") << "broken before its number";
    EXPECT_EQ(kept("marcado 1 mg por mL", 9), "marcado 1_mg por_mL") << "where the column is too narrow";
    EXPECT_EQ(kept("2 tablets + half of a 2 mg tablet"), "2_tablets +_half of a_2_mg tablet");
    EXPECT_EQ(kept("reference HL-1016"), "reference_HL-1016");
}

TEST(KeptWords, WhatIsTooWideIsLetGoFromItsEnd) {
    EXPECT_EQ(kept("14 Dec 2026", 8), "14_Dec 2026");
    EXPECT_EQ(kept("14 Dec 2026", 5), "14 Dec 2026");
    EXPECT_EQ(kept("chlordiazepoxide 10 mg", 16), "chlordiazepoxide 10_mg");
    EXPECT_EQ(kept("21 de diciembre de 2026", 16), "21_de_diciembre de 2026");
}

TEST(KeptWords, ALastLineOfOneShortWordTakesTheWordBeforeIt) {
    const auto joined = [](const char* text, const char* before, const char* last) {
        return without_lone_word(QString::fromUtf8(text), QString::fromUtf8(before), QString::fromUtf8(last))
            .replace(QChar(0x00A0), u'_')
            .toStdString();
    };
    EXPECT_EQ(joined("all doses added up", "all doses added ", "up"), "all doses added_up");
    EXPECT_EQ(joined("all doses added up", "all doses ", "added up"), "all doses added up");
    EXPECT_EQ(joined("from Monday: diazepam 9 mg a day", "from Monday: diazepam 9 mg ", "a day"),
              "from Monday: diazepam 9 mg_a day");
    EXPECT_EQ(joined("one word alone", "one word ", "alone"), "one word alone") << "less would be left";
    EXPECT_EQ(joined("so much of dissatisfaction", "so much of ", "dissatisfaction"),
              "so much of dissatisfaction");
}

int lines_of(const PaperText& text) {
    return static_cast<int>(text.lines().size());
}

TEST(PaperWords, NoLastLineIsOneShortWordAndNoLineIsAddedForIt) {
    const PaperText::Face face{18, false};
    const QString words = QStringLiteral("What is it that we would like to ask of you now");
    for (double width = 60; width < 500; width += 7) {
        const PaperText set(words, face, width);
        ASSERT_FALSE(set.lines().empty());
        const QString last = set.lines().back().trimmed();
        EXPECT_LE(set.natural_width(), width);
        if (lines_of(set) == 1) continue;
        // One word alone is left only where the line before is short.
        if (!last.contains(u' ') && !last.contains(QChar(0x00A0))) {
            EXPECT_LT(set.lines().at(set.lines().size() - 2).trimmed().size(), 14) << width;
        }
    }
}

TEST(PaperWords, AStrengthIsTornForNoLineLess) {
    const PaperText::Face face{18, false};
    const double whole = PaperText(QStringLiteral("1 mg per mL"), face, 1e5).natural_width();
    for (double width = whole + 1; width < 12 * face.size; width += 2) {
        const QStringList lines =
            PaperText(QStringLiteral("1.4 mL from the bottle marked 1 mg per mL = 1.4 mg"), face, width)
                .lines();
        EXPECT_TRUE(lines.join(u'|').replace(QChar(0x00A0), u' ').contains(QStringLiteral("1 mg per mL")))
            << lines.join(u'|').toStdString();
    }
}

TEST(PaperText, NoCodeAndNoTelephoneNumberIsTornAtItsHyphen) {
    const PaperText::Face face{18, false};
    const QString words = QStringLiteral("See version F4KX-3GVM, or call 555-0140, reference HL-1022.");
    const double longest = PaperText(QStringLiteral("F4KX-3GVM,"), face, 1e5).natural_width();
    for (double width = longest + 1; width < 400; width += 3)
        for (const QString& line : PaperText(words, face, width).lines())
            EXPECT_FALSE(line.endsWith(u'-')) << width << " " << line.toStdString();
}

TEST(PaperWords, NoWordIsBrokenForWhatIsKeptTogether) {
    const PaperText::Face face{18, true};
    const std::string words = "Changed: was 0.625 mg until 18 September 2027";
    const double least = longest_word(words, face);
    for (double width = least + 1; width < 400; width += 5)
        for (const QString& line : PaperText(paper_string(words), face, width).lines())
            for (const QString& word :
                 QString(line).replace(QChar(0x00A0), u' ').split(u' ', Qt::SkipEmptyParts))
                EXPECT_TRUE(paper_string(words).split(u' ').contains(word)) << word.toStdString();
}

}  // namespace
}  // namespace evenfall::ui
