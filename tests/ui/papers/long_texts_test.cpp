// SPDX-License-Identifier: GPL-3.0-or-later
#include <QLabel>
#include <QProcess>
#include <QRegularExpression>
#include <QTemporaryDir>

#include <gtest/gtest.h>

#include "papers/missing_panel.h"
#include "papers/sample.h"
#include "papers/write_pdf.h"
#include "ui/papers/page_words.h"

// Whatever a record takes of a text is printed whole and can be read.

namespace evenfall::ui {
namespace {

constexpr qsizetype kPiece = 12;  // letters of a text that stand beside each other

/// So many characters in words of a few letters that tell where they belong: "Aaeio aaeiou Aae".
std::string words(char mark, std::size_t most) {
    static constexpr std::string_view kVowels = "eiou";
    std::string text;
    for (std::size_t i = 0; text.size() < most; ++i) {
        const std::size_t word = i % 7 + 3;
        for (std::size_t j = 0; j < word; ++j) text += j == 0 ? mark : kVowels[(i + j) % kVowels.size()];
        text += ' ';
    }
    text.resize(most);
    if (text.back() == ' ') text.back() = mark;
    return text;
}

std::string one_word(char mark, std::size_t most) {
    return std::string(most, mark);
}

/// Every risk, and every text as long as a record takes it.
papers::PaperSource long_texts(std::string (*text)(char, std::size_t)) {
    papers::PaperSource source = papers::every_risk();
    source.clinic.name = text('A', 200);
    source.clinic.phone = text('B', 200);
    source.clinic.after_hours = text('C', 200);
    source.clinic.emergency_number = text('D', 200);
    source.clinic.crisis_number = text('E', 200);
    source.prescriber = {text('F', 200), text('G', 200)};
    source.made_by = text('H', 200);
    source.taken_for = text('K', 4000);
    source.goals = {text('L', 200), text('M', 200)};
    source.tracked_items = {text('N', 200), text('P', 200), text('R', 200), text('S', 200)};
    for (const char mark : {'T', 'V', 'W', 'X'}) source.other_medicines.push_back(text(mark, 200));
    source.supply = papers::some_supply(source);
    source.judged = papers::some_check(source, 4);
    return source;
}

/// Everything that stands on the pages in drawing order, without spaces.
QString drawn(const QString& file) {
    QProcess process;
    process.start(QStringLiteral("pdftotext"), {QStringLiteral("-raw"), file, QStringLiteral("-")});
    EXPECT_TRUE(process.waitForFinished(30'000));
    return QString::fromUtf8(process.readAllStandardOutput())
        .normalized(QString::NormalizationForm_KC)
        .remove(QRegularExpression(QStringLiteral("\\s")));
}

class LongTexts : public testing::TestWithParam<std::string (*)(char, std::size_t)> {
  protected:
    QTemporaryDir folder_;
};

TEST_P(LongTexts, ArePrintedWholeAndInsideThePage) {
    const papers::PaperSource source = long_texts(GetParam());
    for (const auto& [paper, name] : Words<Paper>::table)
        for (const char* language : {"en", "es"})
            for (const PaperSize size : {PaperSize::a4, PaperSize::letter})
                for (const bool large : {false, true}) {
                    SCOPED_TRACE(std::string(name) + " " + language + " " + word(size) +
                                 (large ? " large" : ""));
                    const auto document = papers::make_paper(paper, source, papers::shipped_texts(language));
                    ASSERT_TRUE(document.ok()) << document.faults().front().id;
                    const QString kept = qEnvironmentVariable("EVENFALL_KEEP_PAPERS");
                    const QString file =
                        kept.isEmpty()
                            ? folder_.filePath(QStringLiteral("paper.pdf"))
                            : QStringLiteral("%1/long-%2-%3-%4%5.pdf")
                                  .arg(kept, QString::fromLatin1(name.data(), static_cast<int>(name.size())),
                                       QString::fromLatin1(language), QString::fromStdString(word(size)),
                                       large ? QStringLiteral("-large") : QString());
                    const auto written = write_pdf(*document, {size, large}, file, true);
                    ASSERT_TRUE(written.ok()) << written.faults().front().id;
                    const QString all = drawn(file);
                    const auto pages = words_of_pages(file);
                    papers::for_each_text(*document, [&](papers::Role role, const std::string& each) {
                        if (role == papers::Role::foot || each.size() < 100) return;
                        const QString text = QString::fromStdString(each)
                                                 .normalized(QString::NormalizationForm_KC)
                                                 .remove(QRegularExpression(QStringLiteral("\\s")));
                        // The foot of a page and the head of the next one tear one piece at most.
                        int torn = 0;
                        for (qsizetype at = 0; at < text.size(); at += kPiece)
                            torn += all.contains(text.mid(at, kPiece)) ? 0 : 1;
                        EXPECT_LT(torn, static_cast<int>(pages.size())) << each;
                    });
                    for (const PageWords& page : pages)
                        for (const PageWord& each : page.words)
                            EXPECT_TRUE(
                                QRectF(QPointF(20, 20), page.size - QSizeF(40, 40)).contains(each.box))
                                << each.text.toStdString();
                }
}

INSTANTIATE_TEST_SUITE_P(OfWordsAndWithoutASpace, LongTexts, testing::Values(&words, &one_word));

TEST(LongSymptoms, LeaveADiaryOnOnePageAndItsHeadsWhole) {
    const QTemporaryDir folder;
    papers::PaperSource source = papers::two_steps();
    source.tracked_items = {"pressure behind the eyes and a ringing in both ears",
                            "anxiety before leaving the house in the early morning", "irritability"};
    for (const PaperSize size : {PaperSize::a4, PaperSize::letter})
        for (const bool large : {false, true}) {
            const auto document = papers::make_paper(Paper::diary, source, papers::shipped_texts("en"));
            ASSERT_TRUE(document.ok());
            const QString kept = qEnvironmentVariable("EVENFALL_KEEP_PAPERS");
            const QString file =
                (kept.isEmpty() ? folder.path() : kept) +
                QStringLiteral("/symptoms-%1%2.pdf")
                    .arg(QString::fromStdString(word(size)), large ? QStringLiteral("-large") : QString());
            ASSERT_TRUE(write_pdf(*document, {size, large}, file, true).ok());
            EXPECT_LE(words_of_pages(file).size(), large ? 3u : 1u);
            for (const std::string& fault : layout_faults(*document, file, large))
                ADD_FAILURE() << word(size) << (large ? " large: " : ": ") << fault;
        }
}

/// Whether a panel says these words.
bool says(const MissingPanel& panel, const QString& words) {
    const auto labels = panel.findChildren<QLabel*>();
    return std::ranges::any_of(labels, [&](const QLabel* label) { return label->text().contains(words); });
}

TEST(LongTextsInTheWindow, AreNamedWithTheirPlaceAndRemedy) {
    papers::PaperSource source = papers::two_steps();
    source.taken_for = "Panic on the bus since 2019. " + std::string(4000, 'x');
    const Texts& texts = papers::shipped_texts("en");
    const auto refused = papers::make_paper(Paper::letter, source, texts);
    ASSERT_FALSE(refused.ok());
    MissingPanel panel;
    panel.show_missing(refused.faults(), texts, source.clinic);
    EXPECT_TRUE(says(panel, QStringLiteral("This is too long for this paper")));
    EXPECT_TRUE(
        says(panel, QStringLiteral("“Taken for” in the record has 4029 characters and begins “Panic on "
                                   "the bus since 2…”; a paper holds at most 4000. Shorten it there.")));
    EXPECT_TRUE(papers::make_paper(Paper::schedule, source, texts).ok());
    EXPECT_TRUE(papers::make_paper(Paper::card, source, texts).ok());
}

}  // namespace
}  // namespace evenfall::ui
