// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <filesystem>
#include <fstream>
#include <regex>
#include <set>
#include <sstream>

#include <gtest/gtest.h>

#include "model/person.h"
#include "rules/rules.h"
#include "rules/texts.h"

namespace evenfall {
namespace {

const std::filesystem::path kSource = EVENFALL_SOURCE_DIR;

const Rules& shipped() {
    static const Rules rules = [] {
        auto loaded = Rules::load(kSource / "resources" / "rules.json");
        if (!loaded)
            for (const Fault& fault : loaded.faults()) ADD_FAILURE() << fault.id << " at " << fault.place;
        return loaded ? *loaded : Rules{};
    }();
    return rules;
}

std::set<std::string> braces(const std::string& sentence) {
    static const std::regex brace("\\{([^}]*)\\}");
    std::set<std::string> names;
    for (auto at = std::sregex_iterator(sentence.begin(), sentence.end(), brace);
         at != std::sregex_iterator(); ++at)
        names.insert((*at)[1]);
    return names;
}

std::string text_of(const std::filesystem::path& file) {
    std::ostringstream text;
    text << std::ifstream(file).rdbuf();
    return text.str();
}

/// Calls each(file, match) for every match of `pattern` in the sources of some rooms of core.
template <class Each>
void search_sources(const std::vector<std::string>& rooms, const std::regex& pattern, Each each) {
    for (const std::string& room : rooms)
        for (const auto& entry : std::filesystem::recursive_directory_iterator(kSource / "core" / room)) {
            if (entry.path().extension() != ".cpp") continue;
            const std::string text = text_of(entry.path());
            for (auto at = std::sregex_iterator(text.begin(), text.end(), pattern);
                 at != std::sregex_iterator(); ++at)
                each(entry.path().string(), *at);
        }
}

TEST(ShippedRules, SpeakEveryLanguageWithTheSameBraces) {
    EXPECT_GE(shipped().all().size(), 50U);
    for (const auto& [id, rule] : shipped().all()) {
        for (const std::string& language : languages(kSource / "resources")) {
            ASSERT_TRUE(rule.sentence.contains(language)) << id << " " << language;
            EXPECT_EQ(braces(rule.sentence.at(language)), braces(rule.sentence.at("en")))
                << id << " " << language;
        }
        EXPECT_FALSE(rule.source.empty()) << id;
    }
}

TEST(ShippedRules, FillTheirOwnValuesOnly) {
    for (const auto& [id, rule] : shipped().all())
        for (const std::string& name : braces(rule.sentence.at("en")))
            if (name.rfind("rule.", 0) == 0) {
                EXPECT_TRUE(rule.values.contains(name.substr(5))) << id << " " << name;
            }
}

TEST(ShippedRules, HoldEveryValueThatTheCodeAsksFor) {
    const std::regex call("\\.(number|whole|percent)\\(\\s*\"([a-z0-9-]+)\",\\s*\"([a-z0-9_]+)\"");
    int calls = 0;
    search_sources({""}, call, [&](const std::string& file, const std::smatch& match) {
        ++calls;
        const Rule* rule = shipped().find(match[2].str());
        ASSERT_NE(rule, nullptr) << file << ": " << match[2];
        EXPECT_TRUE(rule->values.contains(match[3].str())) << file << ": " << match[2] << " " << match[3];
    });
    EXPECT_GT(calls, 0);
}

// Joint Clinical Practice Guideline on Benzodiazepine Tapering (2025), pocket guide, recommendation 6 and key
// takeaways.
TEST(ShippedRules, HoldThePaceOfTheJointGuideline) {
    EXPECT_EQ(shipped().percent("first-cut-range", "least_percent"), Share::percent(5));
    EXPECT_EQ(shipped().percent("first-cut-range", "most_percent"), Share::percent(10));
    EXPECT_EQ(shipped().whole("step-interval", "least_days"), 14);
    EXPECT_EQ(shipped().whole("step-interval", "most_days"), 28);
    EXPECT_EQ(shipped().percent("fall-over-two-weeks", "percent"), Share::percent(25));
    EXPECT_EQ(shipped().whole("fall-over-two-weeks", "days"), 14);
    EXPECT_EQ(shipped().whole("risk-older-age", "years"), 65);
    EXPECT_EQ(shipped().whole("risk-benefit-review", "months"), 3);
}

TEST(ShippedRules, JudgeEveryQuestionOfTheRiskScreen) {
    for (std::string word : kRiskWords) {
        std::replace(word.begin(), word.end(), ' ', '-');
        ASSERT_NE(shipped().find("risk-" + word), nullptr) << word;
        const int level = shipped().whole("risk-" + word, "level");
        EXPECT_TRUE(level >= 0 && level <= 2) << word;
    }
}

TEST(Texts, HoldTheSameSentencesWithTheSameBracesInEveryLanguage) {
    const auto english = Texts::load(kSource / "resources", "en");
    ASSERT_TRUE(english.ok());
    const auto all = languages(kSource / "resources");
    EXPECT_GE(all.size(), 2U);
    for (const std::string& language : all) {
        const auto other = Texts::load(kSource / "resources", language);
        ASSERT_TRUE(other.ok()) << language;
        for (const auto& [id, sentence] : english->all()) {
            ASSERT_TRUE(other->has(id)) << language << " " << id;
            EXPECT_EQ(braces(sentence), braces(other->all().find(id)->second)) << language << " " << id;
        }
        for (const auto& [id, sentence] : other->all())
            EXPECT_TRUE(english->has(id)) << language << " " << id;
    }
}

TEST(Texts, HaveASentenceForEveryFaultOfTheGroundFloor) {
    const auto english = Texts::load(kSource / "resources", "en");
    ASSERT_TRUE(english.ok());
    const std::regex id("\"((amount|day|clock|time|zone|texts|json|file|formulary|rules?)(-[a-z]+)+)\"");
    int ids = 0;
    search_sources({"units", "model", "formulary", "rules"}, id,
                   [&](const std::string& file, const std::smatch& match) {
                       ++ids;
                       EXPECT_TRUE(english->has(match[1].str())) << file << ": " << match[1];
                   });
    EXPECT_GT(ids, 50);
}

TEST(Texts, ShowGapsInsteadOfHidingThem) {
    const auto english = Texts::load(kSource / "resources", "en").value();
    EXPECT_EQ(english.text("no-such-id"), "[no-such-id]");
    EXPECT_EQ(fill("a {b} c", {}), "a {b} c");
    EXPECT_EQ(fill("{a}{b}", {{"a", "{b}"}, {"b", "2"}}), "{b}2");
    EXPECT_EQ(english.text(Fault{"amount-comma", "plan.last_dose_mg", {{"text", "1,5"}}}).substr(0, 25),
              "plan.last_dose_mg: \"1,5\" ");
}

TEST(Texts, RefuseALanguageThatIsNotThere) {
    EXPECT_EQ(Texts::load(kSource / "resources", "xx").faults().front().id, "texts-missing");
}

}  // namespace
}  // namespace evenfall
