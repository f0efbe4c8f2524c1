// SPDX-License-Identifier: GPL-3.0-or-later
#include "exchange/schedule_text.h"

#include <gtest/gtest.h>

#include "rules/texts.h"

namespace evenfall {
namespace {

const Formulary& formulary() {
    static const Formulary loaded = load_formulary(resources_folder() / "formulary.json").value();
    return loaded;
}

std::string first_fault(std::string_view text) {
    const auto read = read_schedule_text(text, formulary());
    return read ? "none" : read.faults().front().id + " at " + read.faults().front().place;
}

TEST(ScheduleText, LinesAreReadInTheOrderOfTheClock) {
    const auto read = read_schedule_text(
        "# from the hospital\n\n2026-12-01; 21:00 1.5 mg clonazepam, 08:00 1 mg clonazepam\n"
        "2026-12-15;08:00 1 mg clonazepam;21:00 1375 micrograms clonazepam\r\n2026-12-29;\n",
        formulary());
    ASSERT_TRUE(read) << read.faults().front().id;
    ASSERT_EQ(read->size(), 3U);
    EXPECT_EQ((*read)[0].from, day_at(2026, 12, 1));
    ASSERT_EQ((*read)[0].regimen.doses.size(), 2U);
    EXPECT_EQ((*read)[0].regimen.doses[0].at, ClockTime{8 * 60});
    EXPECT_EQ((*read)[0].regimen.doses[1].amount, Dose::micrograms(1500));
    EXPECT_EQ((*read)[1].regimen.doses[1].amount, Dose::micrograms(1375));
    EXPECT_TRUE((*read)[2].regimen.doses.empty());
}

TEST(ScheduleText, WhatIsWrittenIsReadBackTheSame) {
    const std::string text = "2026-12-01; 08:00 1 mg clonazepam, 21:00 1.5 mg clonazepam\n2026-12-15;\n";
    EXPECT_EQ(write_schedule_text(read_schedule_text(text, formulary()).value()), text);
}

TEST(ScheduleText, EveryFaultNamesItsLine) {
    EXPECT_EQ(first_fault("2026-12-01; 08:00 1 mg clonazepam\nsoon; 08:00 1 mg clonazepam").substr(0, 4),
              "day-");
    EXPECT_EQ(first_fault("2026-12-01; 08:00 clonazepam"), "schedule-line at line 1");
    EXPECT_EQ(first_fault("2026-12-01; 08:00 1 mg clonazepan"), "schedule-line-drug at line 1");
    EXPECT_NE(first_fault("2026-12-01; 25:00 1 mg clonazepam").find("line 1"), std::string::npos);
    EXPECT_NE(first_fault("2026-12-01; 08:00 1 clonazepam").find("line 1"), std::string::npos);
    EXPECT_EQ(first_fault("2026-12-01; 08:00 1000 mg clonazepam"), "case-unit-slip at line 1");
    EXPECT_EQ(first_fault("\n \n"), "review-empty at schedule");
}

TEST(ScheduleText, ACaseFilesScheduleIsReadToo) {
    const std::string list =
        R"([{"starts":"2026-12-01","doses":[{"drug":"clonazepam","at":"08:00","amount_mg":"1"}]}])";
    for (const std::string& text : {list, R"({"schedule":)" + list + "}"}) {
        const auto read = read_schedule_text(text, formulary());
        ASSERT_TRUE(read) << read.faults().front().id;
        ASSERT_EQ(read->size(), 1U);
        EXPECT_EQ((*read)[0].regimen.doses[0].amount, Dose::milligrams(1));
    }
    EXPECT_FALSE(read_schedule_text("{\"schedule\": [", formulary()));
    EXPECT_FALSE(read_schedule_text("[1, 2]", formulary()));
    for (const char* nothing : {"", " \n", "[]", " [ ] ", "{\"schedule\": []}"}) {
        const auto read = read_schedule_text(nothing, formulary());
        ASSERT_FALSE(read) << nothing;
        EXPECT_EQ(read.faults().front().id, "review-empty") << nothing;
    }
}

TEST(ScheduleText, ANovelIsRefused) {
    std::string novel;
    for (int i = 0; i < 2100; ++i) novel += "# call me\n";
    EXPECT_EQ(first_fault(novel), "schedule-too-long at schedule");
}

}  // namespace
}  // namespace evenfall
