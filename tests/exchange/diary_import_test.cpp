// SPDX-License-Identifier: GPL-3.0-or-later
#include "exchange/diary_import.h"

#include <gtest/gtest.h>

#include "exchange/diary_csv.h"
#include "rules/texts.h"

namespace evenfall {
namespace {

const Formulary& formulary() {
    static const Formulary loaded = load_formulary(resources_folder() / "formulary.json").value();
    return loaded;
}

DiaryImport preview(std::string_view text, const Diary& diary = {}) {
    const Zone zone = Zone::named("UTC", "").value();
    return preview_diary_csv(
        text, "diary.csv",
        {diary, formulary(), zone, at_clock(day_at(2026, 11, 24), {600}), day_at(1968, 4, 2)});
}

constexpr std::string_view kGood =
    "taken_at,drug,amount_mg\n2026-11-20T08:00,lorazepam,1\n2026-11-20T14:05,lorazepam,0.5\n";

TEST(DiaryImport, AddsEveryRowThatTheRecordDoesNotHold) {
    const DiaryImport import = preview(kGood);
    ASSERT_EQ(import.intake.size(), 2u);
    EXPECT_EQ(import.intake[1].amount, Dose::micrograms(500));
    EXPECT_EQ(import.rows[0].entry, "2026-11-20T08:00 lorazepam 1 mg");
    EXPECT_TRUE(import.can_be_imported());
}

TEST(DiaryImport, FindsNothingNewInTheSameFileAgain) {
    Diary diary;
    diary.intake = preview(kGood).intake;
    const DiaryImport again = preview(kGood, diary);
    EXPECT_EQ(again.duplicates, 2u);
    EXPECT_TRUE(again.intake.empty());
    EXPECT_FALSE(again.can_be_imported());
}

TEST(DiaryImport, TakesARowThatComesTwiceInTheFileOnce) {
    const DiaryImport import =
        preview("taken_at,drug,amount_mg\n2026-11-20T08:00,lorazepam,1\n2026-11-20T08:00,lorazepam,1.0\n");
    EXPECT_EQ(import.intake.size(), 1u);
    EXPECT_EQ(import.rows[1].standing, ImportStanding::duplicate);
}

TEST(DiaryImport, NamesLineColumnAndReasonOfEveryFaultyRowBesideTheGoodOnes) {
    const DiaryImport import = preview(
        "taken_at,drug,amount_mg\n2026-11-20T08:00,lorazepam,1\n2026-11-20T25:00,lorazepam,1\n"
        "2026-11-21T08:00,lorazepan,1\n2027-01-01T08:00,lorazepam,1\n1901-01-01T08:00,lorazepam,1\n"
        "2026-11-21T08:00,lorazepam,0\n");
    ASSERT_EQ(import.rows.size(), 6u);
    EXPECT_EQ(import.rows[0].standing, ImportStanding::added);
    EXPECT_EQ(import.faulty, 5u);
    EXPECT_FALSE(import.can_be_imported());
    const std::vector<std::pair<std::string, std::string>> expected = {{"taken_at", "clock-not-a-time"},
                                                                       {"drug", "case-drug-unknown"},
                                                                       {"taken_at", "entry-not-yet"},
                                                                       {"taken_at", "entry-before-birth"},
                                                                       {"amount_mg", "amount-zero"}};
    for (std::size_t i = 0; i < expected.size(); ++i) {
        EXPECT_EQ(import.rows[i + 1].line, i + 3);
        EXPECT_EQ(import.rows[i + 1].column, expected[i].first);
        EXPECT_EQ(import.rows[i + 1].says.front().id, expected[i].second);
    }
}

TEST(DiaryImport, NamesTheRowOfATornTableAndOfNulBytes) {
    const DiaryImport torn = preview("taken_at,drug,amount_mg\n2026-11-20T08:00,lorazepam\n");
    ASSERT_EQ(torn.rows.size(), 1u);
    EXPECT_EQ(torn.rows[0].line, 2u);
    EXPECT_EQ(torn.rows[0].says.front().id, "csv-columns");
    EXPECT_EQ(preview({"taken_at,drug,amount_mg\n\0\n", 26}).faulty, 1u);
    EXPECT_EQ(preview("").faulty, 1u);
}

TEST(DiaryImport, SaysWhereNoProductMakesAnAmountAndStillTakesIt) {
    const DiaryImport import = preview("taken_at,drug,amount_mg\n2026-11-20T08:00,lorazepam,0.333\n");
    const bool liquid = pieces_can_make(formulary(), "lorazepam", Dose::micrograms(333));
    EXPECT_TRUE(import.can_be_imported());
    EXPECT_EQ(import.rows[0].says.empty(), liquid);
    Formulary tablets;
    Drug& drug = tablets.drugs["lorazepam"];
    ListedProduct tablet;
    tablet.product = {"lorazepam", Form::tablet, Dose::micrograms(500), Cuts::halves, {}};
    drug.products.push_back(tablet);
    EXPECT_TRUE(pieces_can_make(tablets, "lorazepam", Dose::micrograms(750)));
    EXPECT_FALSE(pieces_can_make(tablets, "lorazepam", Dose::micrograms(333)));
}

TEST(DiaryImport, NamesTheRowAndColumnOfBytesThatAreNoText) {
    const auto place = [](std::string_view text) {
        const DiaryImport import = preview(text);
        EXPECT_EQ(import.rows.size(), 1u);
        EXPECT_FALSE(import.can_be_imported());
        return std::to_string(import.rows[0].line) + " " + import.rows[0].column + " " +
               import.rows[0].says.front().id;
    };
    const std::string head = "taken_at,drug,amount_mg,note\r\n2026-11-20T08:00,lorazepam,1,\"a, b\nc\"\r\n";
    EXPECT_EQ(place(head + std::string("2026-11-20T14:00,lora\0zepam,1,\r\n", 32)), "4 drug csv-nul");
    EXPECT_EQ(place(head + "2026-11-20T14:00,lorazepam,1,caf\xE9\r\n"), "4 note csv-not-utf8");
    // UTF-16 with its mark, as spreadsheets write it.
    EXPECT_EQ(place(std::string_view("\xFF\xFEt\0a\0", 6)).substr(0, 2), "1 ");
}

TEST(DiaryImport, ReadsTheSameWithAMarkAndCarriageReturns) {
    std::string text = "\xEF\xBB\xBF";
    for (const char c : kGood) text += c == '\n' ? std::string("\r\n") : std::string(1, c);
    EXPECT_EQ(preview(text).intake, preview(kGood).intake);
}

TEST(DiaryImport, NamesRowsOutOfOrderAndTakesThemAll) {
    const DiaryImport import = preview(
        "taken_at,drug,amount_mg\n2026-11-20T14:05,lorazepam,0.5\n2026-11-20T08:00,lorazepam,1\n"
        "2026-11-20T22:00,lorazepam,1\n");
    EXPECT_TRUE(import.can_be_imported());
    EXPECT_EQ(import.intake.size(), 3u);
    ASSERT_EQ(import.rows[1].says.size(), 1u);
    EXPECT_EQ(import.rows[1].says[0].id, "entry-out-of-order");
    EXPECT_EQ(import.rows[1].column, "taken_at");
    EXPECT_TRUE(import.rows[2].says.empty());
}

TEST(DiaryImport, TakesNoRowOfALaterHourOfTheSameDay) {
    const DiaryImport import = preview("taken_at,drug,amount_mg\n2026-11-24T10:01,lorazepam,1\n");
    EXPECT_EQ(import.faulty, 1u);
    EXPECT_EQ(import.rows[0].says.front().id, "entry-not-yet");
}

TEST(DiaryImport, OfAHundredThousandRowsOneFaultyOneIsNamedAndNothingIsImported) {
    std::string text = "taken_at,drug,amount_mg\n";
    const LocalTime first = at_clock(day_at(2025, 1, 1), {0});
    for (int i = 0; i < 100'000; ++i)
        text += print_local_time(first + std::chrono::minutes(9 * i)) +
                (i == 70'000 ? ",lorazepam,1.5 mg\n" : ",lorazepam,1.5\n");
    const DiaryImport import = preview(text);
    EXPECT_EQ(import.rows.size(), 100'000u);
    EXPECT_EQ(import.faulty, 1u);
    EXPECT_EQ(import.rows[70'000].line, 70'002u);
    EXPECT_EQ(import.rows[70'000].column, "amount_mg");
    EXPECT_FALSE(import.can_be_imported());
}

TEST(DiaryImport, ReadsSymptomsByTheirHeader) {
    const DiaryImport import =
        preview("rated_at,item,severity\n2026-11-20T13:00,anxiety,4\n2026-11-20T13:00,anxiety,11\n");
    EXPECT_EQ(import.ratings.size(), 1u);
    EXPECT_EQ(import.rows[1].column, "severity");
    EXPECT_EQ(import.rows[1].says.front().id, "score-out-of-range");
}

}  // namespace
}  // namespace evenfall
