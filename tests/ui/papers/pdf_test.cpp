// SPDX-License-Identifier: GPL-3.0-or-later
#include <QFile>
#include <QFileInfo>
#include <QLocale>
#include <QProcess>
#include <QRegularExpression>
#include <QTemporaryDir>
#include <algorithm>
#include <cmath>
#include <iterator>
#include <map>

#include <gtest/gtest.h>

#include "papers/hard_people.h"
#include "papers/mark.h"
#include "papers/wording.h"
#include "papers/write_pdf.h"
#include "units/dose_text.h"

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

/// The amounts of a day as its row says them, in the order of the clock: after an equals sign where the
/// pieces are said in words ("half of a …"), alone where they are said above; a liquid's volume stands before
/// its amount.
std::vector<std::string> amounts_of_row(QString row) {
    static const QRegularExpression was(QStringLiteral("was\\s+(?:[^=:]*mL[^=:]*=\\s*)?[\\d.,]+\\s+mg"));
    static const QRegularExpression sum(QStringLiteral("= ([\\d.,]+) mg"));
    static const QRegularExpression alone(QStringLiteral("([\\d.,]+) mg(?! per)"));
    row.remove(was);
    std::vector<std::string> amounts;
    for (auto it = (row.contains(QStringLiteral(" of ")) ? sum : alone).globalMatch(row); it.hasNext();)
        amounts.push_back(it.next().captured(1).remove(u',').toStdString());
    return amounts;
}

/// The first day of a step as its band says it, above a place of a schedule's text.
QDate step_begins(const QString& text, qsizetype above) {
    static const QRegularExpression band(QStringLiteral(
        "Step \\d+ (?:from [A-Z][a-z]+day|goes on ·(?: from)?) (\\d{1,2}) ([A-Z][a-z]{2})[a-z]* "
        "(\\d{4})"));
    QRegularExpressionMatch found;
    if (text.lastIndexOf(band, above, &found) < 0) return {};
    return QLocale::c().toDate(found.captured(1) + u' ' + found.captured(2) + u' ' + found.captured(3),
                               QStringLiteral("d MMM yyyy"));
}

/// The day of "Mon 4 Jan" with its year: the first one of that date from the first day of its step on, whose
/// weekday must be right.
QString with_year(const QRegularExpressionMatch& day, const QDate& from) {
    for (const int year : {from.year(), from.year() + 1}) {
        const QString said = day.captured(2) + u' ' + QString::number(year);
        const QDate date = QLocale::c().toDate(said, QStringLiteral("d MMM yyyy"));
        if (!date.isValid() || date < from) continue;
        EXPECT_EQ(QLocale::c().dayName(date.dayOfWeek(), QLocale::ShortFormat), day.captured(1));
        return said;
    }
    ADD_FAILURE() << "no step stands above " << day.captured().toStdString();
    return {};
}

/// Every day of a schedule's text with its amounts.
std::map<QString, std::vector<std::string>> days_of(const QString& text) {
    static const QRegularExpression day(
        QStringLiteral("(Mon|Tue|Wed|Thu|Fri|Sat|Sun) (\\d{1,2} [A-Z][a-z]{2})(?=\\s)(?!\\s\\d{4})"));
    static const QRegularExpression end(
        QStringLiteral("Step \\d+|Each day|Reference|Your schedule|From |Dose times"));
    std::map<QString, std::vector<std::string>> days;
    for (auto it = day.globalMatch(text); it.hasNext();) {
        const auto found = it.next();
        const auto next = day.match(text, found.capturedEnd());
        QString row =
            text.mid(found.capturedEnd(), next.hasMatch() ? next.capturedStart() - found.capturedEnd() : -1);
        if (const auto stop = end.match(row); stop.hasMatch()) row.truncate(stop.capturedStart());
        // A day that is higher than a page goes on under its date on the next one.
        std::ranges::copy(
            amounts_of_row(row),
            std::back_inserter(days[with_year(found, step_begins(text, found.capturedStart()))]));
    }
    return days;
}

/// What the plan asks for on each day of its committed steps.
std::map<QString, std::vector<std::string>> planned_days(const papers::PaperSource& source) {
    const papers::Wording say(papers::shipped_texts("en"), source.parts);
    std::map<QString, std::vector<std::string>> days;
    for (const Step& step : source.plan->steps) {
        if (step.status != StepStatus::committed || !step.days) continue;
        for (int i = 0; i < *step.days; ++i)
            for (const PlannedDose& dose : step.doses)
                days[QString::fromStdString(say.short_date(step.starts + std::chrono::days(i)))].push_back(
                    print_mg_digits(dose.amount));
    }
    return days;
}

