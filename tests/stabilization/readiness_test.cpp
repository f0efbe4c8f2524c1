// SPDX-License-Identifier: GPL-3.0-or-later
#include <gtest/gtest.h>

#include "builder.h"

namespace evenfall {
namespace {

using namespace testing_diary;
using std::chrono::days;
using std::chrono::hours;

const Regimen kTwo = regimen("lorazepam", {{8, 1}, {20, 1}});
const Day kFirst = day_at(2026, 10, 5);

StabilizationInput ready_input(const Regimen& taken, int length) {
    DiaryBuilder builder(51);
    builder.days_of(taken, length, 10);
    for (int day = 0; day < length; ++day)
        builder.rating(LocalTime(kFirst + days(day)) + hours(12), "anxiety", 4 + builder.between(-1, 1));
    auto input = input_of(builder.diary, {{kFirst, taken}});
    for (const auto& [question, weight] : rules().find("screens-needed")->values)
        input.risks.answers[question] = Answer::no;
    input.checkins.push_back({input.as_of - hours(30), {{"seizure", "no"}, {"suicidal thoughts", "no"}}, ""});
    return input;
}

TEST(Readiness, IsReachedWhenTheDosingIsSteadyAndEveryGateIsMet) {
    const auto result = check(ready_input(kTwo, 20));
    for (const Gate& each : result.readiness) EXPECT_TRUE(each.met) << each.gate;
    EXPECT_EQ(result.readiness.size(), 5u);
    EXPECT_TRUE(result.ready());
}

TEST(Readiness, WaitsTheLongerOfFourteenDaysAndFiveHalfLives) {
    EXPECT_FALSE(gate(check(ready_input(kTwo, 11)), "gate-unchanged")->met);
    const Regimen slow = regimen("quazepam", {{8, 15}});
    const auto result = check(ready_input(slow, 14));
    const Gate* waiting = gate(result, "gate-unchanged");
    EXPECT_FALSE(waiting->met);
    const double half_life = slowest_half_life_h(formulary().find("quazepam")->kinetics);
    EXPECT_EQ(waiting->says.args.at("needed_days"),
              std::to_string(std::max(14, static_cast<int>(std::ceil(5 * half_life / 24)))));
    EXPECT_TRUE(gate(check(ready_input(slow, 40)), "gate-unchanged")->met);
}

TEST(Readiness, StaysShutWhileSymptomsRise) {
    auto input = ready_input(kTwo, 20);
    for (std::size_t i = 0; i < input.diary.ratings.size(); ++i)
        input.diary.ratings[i].severity = 1 + static_cast<int>(i) / 3;
    EXPECT_FALSE(gate(check(input), "gate-symptoms")->met);
    input.diary.ratings.clear();
    const auto unrated = check(input);
    EXPECT_FALSE(gate(unrated, "gate-symptoms")->met);
    EXPECT_EQ(gate(unrated, "gate-symptoms")->says.rule, "gate-symptoms-few");
}

TEST(Readiness, StaysShutOnARedFlagAndWhereNobodyAsked) {
    auto input = ready_input(kTwo, 20);
    input.checkins[0].answers[1].second = "yes";
    const auto flagged = check(input);
    EXPECT_FALSE(gate(flagged, "gate-red-flag")->met);
    EXPECT_TRUE(names(&gate(flagged, "gate-red-flag")->says, "suicidal thoughts"));
    input.checkins.clear();
    const auto unasked = check(input);
    EXPECT_FALSE(gate(unasked, "gate-red-flag")->met);
    EXPECT_EQ(gate(unasked, "gate-red-flag")->says.rule, "gate-red-flag-unasked");
}

TEST(Readiness, StaysShutWhileAScreenIsOpen) {
    auto input = ready_input(kTwo, 20);
    input.risks.answers["pregnancy"] = Answer::not_asked;
    const auto result = check(input);
    EXPECT_FALSE(gate(result, "gate-screens")->met);
    EXPECT_TRUE(names(&gate(result, "gate-screens")->says, "pregnancy"));
    EXPECT_FALSE(result.ready());
}

}  // namespace
}  // namespace evenfall
