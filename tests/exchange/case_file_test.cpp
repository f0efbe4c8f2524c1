// SPDX-License-Identifier: GPL-3.0-or-later
#include "exchange/support.h"

namespace evenfall {
namespace {

using namespace testing_case;
using Places = std::vector<std::string>;

TEST(CaseFile, TheSmallestCaseIsACase) {
    EXPECT_TRUE(read(R"({"case": 1})"));
}

TEST(CaseFile, ReadsWhatItSays) {
    const auto given = read(R"({"case":1,"as_of":"2026-12-20T09:00","timezone":"America/New_York",
        "patient":{"reference":"river-17","born":"1968-04-02"},"risks":["opioid"],
        "regimen":[{"drug":"lorazepam","at":"22:00","amount_mg":1.5},{"drug":"lorazepam","at":"08:00","amount_mg":"1"}],
        "products":[{"drug":"lorazepam","form":"tablet","strength_mg":"0.5","cuts":"quarters"}],
        "plan":{"drug":"lorazepam","start":"2027-01-04","target_percent":"8","shape":"22:00","end":"0.5"}})");
    ASSERT_TRUE(given);
    EXPECT_EQ(given->regimen->doses.front().at, (ClockTime{480}));
    EXPECT_EQ(given->regimen->doses.back().amount, Dose::micrograms(1500));
    EXPECT_EQ(given->plan->shape, Shape::dose_time_first);
    EXPECT_EQ(given->plan->end_amount, Dose::micrograms(500));
    EXPECT_EQ(given->plan->target, Share::percent(8));
    EXPECT_EQ(given->risks.answers.at("opioid"), Answer::yes);
}

TEST(CaseFile, AllFaultsAreNamedAtOnceEachWithItsPlace) {
    EXPECT_EQ(
        faults_of(
            R"({"case":1,"timezone":"Mars/Olympus","regimen":[{"drug":"lorazepan","at":"25:00","amount_mg":"1,5"}],
        "plan":{"target_percent":"100","cap_percent":0,"days_per_step":0,"start":"2027-02-30"},"risks":["bad luck"]})"),
        (Places{"case.json: plan.cap_percent case-percent-range",
                "case.json: plan.days_per_step json-out-of-range",
                "case.json: plan.start day-not-in-calendar",
                "case.json: plan.target_percent case-percent-range",
                "case.json: regimen[0].amount_mg amount-comma", "case.json: regimen[0].at clock-not-a-time",
                "case.json: regimen[0].drug case-drug-unknown", "case.json: risks[0] json-word-unknown",
                "case.json: timezone zone-unknown"}));
}

TEST(CaseFile, AnUnknownKeyNamesTheNearest) {
    const auto given = read(R"({"case":1,"regimn":[]})");
    ASSERT_FALSE(given);
    EXPECT_EQ(given.faults().front().id, "json-key-unknown");
    EXPECT_EQ(given.faults().front().args.at("nearest"), "regimen");
}

TEST(CaseFile, AKeyGivenTwiceIsAFault) {
    EXPECT_EQ(faults_of(R"({"case":1,"patient":{"name":"A","name":"B"}})").size(), 1u);
}

TEST(CaseFile, AThousandFoldSlipIsAFaultExceptInADiary) {
    EXPECT_EQ(faults_of(R"({"case":1,"regimen":[{"drug":"lorazepam","at":"08:00","amount_mg":"1000"}]})"),
              (Places{"case.json: regimen[0].amount_mg case-unit-slip"}));
    EXPECT_EQ(
        faults_of(R"({"case":1,"products":[{"drug":"clonazepam","form":"tablet","strength_mg":"500"}]})"),
        (Places{"case.json: products[0].strength_mg case-unit-slip"}));
    EXPECT_TRUE(read(
        R"({"case":1,"diary":{"intake":[{"taken_at":"2026-12-01T08:05","drug":"lorazepam","amount_mg":"1000"}]}})"));
}

TEST(CaseFile, ATimeThatTheClockSkippedIsAFaultAndOneThatCameTwiceANote) {
    EXPECT_EQ(faults_of(R"({"case":1,"timezone":"America/New_York","diary":{"intake":
        [{"taken_at":"2026-03-08T02:30","drug":"lorazepam","amount_mg":"1"}]}})"),
              (Places{"case.json: diary.intake[0].taken_at case-time-skipped"}));
    const auto given = read(R"({"case":1,"timezone":"America/New_York","diary":{"intake":
        [{"taken_at":"2026-11-01T01:30","drug":"lorazepam","amount_mg":"1"}]}})");
    ASSERT_TRUE(given);
    EXPECT_EQ(given->notes.front().id, "case-time-twice");
}