void expect_days(const std::map<QString, std::vector<std::string>>& read,
                 const std::map<QString, std::vector<std::string>>& planned) {
    EXPECT_EQ(read.size(), planned.size());
    for (const auto& [day, amounts] : planned) {
        const auto found = read.find(day);
        ASSERT_NE(found, read.end()) << day.toStdString();
        ASSERT_EQ(found->second, amounts) << day.toStdString();
    }
}

TEST_F(PaperPdf, EveryDoseOfEveryDayIsReadBackAsThePlanHasIt) {
    std::mt19937_64 random(2027);
    std::vector<papers::PaperSource> people = {papers::two_steps(), papers::every_risk(),
                                               papers::down_to_off()};
    for (int i = 0; i < 6; ++i) people.push_back(papers::random_source(random));
    for (papers::PaperSource& source : people) {
        // A dose time that a step leaves out is no amount; and the day of issue lies before the plan.
        source.as_of = std::min(source.as_of, source.plan->request.start);
        const auto planned = planned_days(source);
        for (const PaperOptions& options : kEveryOption)
            expect_days(days_of(text_of_pdf(write(made(Paper::schedule, source), options))), planned);
    }
}

/// What an independent reader finds in the symbols of a page.
QStringList scanned(const QString& file, int page, const QString& folder) {
    const QString root = folder + QStringLiteral("/page");
    const QString number = QString::number(page);
    run(QStringLiteral("pdftoppm"),
        {QStringLiteral("-r"), QStringLiteral("150"), QStringLiteral("-gray"), QStringLiteral("-singlefile"),
         QStringLiteral("-f"), number, QStringLiteral("-l"), number, file, root});
    return run(QStringLiteral("zbarimg"),
               {QStringLiteral("-q"), QStringLiteral("--raw"), root + QStringLiteral(".pgm")})
        .split(u'\n', Qt::SkipEmptyParts);
}

TEST_F(PaperPdf, TheMarkOfEveryPageIsDecodedByAnIndependentReader) {
    const papers::PaperSource source = papers::two_steps();
    for (const Paper paper : {Paper::schedule, Paper::pharmacy, Paper::card})
        for (const PaperOptions& options : kEveryOption) {
            const papers::Document document = made(paper, source);
            const QString file = write(document, options);
            const int pages = PaperPainter::set(document, options).value().page_count();
            QStringList all;
            for (int page = 1; page <= pages; ++page) {
                const QStringList found = scanned(file, page, folder_.path());
                if (paper != Paper::card) {
                    EXPECT_EQ(found.size(), 1) << word(paper) << " page " << page;
                }
                all += found;
            }
            // A card has one mark, on whichever page it falls.
            ASSERT_EQ(all.size(), paper == Paper::card ? 1 : pages)
                << word(paper) << " " << word(options.size) << (options.large_print ? " large" : "");
            for (const QString& each : all) {
                const auto says = papers::read_mark(each.toStdString());
                ASSERT_TRUE(says.has_value()) << each.toStdString();
                EXPECT_EQ(says->code, papers::code_of(source));
                EXPECT_EQ(says->plan, source.plan_id);
                EXPECT_TRUE(text_of_pdf(file).contains(QString::fromStdString(says->code)));
            }
        }
}

TEST_F(PaperPdf, TakesNoMorePagesThanItNeeds) {
    for (const PaperSize size : {PaperSize::a4, PaperSize::letter})
        for (const char* language : {"en", "es"}) {
            const PaperOptions options{size, false};
            const auto pages = [&](Paper paper, const papers::PaperSource& source) {
                return PaperPainter::set(made(paper, source, language), options).value().page_count();
            };
            // The desk's part two, and the wall's: how to read it and what holds until the first step, then a
            // page for each step.
            EXPECT_LE(pages(Paper::schedule, papers::two_steps()), 5) << language;
            EXPECT_EQ(pages(Paper::letter, papers::two_steps()), 1) << language;
            EXPECT_EQ(pages(Paper::diary, papers::every_risk()), 1) << language;
            EXPECT_EQ(pages(Paper::call, papers::every_risk()), 1) << language;
            EXPECT_EQ(pages(Paper::card, papers::two_steps()), 1) << language;
            EXPECT_LE(pages(Paper::caution, papers::two_steps()), 2) << language;
            EXPECT_LE(pages(Paper::caution, papers::every_risk()), 3) << language;
        }
}

double luminance(const QColor& colour) {
    const auto linear = [](double c) {
        return c <= 0.04045 ? c / 12.92 : std::pow((c + 0.055) / 1.055, 2.4);
    };
    return 0.2126 * linear(colour.redF()) + 0.7152 * linear(colour.greenF()) +
           0.0722 * linear(colour.blueF());
}

