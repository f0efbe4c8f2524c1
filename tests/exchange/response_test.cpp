// SPDX-License-Identifier: GPL-3.0-or-later
#include <set>

#include "exchange/compute.h"
#include "exchange/support.h"

namespace evenfall {
namespace {

using namespace testing_case;

Result<Answered> answer(Kind kind, std::string_view text) {
    const Case given = read(text).value();
    const Formulary laid = with_case(formulary(), given);
    return compute(kind, {given, laid, rules()});
}

/// Ratings at noon on `count` days from day `first` of November 2026.
std::string ratings(int first, int count, int severity) {
    std::string text;
    for (int day = first; day < first + count; ++day)
        text += std::string(text.empty() ? "" : ",") + R"({"rated_at":"2026-11-)" + (day < 10 ? "0" : "") +
                std::to_string(day) + R"(T12:00","item":"anxiety","severity":)" + std::to_string(severity) +
                "}";
    return text;
}

/// Lorazepam 2 mg a day, 1.8 mg from 10 November, anxiety 2 before and `after` since; as of 29 November.
std::string course(int after, const std::string& more = "") {
    return R"({"case":1,"as_of":"2026-11-29T18:00","timezone":"Etc/UTC",
        "regimen":[{"drug":"lorazepam","at":"08:00","amount_mg":"1"},{"drug":"lorazepam","at":"20:00","amount_mg":"1"}],
        "schedule":[{"starts":"2026-11-10","doses":[{"at":"08:00","drug":"lorazepam","amount_mg":"0.9"},
                                                    {"at":"20:00","drug":"lorazepam","amount_mg":"0.9"}]}],
        "diary":{"symptoms":[)" +
           ratings(1, 9, 2) + "," + ratings(10, 20, after) + "]}" + more + "}";
}

bool suggests(const Answered& answer, const std::string& act) {
    for (const auto& each : answer["suggestions"])
        if (each["act"] == act) return true;
    return false;
}

TEST(ResponseAnswer, HasTheDocumentedShape) {
    const auto result = answer(Kind::response, course(2));
    ASSERT_TRUE(result);
    ASSERT_EQ((*result)["steps"].size(), 1u);
    const auto& step = (*result)["steps"][0];
    EXPECT_EQ(step["number"], 1);
    EXPECT_EQ(step["rise"], 0.0);
    EXPECT_EQ(step["days"], 19);
    EXPECT_EQ(step["told_apart"], "none");
    EXPECT_EQ(step["percent_of_last"], "10.0");
    EXPECT_TRUE(suggests(*result, "eligible for review of the next cut"));
    EXPECT_TRUE((*result)["sensitivity"]["rise_per_10_percent"].is_null());
    for (const auto& each : (*result)["suggestions"]) {
        EXPECT_TRUE(
            (std::set<std::string>{"emergency", "today", "next visit", "routine"}.contains(each["urgency"])));
        ASSERT_FALSE(each["because"].empty());
        EXPECT_FALSE(each["because"][0]["source"].get<std::string>().empty());
    }
}

TEST(ResponseAnswer, ARiseIsHeldWithItsNumbers) {
    const auto result = answer(Kind::response, course(4));
    EXPECT_EQ((*result)["steps"][0]["rise"], 2.0);
    EXPECT_EQ((*result)["steps"][0]["told_apart"], "withdrawal");
    EXPECT_TRUE(suggests(*result, "hold"));
    EXPECT_FALSE(suggests(*result, "eligible for review of the next cut"));
}

TEST(ResponseAnswer, ASeizureOutranksEverything) {
    const auto result = answer(
        Kind::response, course(2, R"(,"checkins":[{"at":"2026-11-28T10:00","answers":{"seizure":"yes"}}])"));
    const auto& first = (*result)["suggestions"][0];
    EXPECT_EQ(first["act"], "emergency");
    EXPECT_EQ(first["urgency"], "emergency");
    EXPECT_EQ(first["because"][0]["rule"], "red-flag-seizure");
    EXPECT_FALSE(suggests(*result, "eligible for review of the next cut"));
}

TEST(ResponseAnswer, ARedFlagNeedsNoDiaryAndNoSteps) {
    const auto result = answer(Kind::response, R"({"case":1,"as_of":"2026-11-29T18:00",
        "checkins":[{"at":"2026-11-28T10:00","answers":{"suicidal thoughts":"yes","cannot sit still":"yes"}}]})");
    ASSERT_TRUE(result);
    EXPECT_EQ((*result)["suggestions"][0]["act"], "emergency");
    EXPECT_FALSE((*result)["decision"].empty());
}

