// SPDX-License-Identifier: GPL-3.0-or-later
#include <cmath>
#include <fstream>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "diary/circular.h"
#include "diary/statistics.h"

// The statistics against SciPy's on fixed data: tests/reference/statistics.json, made by statistics_table.py.

namespace evenfall {
namespace {

const nlohmann::json& table() {
    static const nlohmann::json read = [] {
        std::ifstream file(EVENFALL_SOURCE_DIR "/tests/reference/statistics.json");
        return nlohmann::json::parse(file);
    }();
    return read;
}

using Values = std::vector<double>;

TEST(ScipyTable, HoldsEnoughOfEachKind) {
    for (const char* kind : {"circular", "rank", "spread", "line"}) EXPECT_GE(table()[kind].size(), 5u);
}

TEST(ScipyTable, CircularMeansAndSpreadsAreScipys) {
    for (const auto& row : table()["circular"]) {
        const ClockSpread found = clock_spread(row["minutes"].get<Values>());
        ASSERT_TRUE(found.mean_minutes);
        // 0 and 1440 are the same time.
        const double apart = std::remainder(*found.mean_minutes - row["mean"].get<double>(), 1440);
        EXPECT_NEAR(apart, 0, 1e-8) << row.dump();
        EXPECT_NEAR(found.sd_minutes, row["sd"].get<double>(), 1e-8) << row.dump();
    }
}

TEST(ScipyTable, TheRankStatisticIsTheUOfMannAndWhitney) {
    for (const auto& row : table()["rank"])
        EXPECT_NEAR(probability_of_superiority(row["a"].get<Values>(), row["b"].get<Values>()),
                    row["superiority"].get<double>(), 1e-12)
            << row.dump();
}

TEST(ScipyTable, SpreadsAndPercentilesAreScipys) {
    for (const auto& row : table()["spread"]) {
        const auto values = row["values"].get<Values>();
        EXPECT_NEAR(mean(values), row["mean"].get<double>(), 1e-12);
        EXPECT_NEAR(sample_sd(values), row["sd"].get<double>(), 1e-12);
        EXPECT_NEAR(coefficient_of_variation(values), row["cv"].get<double>(), 1e-12);
        EXPECT_NEAR(percentile(values, 0.1), row["p10"].get<double>(), 1e-12);
        EXPECT_NEAR(percentile(values, 0.5), row["p50"].get<double>(), 1e-12);
        EXPECT_NEAR(percentile(values, 0.9), row["p90"].get<double>(), 1e-12);
    }
}

TEST(ScipyTable, SlopesAreScipys) {
    for (const auto& row : table()["line"])
        EXPECT_NEAR(slope(row["x"].get<Values>(), row["y"].get<Values>()), row["slope"].get<double>(), 1e-12);
}

TEST(PrintStatistic, HasNoTrailingZeroAndNoSignOnNothing) {
    EXPECT_EQ(print_statistic(0.84, 2), "0.84");
    EXPECT_EQ(print_statistic(0.5, 2), "0.5");
    EXPECT_EQ(print_statistic(12, 1), "12");
    EXPECT_EQ(print_statistic(100, 0), "100");
    EXPECT_EQ(print_statistic(-0.04, 1), "0");
    EXPECT_EQ(print_statistic(-1.25, 1), "-1.2");
    EXPECT_EQ(print_statistic(0.0005, 4), "0.0005");
}

}  // namespace
}  // namespace evenfall