/// Contrast ratio as WCAG 2.2 defines it.
double contrast(const QColor& a, const QColor& b) {
    const auto [low, high] = std::minmax({luminance(a), luminance(b)});
    return (high + 0.05) / (low + 0.05);
}

// WCAG 2.2: 1.4.3 asks 4.5 for text, 1.4.6 asks 7, 1.4.11 asks 3 for what is not text.
TEST(PaperColours, HaveTheContrastThatIsAsked) {
    EXPECT_NEAR(contrast(Qt::black, Qt::white), 21, 0.01);
    EXPECT_GE(contrast(kPaperInk, Qt::white), 7);
    EXPECT_GE(contrast(kPaperInk, kPaperFill), 7);
    EXPECT_GE(contrast(kPaperRule, Qt::white), 3);
}

TEST(PaperColours, AreGreysSoThatNothingIsSaidByColourAlone) {
    for (const auto& [paper, name] : Words<Paper>::table) {
        const auto painter = PaperPainter::set(made(paper, papers::every_risk()), {PaperSize::a4, false});
        ASSERT_TRUE(painter.ok());
        for (int page = 0; page < painter->page_count(); ++page) {
            const QImage image = painter->picture(page, 0.7);
            for (int y = 0; y < image.height(); ++y)
                for (int x = 0; x < image.width(); ++x) {
                    const QColor colour = image.pixelColor(x, y);
                    const auto [low, high] = std::minmax({colour.red(), colour.green(), colour.blue()});
                    ASSERT_LE(high - low, 16) << name << " page " << page << " at " << x << ", " << y;
                }
        }
    }
}

