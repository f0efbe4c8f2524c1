// SPDX-License-Identifier: GPL-3.0-or-later
#include "exchange/csv.h"

#include "exchange/diary_csv.h"
#include "exchange/support.h"

namespace evenfall {
namespace {

using testing_case::formulary;

const Zone kZone = *Zone::named("America/New_York", "");

std::vector<std::string> intake_faults(std::string_view text) {
    const auto read = read_intake_csv(text, "diary.csv", formulary(), kZone);
    std::vector<std::string> faults;
    if (!read)
        for (const Fault& fault : read.faults()) faults.push_back(fault.place + " " + fault.id);
    return faults;
}

TEST(Csv, ReadsMarksLineEndingsAndQuotedCommas) {
    const auto table =
        read_csv("\xEF\xBB\xBFname,note\r\na,\"one, \"\"two\"\"\"\r\nb,\"line\nbreak\"\nc,\n", "t.csv");
    ASSERT_TRUE(table);
    EXPECT_EQ(table->header, (std::vector<std::string>{"name", "note"}));
    ASSERT_EQ(table->rows.size(), 3u);
    EXPECT_EQ(table->rows[0].cells[1], "one, \"two\"");
    EXPECT_EQ(table->rows[1].cells[1], "line\nbreak");
    EXPECT_EQ(table->rows[2].line, 5u);
}

TEST(Csv, NamesWhatIsWrongAndWhere) {
    const auto id = [](std::string_view text) { return read_csv(text, "t.csv").faults().front().id; };
    EXPECT_EQ(id(""), "csv-empty");
    EXPECT_EQ(id("a,b\n1\n"), "csv-columns");
    EXPECT_EQ(id(std::string_view("a\0b", 3)), "csv-nul");
    EXPECT_EQ(id("a\n\xFF\xFE\n"), "csv-not-utf8");
    EXPECT_EQ(id("a\n\"open\n"), "csv-quote");
    EXPECT_EQ(read_csv("a,b\n1,2\n1\n", "t.csv").faults().front().place, "t.csv, row 3");
    EXPECT_EQ(read_csv("a,b\n\n\n1,2\n1\n", "t.csv").faults().front().place, "t.csv, row 5");
    EXPECT_EQ(read_csv("a,b\r\n\r\n1\r\n", "t.csv").faults().front().place, "t.csv, row 3");
}

TEST(Csv, WhatASpreadsheetWouldRunIsWrittenAsText) {
    EXPECT_EQ(csv_cell("=1+1|cmd"), "'=1+1|cmd");
    EXPECT_EQ(csv_cell("-1.5"), "-1.5");
    EXPECT_EQ(csv_cell("a,\"b\""), "\"a,\"\"b\"\"\"");
}

TEST(DiaryCsv, NamesRowAndColumnAndTakesNothingOfAFaultyFile) {
    EXPECT_EQ(intake_faults("taken_at,drug,amount_mg,why\n2026-12-01T08:00,lorazepam,1,as planned\n"
                            "2026-12-01T25:00,lorazepan,\"1,5\",because\n"),
              (std::vector<std::string>{"diary.csv, row 3, column taken_at clock-not-a-time",
                                        "diary.csv, row 3, column drug case-drug-unknown",
                                        "diary.csv, row 3, column amount_mg amount-comma",
                                        "diary.csv, row 3, column why csv-why-unknown"}));
    EXPECT_EQ(intake_faults("taken_at,drug\n"), (std::vector<std::string>{"diary.csv csv-column-missing"}));
    EXPECT_EQ(intake_faults("taken_at,drug,amount_mg,mood\n"),
              (std::vector<std::string>{"diary.csv csv-column-unknown"}));
}

TEST(DiaryCsv, WrittenAndReadBackIsTheSame) {
    std::vector<Intake> entries{
        {*parse_local_time("2026-12-01T08:05", ""), "lorazepam", Dose::micrograms(1250), TakenWhy::symptoms,
         "shaky, \"awful\""},
        {*parse_local_time("2026-12-01T23:55", ""), "diazepam", Dose::milligrams(5), TakenWhy::unsaid, ""}};
    const auto read = read_intake_csv(write_intake_csv(entries), "diary.csv", formulary(), kZone);
    ASSERT_TRUE(read);
    EXPECT_EQ(read->entries, entries);
    std::vector<Rating> ratings{{*parse_local_time("2026-12-01T13:00", ""), "anxiety", 4}};
    EXPECT_EQ(read_ratings_csv(write_ratings_csv(ratings), "r.csv", kZone)->entries, ratings);
}

TEST(DiaryCsv, AHundredThousandRowsAreRead) {
    std::string text = "taken_at,drug,amount_mg\n";
    for (int i = 0; i < 100'000; ++i) text += "2026-12-01T08:00,lorazepam,1\n";
    EXPECT_EQ(read_intake_csv(text, "diary.csv", formulary(), kZone)->entries.size(), 100'000u);
}

TEST(DiaryCsv, SeveritiesAreWholeNumbersFromZeroToTen) {
    for (const char* bad : {"11", "-1", "3.5", "", "x", "99999999999999"}) {
        const auto read = read_ratings_csv(
            std::string("rated_at,item,severity\n2026-12-01T08:00,anxiety,") + bad + "\n", "r.csv", kZone);
        ASSERT_FALSE(read) << bad;
        EXPECT_EQ(read.faults().front().id, "score-out-of-range");
    }
}

}  // namespace
}  // namespace evenfall
