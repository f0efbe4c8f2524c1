// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <random>
#include <regex>

#include <gtest/gtest.h>

#include "papers/sample.h"
#include "planning/cases.h"

namespace evenfall::papers {
namespace {

struct Forbidden {
    const char* what;
    const char* source;
    std::regex pattern;
};

// Sources: ISMP, "List of Error-Prone Abbreviations, Symbols, and Dose Designations" (extracts of 2006 and
// later), and the Joint Commission's official "Do Not Use" list with its possible later additions (2009).
const std::vector<Forbidden>& forbidden() {
    static const std::vector<Forbidden> kList = {
        {"trailing zero", "ISMP; Joint Commission", std::regex(R"(\d\.\d*0(?!\d))")},
        {"no leading zero", "ISMP; Joint Commission", std::regex(R"((^|[^\d])\.\d)")},
        {"no space before the unit", "ISMP", std::regex(R"(\d(mg|mL|mcg)\b)")},
        {"full stop after the unit", "ISMP", std::regex(R"(\b(mg|mL)\.)")},
        {"no comma from 1,000 upward", "ISMP",
         std::regex(R"((^|[^.\d])\d{4,}(\.\d+)? (mg|mL|tablets|capsules)\b)")},
        {"slash between numbers or units", "ISMP", std::regex(R"((\d\s*/\s*\d)|(mg\s*/)|(/\s*mL))")},
        {"U, u, IU", "Joint Commission", std::regex(R"(\d\s*(U|u|IU)\b)")},
        {"daily abbreviated", "Joint Commission", std::regex(R"(\b[Qq]\.?[Dd]\b|\b[Qq]\.?[Oo]\.?[Dd]\b)")},
        {"times a day abbreviated", "ISMP", std::regex(R"(\b(BID|TID|QID|PRN|prn|bid|tid|qid|qhs|HS)\b)")},
        {"drug name abbreviated", "Joint Commission", std::regex(R"(\b(MS|MSO4|MgSO4|CPZ|HCT|DPT)\b)")},
        {"µg, ug", "Joint Commission 2009", std::regex("\xC2\xB5g|\xCE\xBCg|\\bug\\b")},
        {"cc, mls, ml", "Joint Commission 2009", std::regex(R"(\d\s*(cc|mls|ml|ML)\b)")},
        {"@, >, <", "Joint Commission 2009", std::regex(R"([@<>])")},
    };
    return kList;
}

/// Every paper of a source, in both languages.
std::vector<Document> all_papers(const PaperSource& source) {
    std::vector<Document> papers;
    for (const std::string& language : languages(resources_folder()))
        for (const auto& [paper, name] : Words<Paper>::table) {
            auto document = make_paper(paper, source, shipped_texts(language));
            EXPECT_TRUE(document.ok()) << name << ": " << document.faults().front().id;
            if (document) papers.push_back(std::move(*document));
        }
    return papers;
}

void expect_safe(const Document& document) {
    for_each_text(document, [&](Role, const std::string& text) {
        for (const Forbidden& each : forbidden())
            EXPECT_FALSE(std::regex_search(text, each.pattern))
                << document.paper << " (" << document.language << "): " << each.what << " (" << each.source
                << "): " << text;
    });
}

TEST(SafePrinting, TheListBites) {
    const std::vector<std::string> bad = {"1.0 mg",      ".5 mg", "5mg",      "take 5 mg. Then", "1500 mg",
                                          "1/2 tablet",  "10 U",  "5 mg q.d", "5 mg BID",        "MSO4",
                                          "5 \xC2\xB5g", "5 cc",  "> 5"};
    ASSERT_EQ(bad.size(), forbidden().size());
    for (std::size_t i = 0; i < bad.size(); ++i)
        EXPECT_TRUE(std::regex_search(bad[i], forbidden()[i].pattern)) << bad[i];
    for (const char* good :
         {"0.5 mg", "2.375 mg", "1,500 mg", "5 mg at 08:00", "4.2 mL", "20 tablets", "Step 10."})
        for (const Forbidden& each : forbidden())
            EXPECT_FALSE(std::regex_search(good, each.pattern)) << good << each.what;
}

TEST(SafePrinting, HoldsForEveryStringOfEveryPaperOverRandomPlans) {
    std::mt19937_64 random(20261124);
    for (int i = 0; i < 40; ++i)
        for (const Document& document : all_papers(random_source(random))) {
            expect_safe(document);
            if (HasFailure()) return;
        }
}

/// A text with every digit but zero made the same, which no entry of the list tells apart: what was judged
/// once need not be judged again.
std::string shape_of(std::string text) {
    for (char& c : text)
        if (c >= '1' && c <= '9') c = '1';
    return text;
}

TEST(SafePrinting, HoldsForTheDosesOfThousandsOfRandomPlans) {
    std::mt19937_64 random(17);
    std::set<std::string> judged;
    for (int i = 0; i < cases(2'000) && !HasFailure(); ++i) {
        const PaperSource source = random_source(random);
        for (const Paper paper : {Paper::schedule, Paper::pharmacy})
            for_each_text(make_paper(paper, source, shipped_texts(i % 2 == 0 ? "en" : "es")).value(),
                          [&](Role, const std::string& text) {
                              if (!judged.insert(shape_of(text)).second) return;
                              for (const Forbidden& each : forbidden())
                                  EXPECT_FALSE(std::regex_search(text, each.pattern))
                                      << each.what << ": " << text;
                          });
    }
    EXPECT_GT(static_cast<int>(judged.size()), cases(1'000));
}

TEST(SafePrinting, HoldsForEverySentenceOfTheTexts) {
    const std::vector<std::string> papers = {"paper-", "schedule-", "caution-", "pharmacy-", "letter-",
                                             "diary-", "call-",     "card-",    "report-",   "missed-dose-"};
    for (const std::string& language : languages(resources_folder()))
        for (const auto& [id, sentence] : shipped_texts(language).all()) {
            if (std::ranges::none_of(papers, [&](const std::string& paper) { return id.starts_with(paper); }))
                continue;
            for (const Forbidden& each : forbidden())
                EXPECT_FALSE(std::regex_search(sentence, each.pattern))
                    << language << " " << id << ": " << each.what;
        }
}

/// The days of a table whose bands say the year, on the page where a step begins and where it goes on, and of
/// a diary under the days that it is for.
std::vector<std::string> days_under_a_year(const Document& document) {
    static const std::regex year("\\b\\d{4}\\b");
    std::vector<std::string> days;
    for (const Block& block : document.blocks) {
        const auto* grid = std::get_if<Grid>(&block.content);
        if (grid && document.paper == "diary" && std::regex_search(document.subtitle, year))
            days.insert(days.end(), grid->rows.begin(), grid->rows.end());
        const auto* table = std::get_if<Table>(&block.content);
        if (!table) continue;
        for (const Group& group : table->groups)
            if (!group.band.empty() && std::regex_search(group.band.front(), year) &&
                std::regex_search(group.continued, year))
                for (const Row& row : group.rows) days.push_back(row.front().strong.front());
    }
    return days;
}

TEST(Dates, HaveTheirYearOnEveryPaper) {
    std::string months;
    for (const std::string& language : languages(resources_folder()))
        for (const char* kind : {"paper-month-", "paper-month-short-"})
            for (int month = 1; month <= 12; ++month)
                months +=
                    (months.empty() ? "" : "|") + shipped_texts(language).text(kind + std::to_string(month));
    const std::regex without_year("\\b\\d{1,2} (de )?(" + months + ")\\b(?! (de )?\\d{4})");
    EXPECT_TRUE(std::regex_search("on 4 January.", without_year));
    EXPECT_FALSE(std::regex_search("on 4 January 2027, el 4 de enero de 2027", without_year));
    std::mt19937_64 random(7);
    for (int i = 0; i < 20; ++i)
        for (const Document& document : all_papers(random_source(random))) {
            const std::vector<std::string> days = days_under_a_year(document);
            for_each_text(document, [&](Role, const std::string& text) {
                EXPECT_TRUE(std::ranges::count(days, text) || !std::regex_search(text, without_year))
                    << document.paper << ": " << text;
            });
        }
}

TEST(Sentences, HaveNoGapsOnAnyPaper) {
    std::mt19937_64 random(11);
    for (int i = 0; i < 20; ++i)
        for (const Document& document : all_papers(random_source(random)))
            for_each_text(document, [&](Role role, const std::string& text) {
                EXPECT_EQ(text.find('['), std::string::npos) << text;
                EXPECT_TRUE(role == Role::foot || text.find('{') == std::string::npos) << text;
            });
}

TEST(PaperTexts, StandInBothLanguagesWithTheSameBraces) {
    const auto braces = [](const std::string& sentence) {
        std::set<std::string> names;
        const std::regex brace(R"(\{[^}]*\})");
        for (std::sregex_iterator it(sentence.begin(), sentence.end(), brace), end; it != end; ++it)
            names.insert(it->str());
        return names;
    };
    const auto& english = shipped_texts("en").all();
    const auto& spanish = shipped_texts("es").all();
    for (const auto& [id, sentence] : english) {
        const auto other = spanish.find(id);
        ASSERT_NE(other, spanish.end()) << id;
        EXPECT_EQ(braces(sentence), braces(other->second)) << id;
        EXPECT_FALSE(other->second.empty()) << id;
    }
    for (const auto& [id, sentence] : spanish) EXPECT_TRUE(english.contains(id)) << id;
}

}  // namespace
}  // namespace evenfall::papers