TEST_F(PaperPdf, EveryStringOfTheDocumentStandsInThePdf) {
    for (const auto& [paper, name] : Words<Paper>::table)
        for (const char* language : {"en", "es"}) {
            const papers::Document document = made(paper, papers::every_risk(), language);
            const auto bare = [](const QString& words) {  // a space that holds words together counts as one
                return words.normalized(QString::NormalizationForm_KC).remove(u' ');
            };
            const QString text = bare(text_of_pdf(write(document, {PaperSize::a4, false})));
            papers::for_each_text(document, [&](papers::Role role, const std::string& each) {
                if (role == papers::Role::foot) return;
                const QString wanted = bare(QString::fromStdString(each));
                if (wanted.contains(u'-')) return;  // a word broken at its hyphen is read back whole
                const bool heads = document.paper == "letter" && wanted.contains(QStringLiteral("2027"));
                EXPECT_TRUE(heads || text.contains(wanted)) << name << " " << language << ": " << each;
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
    PaperOptions named;
    named.name_in_metadata = true;
    EXPECT_TRUE(run(QStringLiteral("pdfinfo"), {write(made(Paper::caution, papers::two_steps()), named)})
                    .contains(QStringLiteral("Ana Example")));
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
    EXPECT_EQ(days_of(text), planned_days(source));
}

TEST_F(PaperPdf, AManyTimesADayPlanOfAnyAgentIsLegibleOrRefused) {
    std::mt19937_64 random(99);
    for (int i = 0; i < 12; ++i) {
        const papers::PaperSource source = papers::random_source(random);
        for (const PaperOptions& options : kEveryOption)
            if (const auto set = PaperPainter::set(made(Paper::schedule, source), options); !set) {
                EXPECT_TRUE(options.large_print) << "only the large print may find no room";
                EXPECT_EQ(set.faults().front().id, "paper-does-not-fit");
            }
    }
}

TEST_F(PaperPdf, ADayThatIsHigherThanAPageSaysThatItGoesOn) {
    papers::PaperSource source = papers::twelve_dose_times();
    source.plan->start = papers::two_steps().plan->start;  // each dose says that it is new at its time
    source.regimen = source.plan->start;
    const QString text = text_of_pdf(write(made(Paper::schedule, source), {PaperSize::letter, true}));
    EXPECT_TRUE(text.contains(QStringLiteral("Mon 4 Jan \u00B7 goes on")));
    EXPECT_TRUE(text.contains(QRegularExpression(QStringLiteral("Step 1 .{0,50}% less \u00B7 goes on"))));
    EXPECT_FALSE(text.contains(QStringLiteral("{row}")));
}

/// A page of what must be said and so many explanations before days that would all stand on the next one.
papers::Document explained_days(int lines) {
    papers::Document document;
    document.title = "Days";
    document.footer.page = "Page {page} of {pages}";
    document.blocks.push_back({papers::Heading{"First part"}, false});
    document.blocks.push_back({papers::PageBreak{}, false});
    document.blocks.push_back({papers::Heading{"Day by day"}, true});
    document.blocks.push_back(
        {papers::Notice{"Never stop suddenly", std::vector<std::string>(8, "A line to be safe")}, true});
    document.blocks.push_back(
        {papers::List{std::vector<std::string>(static_cast<std::size_t>(lines), "A sign"), false}, false,
         true});
    papers::Table table{{{"Day", {}}, {"Morning", "08:00"}}, {{{"Step 1"}, "Step 1 goes on", {}}}};
    for (int day = 1; day <= 14; ++day) {
        papers::Cell date;
        date.strong = {"Day " + std::to_string(day)};
        papers::Cell dose;
        dose.lines = {"5 mg"};
        table.groups.front().rows.push_back({date, dose});
    }
    document.blocks.push_back({std::move(table), false});
    return document;
}

TEST_F(PaperPdf, AHangUpPageHoldsADayAndPutsWhatItMayBehindTheDays) {
    const PaperOptions large{PaperSize::letter, true};
    const QString roomy = text_of_pdf(write(explained_days(1), large), 2);
    EXPECT_LT(roomy.indexOf(QStringLiteral("A sign")), roomy.indexOf(QStringLiteral("Day 1")));
    const QString crowded = write(explained_days(20), large);
    const QString first = text_of_pdf(crowded, 2);
    EXPECT_EQ(first.count(QStringLiteral("A line to be safe")), 8);
    EXPECT_TRUE(first.contains(QStringLiteral("Day 1"))) << first.toStdString();
    EXPECT_FALSE(first.contains(QStringLiteral("A sign")));
    const QString all = text_of_pdf(crowded);
    EXPECT_EQ(all.count(QStringLiteral("A sign")), 20);
    EXPECT_GT(all.indexOf(QStringLiteral("A sign")), all.indexOf(QStringLiteral("Day 14")));
}

TEST_F(PaperPdf, ANoteUnderATableStandsOnThePageOfItsLastRows) {
    for (int lines = 0; lines < 30; ++lines) {
        papers::Document document;
        document.title = "Fills";
        document.footer.page = "Page {page} of {pages}";
        for (int i = 0; i < lines; ++i) document.blocks.push_back({papers::Paragraph{"Filler"}, false});
        papers::Cell fill;
        fill.strong = {"Last row"};
        papers::Table table;
        table.columns.push_back({"Fill", {}});
        table.groups.push_back({});
        table.groups.back().rows.push_back({fill});
        document.blocks.push_back({std::move(table), true});
        document.blocks.push_back({papers::List{{"Held: what it means."}, false}, false});
        const QString file = write(document, {PaperSize::a4, true});
        for (int page = 1; page <= PaperPainter::set(document, {PaperSize::a4, true}).value().page_count();
             ++page) {
            const QString text = text_of_pdf(file, page);
            EXPECT_EQ(text.contains(QStringLiteral("Last row")), text.contains(QStringLiteral("Held:")))
                << lines;
        }
    }
}

/// The width of the last column of a grid in points, read off a picture: between its last two upright rules.
double room_of_notes(const papers::Document& document, const PaperOptions& options) {
    constexpr double kScale = 4;
    constexpr int kRule = 100 * static_cast<int>(kScale);  // long enough to be no letter
    const QImage image = PaperPainter::set(document, options).value().picture(0, kScale);
    const auto is_rule = [&](int x) {
        for (int y = image.height() / 2; y < image.height() / 2 + kRule; ++y)
            if (image.pixelColor(x, y).lightness() > 230) return false;
        return true;
    };
    std::vector<int> rules;
    for (int x = 0; x < image.width(); ++x)
        if (is_rule(x) && (rules.empty() || x > rules.back() + 8)) rules.push_back(x);
    return rules.size() < 2 ? 0 : (rules.back() - rules[rules.size() - 2]) / kScale;
}

TEST_F(PaperPdf, ADiaryKeepsItsRoomForNotesHoweverManyColumnsItHas) {
    for (const PaperOptions& options : kEveryOption)
        for (const char* language : {"en", "es"}) {
            const papers::Document document = made(Paper::diary, papers::every_risk(), language);
            const QString text = text_of_pdf(write(document, options));
            EXPECT_TRUE(text.contains(language == std::string("en") ? QStringLiteral("Notes")
                                                                    : QStringLiteral("Notas")));
            EXPECT_GE(room_of_notes(document, options), 30 / 25.4 * 72 - 1)
                << language << " " << word(options.size) << options.large_print;
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
