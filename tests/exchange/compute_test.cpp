// SPDX-License-Identifier: GPL-3.0-or-later
#include "exchange/compute.h"

#include <cmath>

#include "exchange/support.h"

namespace evenfall {
namespace {

using namespace testing_case;

Result<Answered> answer(Kind kind, std::string_view text) {
    const Case given = read(text).value();
    const Formulary laid = with_case(formulary(), given);
    return compute(kind, {given, laid, rules()});
}

// US Department of Veterans Affairs / Department of Defense, Clinical Practice Guideline for the Management
// of Substance Use Disorders (2021), dose-equivalence column as reprinted in the joint guideline's pocket
// guide: 2 mg of lorazepam and 1 mg of clonazepam stand for 10 mg of diazepam.
TEST(Compute, EquivalenceFollowsThePublishedTable) {
    const auto result = answer(Kind::equivalence, R"({"case":1,"regimen":[
        {"drug":"lorazepam","at":"08:00","amount_mg":"1"},{"drug":"clonazepam","at":"22:00","amount_mg":"1.5"}]})");
    ASSERT_TRUE(result);
    EXPECT_EQ((*result)["agents"][0]["diazepam_mg"]["usual"], "5");
    EXPECT_EQ((*result)["agents"][1]["diazepam_mg"]["usual"], "15");
    EXPECT_EQ((*result)["total_diazepam_mg"]["usual"], "20");
    EXPECT_GE((*result)["agents"][0]["published"].size(), 8u);
}

TEST(Compute, APartThatIsMissingIsNamed) {
    const auto result = answer(Kind::equivalence, R"({"case":1})");
    ASSERT_FALSE(result);
    EXPECT_EQ(result.faults().front().id, "case-needs");
    EXPECT_EQ(answer(Kind::taper, R"({"case":1})").faults().size(), 3u);
}

constexpr const char* kWorked = R"({"case":1,"as_of":"2026-12-20T09:00","regimen":[
    {"drug":"clonazepam","at":"08:00","amount_mg":"1"},{"drug":"clonazepam","at":"21:00","amount_mg":"1.5"}],
    "products":[{"drug":"clonazepam","form":"tablet","strength_mg":"0.5","cuts":"quarters"},
                {"drug":"clonazepam","form":"orally disintegrating tablet","strength_mg":"0.125","cuts":"whole"}],
    "plan":{"drug":"clonazepam","start":"2027-01-04","target_percent":"8","cap_percent":"10","days_per_step":14}})";

TEST(Compute, TheWorkedTaperBeginsWithTheSmallestCutThatThePiecesMake) {
    const auto result = answer(Kind::taper, kWorked);
    ASSERT_TRUE(result);
    const auto& first = (*result)["steps"][0];
    EXPECT_EQ(first["daily_mg"], "2.375");
    EXPECT_EQ(first["percent_of_last"], "5.0");
    EXPECT_EQ(first["status"], "committed");
    EXPECT_EQ((*result)["steps"].back()["daily_mg"], "0");
    EXPECT_TRUE((*result)["steps"].back()["days"].is_null());
    EXPECT_FALSE((*result)["floor"]["daily_mg"].is_null());
}

TEST(Compute, ATaperAsATableHasOneRowForEachStep) {
    const Case given = read(kWorked).value();
    const auto table = compute_csv(Kind::taper, {given, formulary(), rules()});
    ASSERT_TRUE(table);
    EXPECT_EQ(table->substr(0, table->find('\r')),
              "number,starts,days,daily_mg,percent_of_last,status,doses,flags");
}

// A single dose into one compartment, by the Bateman function: F 1, D 10, ka 1.5 per hour, half-life 12 h.
TEST(Compute, LevelsAreTheBatemanFunction) {
    const auto result = answer(Kind::levels, R"({"case":1,"timezone":"Etc/UTC",
        "kinetics":{"diazepam":{"absorption_half_life_h":0.46209812037329684,"half_life_h":12}},
        "levels":{"doses":[{"taken_at":"2027-01-04T00:00","drug":"diazepam","amount_mg":"10"}],"start":"empty",
                  "from":"2027-01-04T00:00","to":"2027-01-05T00:00","every_minutes":60,"as":"amounts"}})");
    ASSERT_TRUE(result);
    EXPECT_EQ((*result)["columns"], (Answered{"time_h", "diazepam in gut", "diazepam"}));
    EXPECT_EQ((*result)["rows"].size(), 25u);
    const double k = std::log(2.0) / 12;
    const double ka = 1.5;
    for (const auto& row : (*result)["rows"]) {
        const double t = row[0];
        const double exact = 10 * ka / (ka - k) * (std::exp(-k * t) - std::exp(-ka * t));
        EXPECT_NEAR(row[2].get<double>(), exact, 1e-9);
    }
}

