// SPDX-License-Identifier: GPL-3.0-or-later
#include "response/scales.h"

#include "response/support.h"

namespace evenfall {
namespace {

using namespace testing_response;

const Day kOn = day_at(2026, 12, 8);

Result<ScaleScore> scored(const std::string& scale, std::vector<int> items) {
    return score({scale, kOn, std::move(items)}, scales(), "scales[0]");
}

/// A form whose answers add up to `total`, the last item last.
std::vector<int> adding_up(int count, int most, int total) {
    std::vector<int> items(static_cast<std::size_t>(count), 0);
    for (int& item : items) {
        item = std::min(most, total);
        total -= item;
    }
    return items;
}

bool raises(const ScaleScore& score, const std::string& rule) {
    return std::ranges::find(score.flags, rule, &Flag::rule) != score.flags.end();
}

// Kroenke, Spitzer, Williams, J Gen Intern Med 2001;16:606-613: 5, 10, 15 and 20 begin mild, moderate,
// moderately severe and severe (looked up).
TEST(ScaleScores, FollowThePublishedBandsOfPhq9) {
    const std::vector<std::pair<int, std::string>> published = {{0, "minimal"},
                                                                {4, "minimal"},
                                                                {5, "mild"},
                                                                {9, "mild"},
                                                                {10, "moderate"},
                                                                {14, "moderate"},
                                                                {15, "moderately severe"},
                                                                {19, "moderately severe"},
                                                                {20, "severe"},
                                                                {27, "severe"}};
    for (const auto& [total, band] : published) {
        const auto result = scored("PHQ-9", adding_up(9, 3, total));
        ASSERT_TRUE(result);
        EXPECT_EQ(result->total, total);
        EXPECT_EQ(result->band, band) << total;
    }
}

// Spitzer, Kroenke, Williams, Löwe, Arch Intern Med 2006;166:1092-1097: 5, 10 and 15 begin mild, moderate and
// severe (from memory; range looked up).
TEST(ScaleScores, FollowThePublishedBandsOfGad7) {
    const std::vector<std::pair<int, std::string>> published = {
        {0, "minimal"},   {4, "minimal"},   {5, "mild"},    {9, "mild"},
        {10, "moderate"}, {14, "moderate"}, {15, "severe"}, {21, "severe"}};
    for (const auto& [total, band] : published) {
        const auto result = scored("GAD-7", adding_up(7, 3, total));
        ASSERT_TRUE(result);
        EXPECT_EQ(result->band, band) << total;
    }
}

// Arroll and others, Ann Fam Med 2010;8:348-353 (PHQ-2, looked up); Kroenke and others, Ann Intern Med
// 2007;146:317 (GAD-2, from memory): 3 is the cut-off of both.
TEST(ScaleScores, FollowTheCutOffOfTheShortForms) {
    for (const std::string scale : {"PHQ-2", "GAD-2"}) {
        EXPECT_EQ(scored(scale, {1, 1})->band, "below the cut-off");
        EXPECT_EQ(scored(scale, {0, 3})->band, "at or above the cut-off");
        EXPECT_EQ(scored(scale, {3, 3})->total, 6);
    }
}

TEST(ScaleScores, RaiseItem9AtAnyAnswerAboveNothing) {
    EXPECT_TRUE(raises(*scored("PHQ-9", {0, 0, 0, 0, 0, 0, 0, 0, 1}), "phq-9-item-9"));
    EXPECT_TRUE(raises(*scored("PHQ-9", {3, 3, 3, 3, 3, 3, 3, 3, 3}), "phq-9-item-9"));
    EXPECT_TRUE(scored("PHQ-9", {3, 3, 3, 3, 3, 3, 3, 3, 0})->flags.empty());
}

TEST(ScaleScores, ABlankItemIsNeverGuessedAndABlankItem9IsNotANo) {
    const auto blank_sleep = scored("PHQ-9", {1, 1, kBlankItem, 1, 1, 1, 1, 1, 0});
    ASSERT_TRUE(blank_sleep);
    EXPECT_FALSE(blank_sleep->total);
    EXPECT_FALSE(blank_sleep->band);
    EXPECT_TRUE(raises(*blank_sleep, "scale-items-blank"));
    EXPECT_FALSE(raises(*blank_sleep, "phq-9-item-9-blank"));
    const auto blank_nine = scored("PHQ-9", {1, 1, 1, 1, 1, 1, 1, 1, kBlankItem});
    ASSERT_TRUE(blank_nine);
    EXPECT_FALSE(blank_nine->total);
    EXPECT_TRUE(raises(*blank_nine, "phq-9-item-9-blank"));
    EXPECT_FALSE(raises(*blank_nine, "phq-9-item-9"));
}

TEST(ScaleScores, RefuseWhatTheFormCannotHold) {
    EXPECT_EQ(scored("PHQ-9", {0, 0, 0, 0, 0, 0, 0, 0}).faults().front().id, "scale-item-count");
    const auto two = scored("GAD-7", {0, 4, 0, 0, 0, 0, -2});
    ASSERT_EQ(two.faults().size(), 2u);
    EXPECT_EQ(two.faults()[0].id, "scale-item-range");
    EXPECT_EQ(two.faults()[0].place, "scales[0].items[1]");
    EXPECT_EQ(scored("ISI", {29}).faults().front().id, "scale-total-range");
    EXPECT_EQ(scored("ISI", {kBlankItem}).faults().front().id, "scale-total-range");
    EXPECT_EQ(scored("HAM-X", {1}).faults().front().id, "scale-unknown");
}

TEST(ScaleScores, OfScalesThatMayNotBeReproducedTakeTheTotalAlone) {
    for (const std::string scale : {"ISI", "CIWA-B", "BWSQ", "BARS", "C-SSRS"}) {
        const Scale* found = scales().find(scale);
        ASSERT_NE(found, nullptr) << scale;
        EXPECT_EQ(found->entry, ScaleEntry::total) << scale;
        EXPECT_TRUE(found->items.empty()) << scale;
        EXPECT_FALSE(found->licence.empty()) << scale;
    }
    EXPECT_EQ(scored("ISI", {14})->band, "below threshold");
    EXPECT_EQ(scored("ISI", {15})->band, "moderate");
    EXPECT_FALSE(scored("CIWA-B", {40})->band) << "its bands are disputed";
}

// Barnes 1989: 2 is the usual threshold of the global rating; Columbia triage guideline: 4 and above is
// imminent risk.
TEST(ScaleScores, RaiseAkathisiaAndSuicidalIntentFromTotals) {
    EXPECT_TRUE(scored("BARS", {1})->flags.empty());
    EXPECT_TRUE(raises(*scored("BARS", {2}), "bars-present"));
    EXPECT_TRUE(raises(*scored("BARS", {5}), "bars-severe"));
    EXPECT_TRUE(scored("C-SSRS", {0})->flags.empty());
    EXPECT_TRUE(raises(*scored("C-SSRS", {1}), "c-ssrs-thoughts"));
    EXPECT_TRUE(raises(*scored("C-SSRS", {4}), "c-ssrs-imminent"));
}

TEST(ShippedScales, SpeakBothLanguagesAndNameRulesThatExist) {
    for (const char* language : {"en", "es"}) {
        const Texts texts = Texts::load(resources_folder(), language).value();
        for (const Scale& scale : scales().all) {
            EXPECT_TRUE(texts.has(scale.licence)) << scale.id;
            EXPECT_FALSE(scale.source.empty()) << scale.id;
            for (const auto& item : scale.items) EXPECT_TRUE(texts.has(item)) << item;
            for (const auto& choice : scale.choices) EXPECT_TRUE(texts.has(choice)) << choice;
            for (const auto& band : scale.bands) {
                std::string id = "scale-band-" + band.band;
                std::ranges::replace(id, ' ', '-');
                EXPECT_TRUE(texts.has(id)) << id;
            }
            for (const auto& alarm : scale.alarms) EXPECT_NE(rules().find(alarm.rule), nullptr) << alarm.rule;
        }
    }
}

TEST(ShippedScales, NeverCallAnythingNoRisk) {
    for (const char* language : {"en", "es"}) {
        const Texts texts = Texts::load(resources_folder(), language).value();
        for (const auto& [id, sentence] : texts.all()) {
            EXPECT_EQ(sentence.find("no risk"), std::string::npos) << id;
            EXPECT_EQ(sentence.find("sin riesgo"), std::string::npos) << id;
        }
    }
}

TEST(ReadingScales, NamesWhatDoesNotFitTogether) {
    const auto read = parse_scales(R"({"version":2,"scales":[
        {"id":"A","entry":"items","item_count":2,"most":1,"items":["x"],"choices":["a","b"],"source":"s","how":"memory","licence":"l"},
        {"id":"A","entry":"total","item_count":1,"most":9,"bands":[{"from":3,"band":"b"}],"source":"s","how":"memory","licence":"l"}]})",
                                   "scales.json");
    ASSERT_FALSE(read);
    std::vector<std::string> ids;
    for (const Fault& fault : read.faults()) ids.push_back(fault.id);
    for (const char* id : {"scales-version", "scale-shape", "scale-id-twice"})
        EXPECT_NE(std::ranges::find(ids, id), ids.end()) << id;
}

}  // namespace
}  // namespace evenfall
