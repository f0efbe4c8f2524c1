// SPDX-License-Identifier: GPL-3.0-or-later
#include "model/json.h"

#include <gtest/gtest.h>

#include "units/dose_text.h"

namespace evenfall {
namespace {

using nlohmann::json;

Dose mg(std::string_view text) {
    return parse_mg(text, "test").value();
}

template <class T>
void expect_round_trip(const T& value) {
    const std::string text = json(value).dump();
    EXPECT_EQ(json::parse(text).get<T>(), value) << text;
}

Product tablet() {
    return {"clonazepam", Form::tablet, mg("0.5"), Cuts::quarters, {}};
}

Plan plan() {
    Plan plan;
    plan.request.drug = "clonazepam";
    plan.request.start = day_at(2027, 1, 4);
    plan.request.target = Share::of(75, 1000);
    plan.request.shape = Shape::dose_time_first;
    plan.request.first_dose_time = ClockTime{480};
    plan.request.last_dose = mg("0.125");
    plan.products = {tablet()};
    Step step;
    step.number = 1;
    step.starts = day_at(2028, 2, 29);
    step.days = 14;
    step.daily = mg("2.375");
    step.percent_of_last = Share::of(1, 20);
    step.status = StepStatus::committed;
    step.doses = {{{480}, "clonazepam", mg("0.875"), {{tablet(), Cut::quarter, 3, {}}}}};
    step.flags = {{"cut-over-cap", {{"percent", "12.5"}}, {"entry"}}};
    Step off;
    off.number = 2;
    plan.steps = {step, off};
    plan.floor = {mg("1.25"), mg("0.125"), {}};
    plan.evenness = 0.0025;
    return plan;
}

TEST(Json, KeepsAPlanUnchanged) {
    expect_round_trip(plan());
    expect_round_trip(Plan{});
    expect_round_trip(plan().request);
}

TEST(Json, KeepsADiaryUnchanged) {
    Diary diary;
    diary.use = Use::night_only;
    diary.intake = {
        {at_clock(day_at(2026, 12, 1), {485}), "lorazepam", mg("1"), TakenWhy::symptoms, "\"quoted\" \n"}};
    diary.ratings = {{at_clock(day_at(2026, 12, 1), {0}), "anxiety", 4}};
    diary.kept_empty = {day_at(1999, 12, 31)};
    expect_round_trip(diary);
}

TEST(Json, KeepsThePersonUnchanged) {
    expect_round_trip(Person{"river-17", "Ada Øst", day_at(1968, 4, 2), 71.5, "es"});
    expect_round_trip(Person{});
    expect_round_trip(RiskScreen{{{"opioid", Answer::yes}, {"minor", Answer::no}}, "note"});
    expect_round_trip(Supports{{{"Bo", "brother", "555", true}}, "after six"});
    expect_round_trip(Suitability{SuitabilityOutcome::specialist_or_inpatient, {"risk-epilepsy"}, "because"});
    expect_round_trip(
        CheckIn{at_clock(day_at(2026, 12, 8), {600}), {{"seizure", "no"}, {"seizure", "yes"}}, "words"});
    expect_round_trip(OnHand{tablet(), 13, Volume::nanolitres(250'000)});
}

TEST(Json, WritesAmountsAsDecimalTextAndWordsAsWords) {
    const json written = tablet();
    EXPECT_EQ(written["strength"], "0.5");
    EXPECT_EQ(written["cuts"], "quarters");
    EXPECT_EQ(json(DatedRegimen{day_at(2027, 1, 4), {}})["from"], "2027-01-04");
}

TEST(Json, KeepsDefaultsForWhatAnOlderEventLacks) {
    const auto request = json::parse(R"({"drug": "lorazepam"})").get<PlanRequest>();
    EXPECT_EQ(request.cap, Share::percent(10));
    EXPECT_EQ(request.days_per_step, 14);
    EXPECT_TRUE(request.test_reduction);
}

TEST(Json, ThrowsOnWhatCannotBeRead) {
    EXPECT_ANY_THROW(json::parse(R"({"strength": "1,5"})").get<Product>());
    EXPECT_ANY_THROW(json::parse(R"({"strength": 1.5})").get<Product>());
    EXPECT_ANY_THROW(json::parse(R"({"form": "pill"})").get<Product>());
    EXPECT_ANY_THROW(json::parse(R"({"from": "2027-02-30"})").get<DatedRegimen>());
}

TEST(Json, ReadsAShareFromTwoWholeNumbersOrNotAtAll) {
    EXPECT_EQ(json::parse("[-1, 20]").get<Share>(), Share::of(-1, 20));
    EXPECT_EQ(json::parse("[9223372036854775807, 1]").get<Share>(), Share::of(INT64_MAX, 1));
    for (const char* wrong : {"[1.5, 20]", "[1, 20.0]", "[1e87, 1]", "[1, 0]", "[18446744073709551615, 1]",
                              "[-9223372036854775808, -1]", "[1, true]", "[1, 2, 3]", "0.05"})
        EXPECT_ANY_THROW(json::parse(wrong).get<Share>()) << wrong;
}

}  // namespace
}  // namespace evenfall
