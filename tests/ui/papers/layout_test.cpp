// SPDX-License-Identifier: GPL-3.0-or-later
#include <QRegularExpression>
#include <QTemporaryDir>
#include <iostream>
#include <map>
#include <optional>

#include <gtest/gtest.h>

#include "papers/caseload.h"
#include "papers/hard_people.h"
#include "papers/papers.h"
#include "papers/steps.h"
#include "papers/wording.h"
#include "papers/write_pdf.h"
#include "ui/papers/page_words.h"

// Every page of every paper of the demo caseload, as poppler sees it. EVENFALL_EVERY_PAPER=1 takes every
// person in every way of printing, EVENFALL_EVERY_PAPER="schedule en a4" what has these words in its name
// (a pattern); without it each way of printing takes every eleventh person, in turn, and each paper of
// those that are hard to print is set in every fourth way.
// EVENFALL_KEEP_PAPERS=FOLDER keeps the PDFs there, to be looked at.

namespace evenfall::ui {
namespace {

struct Way {
    std::string language;
    PaperOptions options;
};

std::vector<Way> every_way() {
    std::vector<Way> ways;
    for (const char* language : {"en", "es"})
        for (const PaperSize size : {PaperSize::a4, PaperSize::letter})
            for (const bool large : {false, true}) ways.push_back({language, {size, large}});
    return ways;
}

std::string name_of(Paper paper, const papers::PaperSource& source, const Way& way) {
    return source.person.reference + " " + word(paper) + " " + way.language + " " + word(way.options.size) +
           (way.options.large_print ? " large" : "");
}

/// How many pages a paper may take in normal print; large print may take twice as many of those that must
/// stand on one.
std::optional<std::size_t> most_pages(Paper paper, bool large) {
    switch (paper) {
        case Paper::letter:
        case Paper::diary:
            return large ? 2 : 1;
        case Paper::call:  // both lists of danger, what is taken from what, and room to write
            return large ? 3 : 1;
        case Paper::card:
        case Paper::report:
            return large ? std::nullopt : std::optional<std::size_t>(1);
        default:
            return std::nullopt;
    }
}

class PaperLayout : public testing::Test {
  protected:
    /// False where this paper cannot be made of this person: no plan, no diary.
    /// `hard`: why the papers of a made-up person are hard to print; such may take a page more.
    bool check(Paper paper, const papers::PaperSource& source, const Way& way, const std::string& hard = {}) {
        auto document = papers::make_paper(paper, source, papers::shipped_texts(way.language));
        if (!document) return false;
        const std::string name = (hard.empty() ? "" : "hard " + hard + " ") + name_of(paper, source, way);
        if (!QString::fromStdString(name).contains(asked_)) return true;
        const QString kept = qEnvironmentVariable("EVENFALL_KEEP_PAPERS");
        const QString file = kept.isEmpty() ? folder_.filePath(QStringLiteral("paper.pdf"))
                                            : kept + QStringLiteral("/") +
                                                  QString::fromStdString(name).replace(u' ', u'-') +
                                                  QStringLiteral(".pdf");
        const auto written = write_pdf(*document, way.options, file, true);
        EXPECT_TRUE(written.ok()) << name;
        if (!written) return true;
        for (const std::string& fault : layout_faults(*document, file, way.options.large_print))
            if (hard.empty() || (!takes_room(fault) && !breaks_name(fault, source.person.name)))
                ADD_FAILURE() << name << ": " << fault;
        if (paper == Paper::schedule) hangs_alone(*document, source, way, file, name);
        const std::size_t pages = words_of_pages(file).size();
        const auto most = most_pages(paper, way.options.large_print);
        if (hard.empty()) {
            EXPECT_LE(pages, most.value_or(pages)) << name;
        }
        count_[word(paper) + (way.options.large_print ? " large" : "")] += pages;
        ++papers_;
        return true;
    }
    /// Days of twelve doses or of three agents leave what stands before them a page of its own; a day of
    /// twelve in large print is higher than a page.
    static bool takes_room(const std::string& fault) {
        return fault.find("is broken between pages") != std::string::npos ||
               fault.ends_with("shows no day") || fault.find("is nearly empty") != std::string::npos ||
               fault.ends_with("holds only a line or two");
    }
    /// A name of two hundred letters without a space has to break, and poppler reads what is written from the
    /// right letter by letter.
    static bool breaks_name(const std::string& fault, const std::string& name) {
        const std::string broken = "broken word: ";
        const std::size_t at = fault.find(broken);
        return at != std::string::npos &&
               QString::fromStdString(name).contains(QString::fromStdString(fault.substr(at + broken.size())),
                                                     Qt::CaseInsensitive);
    }
    /// The part to hang up is read alone: the numbers for a danger, what to do today, the dose times and the
    /// last day stand on its pages, and nothing that the document says there is lost.
    void hangs_alone(const papers::Document& document, const papers::PaperSource& source, const Way& way,
                     const QString& file, const std::string& name) {
        const QString all = words_of_last_part(document, file);
        const auto bare = [](const std::string& text) {
            return QString::fromStdString(text)
                .normalized(QString::NormalizationForm_KC)
                .remove(u' ')
                .remove(u'-');
        };
        const papers::Wording say(papers::shipped_texts(way.language), source.parts);
        const auto steps = papers::firm_steps(source);
        const std::map<std::string, std::string> numbers = {{"emergency", source.clinic.emergency_number},
                                                            {"crisis", source.clinic.crisis_number}};
        std::vector<std::string> needed = {
            say("schedule-notice"), say("schedule-notice-seizure"), say("schedule-notice-hard"),
            say("schedule-notice-emergency", numbers), say("schedule-notice-suicide", numbers)};
        std::vector<std::string> times;
        for (const ClockTime at : papers::dose_times(steps)) times.push_back(say.dose_time(at));
        const bool later = steps.front().from > source.as_of;
        if (!times.empty())
            needed.push_back(
                say(later ? "schedule-times-from" : "schedule-times",
                    {{"times", papers::joined(times, ", ")}, {"date", say.date(steps.front().from)}}));
        if (!steps.back().step->doses.empty())
            needed.push_back(say("schedule-until", {{"date", say.date(steps.back().last)}}));
        for (const std::string& text : needed)
            EXPECT_TRUE(all.contains(bare(text))) << name << " hangs without: " << text;
    }
    /// Which papers are looked at, by their names.
    const QString every_ = qEnvironmentVariable("EVENFALL_EVERY_PAPER");
    const QRegularExpression asked_{every_ == QStringLiteral("1") ? QString() : every_};
    QTemporaryDir folder_;
    std::map<std::string, std::size_t> count_;
    int papers_ = 0;
};

TEST_F(PaperLayout, NoWordIsCutLaidOverAnotherOrLeftAloneInTheDemoCaseload) {
    const papers::Caseload caseload;
    ASSERT_GE(caseload.people().size(), 16u);
    const bool every = !every_.isEmpty();
    const std::size_t stride = every ? 1 : 11;
    std::size_t way_number = 0;
    for (const Way& way : every_way()) {
        for (std::size_t i = way_number++ % stride; i < caseload.people().size(); i += stride)
            for (const auto& [paper, name] : Words<Paper>::table) check(paper, caseload.people()[i], way);
    }
    EXPECT_GT(papers_, !asked_.pattern().isEmpty() ? 0 : every ? 800 : 60);
    for (const auto& [paper, pages] : count_) std::cout << paper << ": " << pages << " pages\n";
}

TEST_F(PaperLayout, NoWordIsCutInThePapersOfTheHardestPeople) {
    const auto people = papers::hard_people();
    const bool every = !every_.isEmpty();
    std::size_t turn = 0;
    for (const auto& [why, source] : people)
        for (const auto& [paper, name] : Words<Paper>::table) {
            const std::vector<Way> ways = every_way();
            for (std::size_t i = 0; i < ways.size(); ++i)
                if (every || (i + turn) % 4 == 0) check(paper, source, ways[i], why);
            ++turn;
        }
    EXPECT_GT(papers_, asked_.pattern().isEmpty() ? 100 : 0);
}

// The check itself: a page that is wrong is said to be so.
TEST_F(PaperLayout, TheCheckFindsWhatIsWrong) {
    papers::Document document;
    document.title = "A title";
    document.footer.page = "Page {page} of {pages}";
    document.footer.patient = "Reference river-17";
    document.footer.version = "Version";
    document.blocks.push_back(
        {papers::Paragraph{"Anxiety and sleep and more to fill a page with lines."}, false});
    document.blocks.push_back({papers::PageBreak{}, false});
    document.blocks.push_back({papers::Heading{"A heading alone"}, false});
    const QString file = folder_.filePath(QStringLiteral("wrong.pdf"));
    ASSERT_TRUE(write_pdf(document, {}, file, true).ok());
    auto faults = layout_faults(document, file, false);
    EXPECT_TRUE(std::ranges::any_of(
        faults, [](const std::string& fault) { return fault.find("page 2 of 2: holds only a line") == 0; }));
    std::get<papers::Paragraph>(document.blocks.front().content).text = "Anxie ty and sleep and more";
    faults = layout_faults(document, file, false);
    EXPECT_TRUE(std::ranges::any_of(faults, [](const std::string& fault) {
        return fault.find("broken word: Anxiety") != std::string::npos;
    }));
}

}  // namespace
}  // namespace evenfall::ui