TEST(Compute, SteadyStateRepeatsItselfDayByDay) {
    const auto result = answer(Kind::levels, R"({"case":1,"timezone":"Etc/UTC","regimen":[
        {"drug":"diazepam","at":"08:00","amount_mg":"5"},{"drug":"diazepam","at":"22:00","amount_mg":"10"}],
        "levels":{"doses":"regimen","start":"steady state","from":"2027-01-04T08:00","to":"2027-01-06T08:00",
                  "every_minutes":30,"as":"relative"}})");
    ASSERT_TRUE(result);
    const auto& rows = (*result)["rows"];
    ASSERT_EQ(rows.size(), 97u);
    for (std::size_t i = 0; i < 48; ++i)
        EXPECT_NEAR(rows[i][1].get<double>(), rows[i + 48][1].get<double>(), 1e-7);
    double mean = 0;
    for (std::size_t i = 0; i < 48; ++i) mean += rows[i][1].get<double>() / 48;
    EXPECT_NEAR(mean, 100, 3);
}

TEST(Compute, SpreadAddsPercentilesAroundTheMiddle) {
    const auto result = answer(Kind::levels, R"({"case":1,"timezone":"Etc/UTC","regimen":[
        {"drug":"diazepam","at":"08:00","amount_mg":"5"}],
        "levels":{"doses":"regimen","start":"empty","from":"2027-01-04T00:00","to":"2027-01-14T00:00",
                  "every_minutes":720,"as":"relative","spread":50}})");
    ASSERT_TRUE(result);
    EXPECT_EQ((*result)["columns"],
              (Answered{"time_h", "diazepam", "diazepam p10", "diazepam p50", "diazepam p90"}));
    const auto& last = (*result)["rows"].back();
    EXPECT_LT(last[2].get<double>(), last[3].get<double>());
    EXPECT_LT(last[3].get<double>(), last[4].get<double>());
}

TEST(Compute, SpreadReachesTheLastInstantAndSpreadsAbsorptionAsTheRuleSays) {
    const auto ask = [](const char* to) {
        return answer(Kind::levels, std::string(R"({"case":1,"timezone":"Etc/UTC","regimen":[
        {"drug":"diazepam","at":"08:00","amount_mg":"5"}],
        "kinetics":{"diazepam":{"absorption_half_life_h":0.5,"half_life_h":43,"half_life_range_h":[43,43]}},
        "levels":{"doses":"regimen","start":"steady state","from":"2027-01-04T08:00","to":")") +
                                        to + R"(","every_minutes":60,"as":"relative","spread":60}})");
    };
    const auto odd = ask("2027-01-04T10:30"), even = ask("2027-01-04T10:00");
    ASSERT_TRUE(odd && even);
    const auto& rows = (*odd)["rows"];
    ASSERT_EQ(rows.size(), 4u);
    EXPECT_EQ(rows.back()[0], 2.5);
    for (std::size_t i = 0; i < 3; ++i) EXPECT_EQ(rows[i], (*even)["rows"][i]);
    for (const auto& value : rows.back()) EXPECT_TRUE(value.is_number()) << rows.back().dump();
    // The half-life has no range here: what spreads is the absorption.
    EXPECT_GT(rows[1][4].get<double>(), rows[1][2].get<double>() + 1);
}

TEST(Compute, LevelsSayWhichDosesAnEmptyStartDoesNotCount) {
    const auto ask = [](const char* start) {
        return answer(Kind::levels, std::string(R"({"case":1,"timezone":"Etc/UTC","regimen":[
        {"drug":"diazepam","at":"08:00","amount_mg":"5"}],"levels":{"doses":[
        {"taken_at":"2027-01-03T08:00","drug":"diazepam","amount_mg":"10"},
        {"taken_at":"2027-01-04T08:00","drug":"diazepam","amount_mg":"10"}],"start":")") +
                                        start + R"(","from":"2027-01-04T00:00","to":"2027-01-05T00:00",
                  "every_minutes":720,"as":"amounts"}})");
    };
    const auto empty = ask("empty");
    ASSERT_TRUE(empty);
    ASSERT_EQ((*empty)["flags"].size(), 1u);
    EXPECT_EQ((*empty)["flags"][0]["rule"], "levels-empty-start");
    EXPECT_EQ((*empty)["rows"][0][2], 0);
    const auto steady = ask("steady state");
    ASSERT_TRUE(steady);
    EXPECT_FALSE(steady->contains("flags"));
}

}  // namespace
}  // namespace evenfall
