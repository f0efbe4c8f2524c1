// SPDX-License-Identifier: GPL-3.0-or-later
#include <QFile>
#include <QFileInfo>
#include <QProcess>
#include <QRegularExpression>
#include <QTemporaryDir>

#include <gtest/gtest.h>

#include "papers/sample.h"
#include "papers/write_pdf.h"

// PDFs are read back with poppler's and qpdf's programs, which know nothing of ours.

namespace evenfall::ui {
namespace {

QString run(const QString& program, const QStringList& words) {
    QProcess process;
    process.start(program, words);
    EXPECT_TRUE(process.waitForFinished(30'000)) << program.toStdString();
    EXPECT_EQ(process.exitCode(), 0) << process.readAllStandardError().toStdString();
    return QString::fromUtf8(process.readAllStandardOutput());
}

/// The text in drawing order, its white space made plain.
QString text_of_pdf(const QString& file, int page = 0) {
    QStringList words{QStringLiteral("-raw")};
    if (page > 0)
        words << QStringLiteral("-f") << QString::number(page) << QStringLiteral("-l")
              << QString::number(page);
    words << file << QStringLiteral("-");
    return run(QStringLiteral("pdftotext"), words).replace(QChar(0x00A0), u' ').simplified();
}

papers::Document made(Paper paper, papers::PaperSource source, const std::string& language = "en") {
    source.supply = papers::some_supply(source);
    source.judged = papers::some_check(source, 4);
    auto document = papers::make_paper(paper, source, papers::shipped_texts(language));
    if (!document) throw std::runtime_error(document.faults().front().id);
    return std::move(document).value();
}

class PaperPdf : public testing::Test {
  protected:
    QString write(const papers::Document& document, const PaperOptions& options) {
        const QString file = folder_.filePath(QStringLiteral("paper.pdf"));
        const auto written = write_pdf(document, options, file, true);
        EXPECT_TRUE(written.ok()) << written.faults().front().id;
        return file;
    }
    QTemporaryDir folder_;
};

const PaperOptions kEveryOption[] = {
    {PaperSize::a4, false}, {PaperSize::a4, true}, {PaperSize::letter, false}, {PaperSize::letter, true}};

TEST_F(PaperPdf, EveryPageOfEveryPaperSaysWhichPageOfHowManyAndWhoseItIs) {
    for (const auto& [paper, name] : Words<Paper>::table)
        for (const PaperOptions& options : kEveryOption) {
            const papers::Document document = made(paper, papers::every_risk());
            const int pages = PaperPainter::set(document, options).value().page_count();
            const QString file = write(document, options);
            for (int page = 1; page <= pages; ++page) {
                const QString text = text_of_pdf(file, page);
                EXPECT_TRUE(text.contains(QStringLiteral("Page %1 of %2").arg(page).arg(pages))) << name;
                EXPECT_TRUE(text.contains(QStringLiteral("Reference river-17"))) << name;
            }
            EXPECT_TRUE(run(QStringLiteral("pdfinfo"), {file})
                            .contains(QRegularExpression(QStringLiteral("Pages:\\s+%1\\n").arg(pages))));
        }
}

TEST_F(PaperPdf, EveryDoseIsReadBack) {
    for (const PaperOptions& options : kEveryOption) {
        const QString text = text_of_pdf(write(made(Paper::schedule, papers::two_steps()), options));
        // Once in the table of steps and once on each of 14 days.
        EXPECT_EQ(text.count(QStringLiteral("= 1.375 mg")), 15);
        EXPECT_EQ(text.count(QStringLiteral("= 1.25 mg")), 15);
        EXPECT_EQ(text.count(QStringLiteral("2 tablets of 0.5 mg = 1 mg")), 30);
        EXPECT_EQ(text.count(QStringLiteral("2.375 mg in all")), 15);
        for (int day = 4; day <= 31; ++day)
            EXPECT_TRUE(text.contains(QStringLiteral("%1 Jan 2027").arg(day))) << day;
    }
}

TEST_F(PaperPdf, EveryStringOfTheDocumentStandsInThePdf) {
    for (const auto& [paper, name] : Words<Paper>::table)
        for (const char* language : {"en", "es"}) {
            const papers::Document document = made(paper, papers::every_risk(), language);
            QString text = text_of_pdf(write(document, {PaperSize::a4, false}));
            text.remove(u' ');
            papers::for_each_text(document, [&](papers::Role role, const std::string& each) {
                if (role == papers::Role::foot) return;
                const QString wanted = QString::fromStdString(each).remove(u' ');
                if (wanted.contains(u'-')) return;  // a word broken at its hyphen is read back whole
                const bool heads = document.paper == "letter" && wanted.contains(QStringLiteral("2027"));
                EXPECT_TRUE(heads || text.normalized(QString::NormalizationForm_KC)
                                         .contains(wanted.normalized(QString::NormalizationForm_KC)))
                    << name << " " << language << ": " << each;
            });
        }
}

TEST_F(PaperPdf, FontsAreEmbeddedAndTheFileIsSound) {
    const QString file = write(made(Paper::schedule, papers::every_risk()), {PaperSize::letter, false});
    const QStringList fonts = run(QStringLiteral("pdffonts"), {file}).split(u'\n', Qt::SkipEmptyParts).mid(2);
    EXPECT_EQ(fonts.size(), 2);
    for (const QString& font : fonts) {
        EXPECT_TRUE(font.startsWith(QStringLiteral("DejaVuSans"))) << font.toStdString();
        EXPECT_TRUE(font.contains(QRegularExpression(QStringLiteral("Identity-H\\s+yes"))))
            << font.toStdString();
    }
    EXPECT_TRUE(
        run(QStringLiteral("qpdf"), {QStringLiteral("--check"), file}).contains(QStringLiteral("No syntax")));
}

TEST_F(PaperPdf, MetadataNamesThePaperAndNeverThePatient) {
    const QString info =
        run(QStringLiteral("pdfinfo"), {write(made(Paper::caution, papers::two_steps()), {})});
    EXPECT_TRUE(info.contains(QStringLiteral("caution")));
    EXPECT_FALSE(info.contains(QStringLiteral("Ana Example")));
    EXPECT_TRUE(info.contains(QRegularExpression(QStringLiteral("Page size:\\s+595 x 842"))));
}

TEST_F(PaperPdf, NoWordLeavesThePageWhateverIsTyped) {
    papers::PaperSource source = papers::every_risk();
    source.person.name = std::string(200, 'W');
    source.prescriber.name = std::string(200, 'M');
    source.clinic.name = std::string(200, 'Q');
    source.other_medicines.push_back(std::string(200, 'x'));
    static const QRegularExpression kPage(QStringLiteral("<page width=\"([\\d.]+)\" height=\"([\\d.]+)\""));
    static const QRegularExpression kWord(QStringLiteral(
        "<word xMin=\"([-\\d.]+)\" yMin=\"([-\\d.]+)\" xMax=\"([-\\d.]+)\" yMax=\"([-\\d.]+)\""));
    for (const auto& [paper, name] : Words<Paper>::table)
        for (const PaperOptions& options : kEveryOption) {
            const QString file = write(made(paper, source), options);
            const QString boxes =
                run(QStringLiteral("pdftotext"), {QStringLiteral("-bbox"), file, QStringLiteral("-")});
            const auto page = kPage.match(boxes);
            ASSERT_TRUE(page.hasMatch());
            const double width = page.captured(1).toDouble();
            const double height = page.captured(2).toDouble();
            for (auto it = kWord.globalMatch(boxes); it.hasNext();) {
                const auto word = it.next();
                EXPECT_GE(word.captured(1).toDouble(), 20) << name;
                EXPECT_LE(word.captured(3).toDouble(), width - 20) << name;
                EXPECT_LE(word.captured(4).toDouble(), height - 20) << name;
            }
        }
}

TEST_F(PaperPdf, HostileNamesArePrintedAsTheyAreAndChangeNothingElse) {
    papers::PaperSource source = papers::two_steps();
    source.person.name = "<b>Ana</b> \xE2\x80\xAE{page} \xD7\xA9\xD7\x9C\xD7\x95\xD7\x9D";
    const QString text = text_of_pdf(write(made(Paper::schedule, source), {}));
    EXPECT_TRUE(text.contains(QStringLiteral("<b>Ana</b> {page}")));
    EXPECT_EQ(text.count(QStringLiteral("= 1.375 mg")), 15);
}

TEST_F(PaperPdf, AManyTimesADayPlanOfAnyAgentIsLegibleOrRefused) {
    std::mt19937_64 random(99);
    for (int i = 0; i < 12; ++i) {
        const papers::PaperSource source = papers::random_source(random);
        for (const PaperOptions& options : kEveryOption)
            EXPECT_TRUE(PaperPainter::set(made(Paper::schedule, source), options).ok());
    }
}

TEST_F(PaperPdf, AFileThatIsThereIsNotWrittenOver) {
    const papers::Document document = made(Paper::caution, papers::two_steps());
    const QString file = folder_.filePath(QStringLiteral("there.pdf"));
    QFile there(file);
    ASSERT_TRUE(there.open(QIODevice::WriteOnly));
    there.write("mine");
    there.close();
    const auto refused = write_pdf(document, {}, file);
    ASSERT_FALSE(refused.ok());
    EXPECT_EQ(refused.faults().front().id, "paper-file-exists");
    EXPECT_EQ(QFileInfo(file).size(), 4);
    EXPECT_TRUE(write_pdf(document, {}, file, true).ok());
    EXPECT_GT(QFileInfo(file).size(), 1000);
}

TEST_F(PaperPdf, AFolderThatCannotBeWrittenToIsSaidSo) {
    const papers::Document document = made(Paper::caution, papers::two_steps());
    const auto written = write_pdf(document, {}, folder_.filePath(QStringLiteral("nowhere/paper.pdf")));
    ASSERT_FALSE(written.ok());
    EXPECT_EQ(written.faults().front().id, "paper-file-not-written");
    EXPECT_FALSE(QFileInfo::exists(folder_.filePath(QStringLiteral("nowhere/paper.pdf"))));
}

}  // namespace
}  // namespace evenfall::ui
