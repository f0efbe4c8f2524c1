// SPDX-License-Identifier: GPL-3.0-or-later
#include <gtest/gtest.h>

#include "papers/sample.h"

namespace evenfall::papers {
namespace {

/// 1 mg at 08:00 and 1.5 mg at 21:00, a fortnight in which the morning dose of two days is not in the diary.
StabilizationInput fortnight(const PaperSource& source) {
    StabilizationInput input;
    const Day first = source.as_of - std::chrono::days(14);
    input.intended = {{first, source.regimen}};
    input.as_of = LocalTime(source.as_of) + std::chrono::hours(12);
    for (int i = 0; i < 14; ++i)
        for (const DoseTime& dose : source.regimen.doses) {
            if ((i == 3 || i == 9) && dose.at.minutes == 8 * 60) continue;
            input.diary.intake.push_back(
                {LocalTime(first + std::chrono::days(i)) + std::chrono::minutes(dose.at.minutes), dose.drug,
                 dose.amount, TakenWhy::unsaid, ""});
        }
    return input;
}

PaperSource judged(const StabilizationInput& input) {
    PaperSource source = person_without_plan();
    source.judged = Judged{check_stabilization(input, shipped_formulary(), shipped_rules(),
                                               Zone::named("America/New_York", "").value()),
                           input.as_of};
    return source;
}

std::string text_of(const PaperSource& source, const char* language = "en") {
    auto document = make_paper(Paper::report, source, shipped_texts(language));
    return document ? plain_text(*document) : document.faults().front().id;
}

TEST(Report, SaysTheVerdictItsDaysItsLimitsAndTheVeryEntries) {
    PaperSource source = judged(fortnight(person_without_plan()));
    source.made_by = "Dr Kim Sample";
    const std::string text = text_of(source);
    for (const char* part :
         {"Uneven.", "Judged: 14 recorded days from 6 Dec 2026 to 19 Dec 2026.",
          "clonazepam 08:00 1 mg, 21:00 1.5 mg", "12 of 14 (85.7 %). Steady from 90 %, erratic under 60 %.",
          "Missed 2, extra 0 of 28 intended",
          "9 Dec 2026 08:00 clonazepam 1 mg (not written down); 15 Dec 2026 08:00 clonazepam 1 mg (not "
          "written down)",
          "Gates not met: ", "Not met. Days with symptoms rated lately", "Made by Dr Kim Sample",
          "never a measured concentration"})
        EXPECT_NE(text.find(part), std::string::npos) << part << "\n" << text;
}

TEST(Report, SaysTheSameInSpanish) {
    const std::string text = text_of(judged(fortnight(person_without_plan())), "es");
    for (const char* part :
         {"Desigual.", "12 de 14 (85.7 %). Estable desde el 90 %", "Omitidas 2, de más 0, de 28 previstas",
          "(sin anotar)", "Condiciones que no se cumplen: ", "No se cumple. ", "El uso es con horario"})
        EXPECT_NE(text.find(part), std::string::npos) << part << "\n" << text;
}

TEST(Report, NamesAnswersAndRatingsInTheReadersWords) {
    StabilizationInput input = fortnight(person_without_plan());
    CheckIn call;
    call.at = input.as_of - std::chrono::days(2);
    call.answers = {{"suicidal thoughts", "yes"}, {"seizure", "yes"}};
    input.checkins = {call};
    const PaperSource source = judged(input);
    EXPECT_NE(text_of(source).find("18 Dec 2026 12:00 thoughts of suicide"), std::string::npos);
    const std::string spanish = text_of(source, "es");
    EXPECT_NE(spanish.find("18 dic 2026 12:00 ideas de suicidio; 18 dic 2026 12:00 convulsión"),
              std::string::npos)
        << spanish;
    EXPECT_EQ(spanish.find("suicidal"), std::string::npos);
    EXPECT_EQ(spanish.find("seizure"), std::string::npos);
}

TEST(Report, WritesAFallWithAMinusSign) {
    StabilizationInput input = fortnight(person_without_plan());
    for (int i = 0; i < 14; ++i)
        input.diary.ratings.push_back(
            {LocalTime(day_of(input.as_of) - std::chrono::days(14 - i)) + std::chrono::hours(12), "anxiety",
             i < 7 ? 6 : 3});
    for (const char* language : {"en", "es"}) {
        const std::string text = text_of(judged(input), language);
        EXPECT_NE(text.find(" \u2212"), std::string::npos) << text;
        EXPECT_EQ(text.find(" -"), std::string::npos) << text;
    }
}

/// What stands behind "trough" in the line of the level as taken, in per cent.
int trough_as_taken(const std::string& text) {
    const std::string before = "own average, trough ";
    return std::stoi(text.substr(text.find(before) + before.size()));
}

TEST(Report, SaysATroughAsAShareOfItsOwnDay) {
    StabilizationInput input = fortnight(person_without_plan());
    // A cut to a half on the day of the report: what was taken before lies far above the new average.
    Regimen half = input.intended.front().regimen;
    for (DoseTime& dose : half.doses) dose.amount = dose.amount.part(2).value();
    input.intended.push_back({day_of(input.as_of), half});
    const PaperSource source = judged(input);
    EXPECT_GT(source.judged->check.levels.as_taken.trough, 100);
    const int said = trough_as_taken(text_of(source));
    EXPECT_GT(said, 20);
    EXPECT_LT(said, 100);
}

TEST(Report, OfSomebodyWhoCameOffLooksBackAndAsksForNoStart) {
    StabilizationInput input = fortnight(person_without_plan());
    input.intended.push_back({day_of(input.as_of) - std::chrono::days(1), {}});
    PaperSource source = judged(input);
    source.agent = "clonazepam";
    source.regimen = {};
    const std::string text = text_of(source);
    EXPECT_NE(text.find("Clonazepam is not taken any more: this report looks back"), std::string::npos)
        << text;
    EXPECT_NE(text.find("Today none are."), std::string::npos);
    for (const char* part : {"Gates", "permits a cut", "clonazepam 08:00", "swing 0 %", "trough 0 %"})
        EXPECT_EQ(text.find(part), std::string::npos) << part << "\n" << text;
}

TEST(Report, OfWhatIsTakenWhenNeededHoldsNoLevelAgainstAnIntendedOne) {
    StabilizationInput input = fortnight(person_without_plan());
    input.intended.clear();
    input.diary.use = Use::as_needed;
    const std::string text = text_of(judged(input));
    EXPECT_NE(text.find("As taken: from peak to trough"), std::string::npos) << text;
    EXPECT_EQ(text.find("As intended"), std::string::npos) << text;
}

TEST(Report, TakesItsLimitsFromTheRulesInForce) {
    const Rules stricter = shipped_rules().with("steady-limits", "days_percent", "95").value();
    PaperSource source = judged(fortnight(person_without_plan()));
    source.rules = &stricter;
    EXPECT_NE(text_of(source).find("Steady from 95 %"), std::string::npos);
}

TEST(Report, NamesTheProposalsWithTheirPredictedTroughs) {
    StabilizationInput input = fortnight(person_without_plan());
    PaperSource source = judged(input);
    for (const Proposal& proposal : source.judged->check.proposals) {
        const std::string then = std::to_string(std::lround(proposal.proposed.trough)) + " % then";
        EXPECT_NE(text_of(source).find(then), std::string::npos) << then;
    }
    EXPECT_FALSE(source.judged->check.proposals.empty() && source.judged->check.no_proposal.empty());
}

TEST(Report, WithoutADiaryIsRefused) {
    EXPECT_EQ(text_of(person_without_plan()), "paper-no-diary");
}

TEST(Report, OfARecordWithoutADiaryIsNotJudged) {
    PaperSource source = person_without_plan();
    take_check(source, PatientRecord{}, shipped_rules(), Zone::named("UTC", "").value(),
               LocalTime(source.as_of));
    EXPECT_FALSE(source.judged.has_value());
}

}  // namespace
}  // namespace evenfall::papers
