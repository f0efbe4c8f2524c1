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
          "Gates that stand open:", "Made by Dr Kim Sample", "never a measured concentration"})
        EXPECT_NE(text.find(part), std::string::npos) << part << "\n" << text;
}

TEST(Report, SaysTheSameInSpanish) {
    const std::string text = text_of(judged(fortnight(person_without_plan())), "es");
    for (const char* part :
         {"Desigual.", "12 de 14 (85.7 %). Estable desde el 90 %", "Omitidas 2, de más 0, de 28 previstas",
          "(sin anotar)", "Condiciones pendientes:", "el uso es con horario"})
        EXPECT_NE(text.find(part), std::string::npos) << part << "\n" << text;
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