TEST(ResponseAnswer, ABlankItem9OfACaseIsAskedForToday) {
    const auto result = answer(
        Kind::response,
        course(2, R"(,"scales":[{"scale":"PHQ-9","on":"2026-11-28","items":[0,0,0,0,0,0,0,0,null]}])"));
    ASSERT_TRUE(result);
    EXPECT_EQ((*result)["suggestions"][0]["urgency"], "today");
    EXPECT_EQ((*result)["suggestions"][0]["because"][0]["rule"], "phq-9-item-9-blank");
}

TEST(ResponseAnswer, WithoutAnythingHeardNamesWhatIsMissing) {
    const auto result = answer(Kind::response, R"({"case":1})");
    ASSERT_FALSE(result);
    EXPECT_EQ(result.faults().front().id, "case-needs");
}

TEST(ResponseAnswer, TheStepsOfAPlanInThePastStandForASchedule) {
    const auto result = answer(Kind::response, R"({"case":1,"as_of":"2026-12-20T09:00",
        "regimen":[{"drug":"clonazepam","at":"08:00","amount_mg":"1"},{"drug":"clonazepam","at":"21:00","amount_mg":"1.5"}],
        "products":[{"drug":"clonazepam","form":"tablet","strength_mg":"0.5","cuts":"quarters"}],
        "plan":{"drug":"clonazepam","start":"2026-11-02","target_percent":"8","cap_percent":"10","days_per_step":14},
        "diary":{"symptoms":[{"rated_at":"2026-11-01T12:00","item":"anxiety","severity":2}]}})");
    ASSERT_TRUE(result);
    ASSERT_FALSE((*result)["steps"].empty());
    EXPECT_EQ((*result)["steps"][0]["starts"], "2026-11-02");
    EXPECT_TRUE((*result)["steps"][0]["rise"].is_null());
}

TEST(ScalesAnswer, GivesTotalBandAndFlags) {
    const auto result = answer(Kind::scales, R"({"case":1,"scales":[
        {"scale":"GAD-7","on":"2026-12-09","items":[3,3,3,3,3,0,0]},
        {"scale":"PHQ-9","on":"2026-12-08","items":[1,1,0,2,0,1,0,0,1]},
        {"scale":"ISI","on":"2026-12-10","items":[14]}]})");
    ASSERT_TRUE(result);
    const auto& list = (*result)["scales"];
    EXPECT_EQ(list[0]["scale"], "PHQ-9");
    EXPECT_EQ(list[0]["total"], 6);
    EXPECT_EQ(list[0]["band"], "mild");
    EXPECT_EQ(list[0]["flags"][0]["rule"], "phq-9-item-9");
    EXPECT_EQ(list[1]["band"], "severe");
    EXPECT_EQ(list[2]["band"], "below threshold");
    EXPECT_TRUE(list[2]["flags"].empty());
}

TEST(ScalesAnswer, AWrongFormIsAFaultAndABlankHasNoTotal) {
    const auto wrong =
        answer(Kind::scales, R"({"case":1,"scales":[{"scale":"PHQ-9","on":"2026-12-08","items":[1,1]},
        {"scale":"PHQ-2","on":"2026-12-08","items":[1,4]}]})");
    ASSERT_FALSE(wrong);
    ASSERT_EQ(wrong.faults().size(), 2u);
    EXPECT_EQ(wrong.faults()[0].place, "scales[0].items");
    EXPECT_EQ(wrong.faults()[1].id, "scale-item-range");
    const auto blank =
        answer(Kind::scales, R"({"case":1,"scales":[{"scale":"PHQ-2","on":"2026-12-08","items":[1,null]}]})");
    ASSERT_TRUE(blank);
    EXPECT_TRUE((*blank)["scales"][0]["total"].is_null());
    EXPECT_TRUE((*blank)["scales"][0]["band"].is_null());
}

}  // namespace
}  // namespace evenfall
