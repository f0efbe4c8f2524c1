// SPDX-License-Identifier: GPL-3.0-or-later
#include <gtest/gtest.h>

#include "exchange/compute.h"
#include "exchange/support.h"

namespace evenfall {
namespace {

using namespace testing_case;

Answered crossed(const std::string& more) {
    const Case given = read(R"({"case": 1, "regimen": [{"drug": "lorazepam", "at": "08:00", "amount_mg": "1"},
        {"drug": "lorazepam", "at": "22:00", "amount_mg": "2"}],
        "products": [{"drug": "lorazepam", "form": "tablet", "strength_mg": "1", "cuts": "halves"},
        {"drug": "diazepam", "form": "tablet", "strength_mg": "5", "cuts": "halves"}],
        "crossover": {"from": "lorazepam", "to": "diazepam", "start": "2027-01-04", "days_per_stage": 7})" +
                            more + "}")
                           .value();
    return compute(Kind::crossover, {given, formulary(), rules()}).value();
}

TEST(Crossover, ThePlansStandInTheDocumentedShape) {
    const Answered answer = crossed("");
    ASSERT_EQ(answer["plans"].size(), 6U);
    for (const auto& plan : answer["plans"]) {
        std::vector<std::string> keys;
        for (const auto& [key, value] : plan.items()) keys.push_back(key);
        EXPECT_EQ(keys, (std::vector<std::string>{"stages", "dip", "overshoot", "steady_on"}));
        EXPECT_TRUE(plan["dip"].contains("days_below_85"));
        EXPECT_TRUE(plan["overshoot"].contains("days_above_115"));
        // 1 mg of lorazepam is 5 mg of diazepam (the 2025 joint guideline's government column).
        EXPECT_EQ(plan["stages"].back()["daily_mg"], (Answered{{"diazepam", "15"}, {"lorazepam", "0"}}));
        const auto& first = plan["stages"].front();
        EXPECT_EQ(first["starts"], "2027-01-04");
        EXPECT_EQ(first["doses"][0]["drug"], "lorazepam");
        EXPECT_EQ(first["doses"][0]["pieces"][0]["product"], "lorazepam 1 mg tablet");
    }
}

TEST(Crossover, WhatSpeaksAgainstItIsTheFirstFlag) {
    const Answered answer = crossed(R"(, "risks": ["weak liver"])");
    EXPECT_EQ(answer["plans"][0]["stages"][0]["flags"][0]["rule"], "crossover-weak-liver");
}

TEST(Crossover, APartThatIsMissingIsNamed) {
    const Case given = read(R"({"case": 1})").value();
    const auto answer = compute(Kind::crossover, {given, formulary(), rules()});
    ASSERT_FALSE(answer);
    EXPECT_EQ(answer.faults().size(), 3U);
}

}  // namespace
}  // namespace evenfall
