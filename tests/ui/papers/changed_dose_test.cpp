// SPDX-License-Identifier: GPL-3.0-or-later
#include <QProcess>
#include <QTemporaryDir>
#include <algorithm>

#include <gtest/gtest.h>

#include "papers/sample.h"
#include "papers/write_pdf.h"
#include "ui/papers/page_words.h"

// How a changed dose looks: its new amount is heavy, what it was is not, and a bar stands beside both.

namespace evenfall::ui {
namespace {

constexpr double kScale = 4;

class ChangedDose : public testing::TestWithParam<PaperOptions> {
  protected:
    ChangedDose()
        : document_(
              papers::make_paper(Paper::schedule, papers::two_steps(), papers::shipped_texts("en")).value()),
          painter_(PaperPainter::set(document_, GetParam()).value()) {
        EXPECT_TRUE(write_pdf(painter_, file_, true).ok());
    }
    /// Every place where a page says the first word of "Changed: was 1.375 mg".
    void for_each_change(const std::function<void(const QImage& page, const QRectF& word)>& visit) {
        const auto pages = words_of_pages(file_);
        for (std::size_t i = 0; i < pages.size(); ++i) {
            const QImage page = painter_.picture(static_cast<int>(i), kScale);
            for (const PageWord& word : pages[i].words)
                if (word.text.startsWith(QStringLiteral("Changed:"))) visit(page, word.box);
        }
    }

    QTemporaryDir folder_;
    const QString file_ = folder_.filePath(QStringLiteral("paper.pdf"));
    papers::Document document_;
    PaperPainter painter_;
};

bool is_ink(const QImage& page, double x, double y) {
    return page.valid(static_cast<int>(x * kScale), static_cast<int>(y * kScale)) &&
           page.pixelColor(static_cast<int>(x * kScale), static_cast<int>(y * kScale)).lightness() < 60;
}

/// How many points left of a word ink stands without a gap from its top to its foot.
double bar_left_of(const QImage& page, const QRectF& word) {
    double bar = 0;
    for (double x = word.left() - 30; x < word.left() - 0.5; x += 1 / kScale) {
        bool whole = true;
        for (double y = word.top() + 1; whole && y < word.bottom() - 1; y += 1) whole = is_ink(page, x, y);
        if (whole) bar += 1 / kScale;
    }
    return bar;
}

/// Whether an even line of ink runs above a word, as that of a frame would.
bool line_above(const QImage& page, const QRectF& word) {
    for (double y = word.top() - 4; y < word.top() + 2; y += 1 / kScale) {
        bool whole = true;
        for (double x = word.left(); whole && x < word.right(); x += 1) whole = is_ink(page, x, y);
        if (whole) return true;
    }
    return false;
}

TEST_P(ChangedDose, HasABarAtItsLeftAndNoFrame) {
    int changes = 0;
    for_each_change([&](const QImage& page, const QRectF& word) {
        ++changes;
        EXPECT_GE(bar_left_of(page, word), 2) << "the bar";
        EXPECT_LE(bar_left_of(page, word), 3.5) << "and nothing else";
        EXPECT_FALSE(line_above(page, word));
    });
    EXPECT_EQ(changes, 4) << "two of the step table, two of the days";
}

TEST_P(ChangedDose, IsHeavyInItsNewAmountAlone) {
    QProcess process;
    process.start(QStringLiteral("pdftohtml"),
                  {QStringLiteral("-xml"), QStringLiteral("-i"), QStringLiteral("-stdout"), file_});
    ASSERT_TRUE(process.waitForFinished(30'000));
    const QString xml = QString::fromUtf8(process.readAllStandardOutput()).replace(QChar(0x00A0), u' ');
    EXPECT_EQ(xml.count(QStringLiteral("Changed:")), 4);
    EXPECT_EQ(xml.count(QStringLiteral("<b>Changed:")), 0);
    EXPECT_GE(xml.count(QStringLiteral("= 1.375 mg</b>")), 1) << "in the step table";
    EXPECT_EQ(xml.count(QStringLiteral("<b>1.375 mg</b>")), 1) << "on the day of the change, and on no other";
    EXPECT_EQ(xml.count(QStringLiteral("<b>1.25 mg</b>")), 1);
}

std::string name_of(const testing::TestParamInfo<PaperOptions>& info) {
    return word(info.param.size) + (info.param.large_print ? "_large" : "");
}

INSTANTIATE_TEST_SUITE_P(EveryWay, ChangedDose,
                         testing::Values(PaperOptions{PaperSize::a4, false},
                                         PaperOptions{PaperSize::a4, true},
                                         PaperOptions{PaperSize::letter, false},
                                         PaperOptions{PaperSize::letter, true}),
                         name_of);

}  // namespace
}  // namespace evenfall::ui