TEST(CaseFile, AmountsAreExactOrRefused) {
    const auto amount = [](const std::string& text) {
        return faults_of(R"({"case":1,"regimen":[{"drug":"diazepam","at":"08:00","amount_mg":)" + text +
                         "}]}");
    };
    EXPECT_TRUE(amount("\"2.50\"").empty());
    EXPECT_TRUE(amount("0.1").empty());
    for (const char* bad :
         {"\"\"", "-1", "\"-1\"", "0", "\"1e1\"", "1e300", "\"1 mg\"", "true", "null", "0.0000001", "[]"})
        EXPECT_FALSE(amount(bad).empty()) << bad;
}

TEST(CaseFile, HostileTextIsRefusedAndNothingCrashes) {
    EXPECT_FALSE(faults_of(std::string(100'000, '[')).empty());
    EXPECT_FALSE(faults_of("").empty());
    EXPECT_FALSE(faults_of("[1,2]").empty());
    EXPECT_FALSE(faults_of("{\"case\":2}").empty());
    EXPECT_FALSE(faults_of(std::string("{\"case\":1}\0{}", 13)).empty());
    EXPECT_EQ(faults_of(R"({"case":1,"patient":{"name":")" + std::string(10'000, 'x') + "\"}}"),
              (Places{"case.json: patient.name text-too-long"}));
    EXPECT_EQ(faults_of("{\"case\":1,\"patient\":{\"name\":\"\\u202Eevil\"}}"),
              (Places{"case.json: patient.name text-control"}));
}

TEST(CaseFile, AReadCaseNeverReachesOutsideItsFolder) {
    for (const char* name : {"../secrets.csv", "/etc/passwd", "a/b.csv", ".."})
        EXPECT_EQ(faults_of(std::string(R"({"case":1,"diary":{"intake":")") + name + "\"}}"),
                  (Places{"case.json: diary.intake case-file-name"}));
}

TEST(CaseFile, MoreThanTwentyFourDoseTimesAreRefused) {
    std::string doses;
    for (int i = 0; i < 25; ++i)
        doses += std::string(i ? "," : "") + R"({"drug":"diazepam","amount_mg":"1","at":")" +
                 print_clock({i * 10}) + "\"}";
    EXPECT_EQ(faults_of(R"({"case":1,"regimen":[)" + doses + "]}"),
              (Places{"case.json: regimen regimen-too-many"}));
}

TEST(CaseFile, ItsOwnConstantsReplaceTheWholeEntry) {
    const auto given =
        read(R"({"case":1,"kinetics":{"diazepam":{"absorption_half_life_h":0.5,"half_life_h":43}},
        "equivalence":{"lorazepam":{"usual_mg":"1"}}})");
    ASSERT_TRUE(given);
    const Formulary laid = with_case(formulary(), *given);
    EXPECT_TRUE(laid.find("diazepam")->kinetics.metabolites.empty());
    EXPECT_FALSE(laid.find("diazepam")->kinetics.distribution);
    EXPECT_EQ(laid.find("lorazepam")->equivalence->usual, Dose::milligrams(1));
    EXPECT_EQ(overridden_by(*given).size(), 2u);
}

TEST(CaseFile, AbsurdConstantsAreRefusedWhereTheyAreLoaded) {
    for (const char* bad :
         {R"({"absorption_half_life_h":0,"half_life_h":43})",
          R"({"absorption_half_life_h":0.5,"half_life_h":-1})", R"({"absorption_half_life_h":0.5})",
          R"({"absorption_half_life_h":0.5,"half_life_h":1e9})",
          R"({"absorption_half_life_h":0.5,"half_life_h":43,"half_life_range_h":[70,20]})",
          R"({"absorption_half_life_h":0.5,"half_life_h":43,"bioavailability":0})"})
        EXPECT_FALSE(faults_of(std::string(R"({"case":1,"kinetics":{"diazepam":)") + bad + "}}").empty())
            << bad;
}

}  // namespace
}  // namespace evenfall
