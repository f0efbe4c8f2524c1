// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>

#include <gtest/gtest.h>

#include "papers/mark.h"
#include "papers/sample.h"
#include "papers/schedule_parts.h"
#include "papers/wording.h"

namespace evenfall::papers {
namespace {

TEST(Schedule, SaysPiecesWithTheirUnitAndSum) {
    const std::string all = plain_text(schedule_of(every_risk()));
    EXPECT_NE(all.find("1 tablet + half + quarter of a 2 mg tablet = 3.5 mg"), std::string::npos);
    EXPECT_NE(all.find("3 tablets of 2 mg = 6 mg"), std::string::npos);
    EXPECT_NE(all.find("4.2 mL from the bottle marked 1 mg per mL = 4.2 mg"), std::string::npos);
}

TEST(Schedule, LeavesNoStrengthToBeUnderstood) {
    const Product one{"clonazepam", Form::tablet, Dose::milligrams(1), Cuts::halves, {}};
    const Product half{"clonazepam", Form::tablet, Dose::micrograms(500), Cuts::halves, {}};
    const Wording say(shipped_texts("en"), {});
    const std::vector<Piece> pieces = {piece(one, Cut::whole, 2), piece(half, Cut::half, 1)};
    EXPECT_EQ(say.pieces_only(pieces), "2 tablets of 1 mg + half of a 0.5 mg tablet");
    EXPECT_EQ(say.pieces(pieces, Dose::micrograms(2250)),
              (std::vector<std::string>{"2 tablets of 1 mg", "+ half of a 0.5 mg tablet", "= 2.25 mg"}));
    // With two products, a cut part of the first names its strength too.
    EXPECT_EQ(
        say.pieces_only({piece(one, Cut::whole, 2), piece(one, Cut::half, 1), piece(half, Cut::half, 1)}),
        "2 tablets of 1 mg + half of a 1 mg tablet + half of a 0.5 mg tablet");
    // All of one strength: it is named once.
    EXPECT_EQ(say.pieces_only({piece(one, Cut::whole, 2), piece(one, Cut::half, 1)}),
              "2 tablets + half of a 1 mg tablet");
}

TEST(Schedule, NamesTheStrengthOfEveryPieceWhereAnotherStrengthLiesBesideIt) {
    PaperSource source = two_steps();
    const Product two{"clonazepam", Form::tablet, Dose::milligrams(2), Cuts::halves, {}};
    const Product half = source.plan->products.front();
    for (Step& step : source.plan->steps)
        step.doses[0] = dose(8 * 60, {piece(half, Cut::whole, 2), piece(half, Cut::half, 1)});
    const Document alone = schedule_of(source);
    EXPECT_EQ(words_of(day_table_of(alone).groups.at(0).lead.at(1)),
              "2 tablets + half of a 0.5 mg tablet = 1.25 mg");
    EXPECT_FALSE(day_table_of(alone).groups.at(0).lead.at(1).doses.at(0).names_strengths);
    EXPECT_EQ(plain_text(alone).find("In a frame: the strength on the pack."), std::string::npos);
    source.on_hand = {{two, 40, {}}};  // tablets of 2 mg are still in the drawer
    const Document beside = schedule_of(source);
    const Group& group = day_table_of(beside).groups.at(0);
    ASSERT_FALSE(group.lead.empty());
    EXPECT_EQ(words_of(group.lead.at(1)), "2 tablets of 0.5 mg + half of a 0.5 mg tablet = 1.25 mg");
    EXPECT_TRUE(group.lead.at(1).doses.at(0).names_strengths) << "it could be taken from the other bottle";
    for (const Row& row : group.rows) EXPECT_TRUE(row.at(1).doses.at(0).names_strengths);
    EXPECT_NE(plain_text(beside).find("In a frame: the strength on the pack."), std::string::npos);
}

TEST(Schedule, MarksTheSameDoseFromOtherTablets) {
    PaperSource source = two_steps();
    const Product one{"clonazepam", Form::tablet, Dose::milligrams(1), Cuts::halves, {}};
    source.plan->steps[1].doses[0] = dose(8 * 60, {piece(one, Cut::whole, 1)});
    const Document document = schedule_of(source);
    const Group& second = day_table_of(document).groups.at(1);
    EXPECT_EQ(second.rows.at(0).at(1).doses.at(0).was,
              "Same dose, other tablets. Before: 2 tablets of 0.5 mg");
    EXPECT_EQ(second.rows.at(1).at(1).doses.at(0).was, "");
    const Product capsule{"clonazepam", Form::capsule, Dose::milligrams(1), Cuts::whole, {}};
    PaperSource capsules = source;
    capsules.plan->steps[1].doses[0] = dose(8 * 60, {piece(capsule, Cut::whole, 1)});
    EXPECT_EQ(day_table_of(schedule_of(capsules)).groups.at(1).rows.at(0).at(1).doses.at(0).was,
              "Same dose, made in another way. Before: 2 tablets of 0.5 mg");
    EXPECT_EQ(second.rows.at(0).at(2).doses.at(0).was, "Changed: was 1.375 mg");
    source = two_steps();
    const Product quarterable = source.plan->products.front();
    source.plan->steps[1].doses[0] =
        dose(8 * 60, {piece(quarterable, Cut::whole, 1), piece(quarterable, Cut::half, 2)});
    const Document cut = schedule_of(source);
    EXPECT_EQ(day_table_of(cut).groups.at(1).rows.at(0).at(1).doses.at(0).was.find(
                  "Same dose, other pieces. Before: "),
              0u);
}

TEST(Schedule, SaysTheAmountAloneOnlyWhereTheDrawingCannotBeMistaken) {
    const Document document = schedule_of(two_steps());  // tablets, and dissolving tablets of another shape
    const Table& table = day_table_of(document);
    ASSERT_FALSE(table.groups.at(0).lead.empty());
    ASSERT_FALSE(table.groups.at(1).lead.empty());
    EXPECT_EQ(words_of(table.groups.at(1).lead.at(1)), "2 tablets of 0.5 mg = 1 mg");
    EXPECT_EQ(words_of(table.groups.at(1).rows.at(3).at(1)), "1 mg");
    PaperSource source = two_steps();
    const Product one{"clonazepam", Form::tablet, Dose::milligrams(1), Cuts::halves, {}};
    source.plan->steps[1].doses[0] = dose(8 * 60, {piece(one, Cut::whole, 1)});
    const Document mixed = schedule_of(source);  // round tablets of two strengths, which their drawings name
    ASSERT_FALSE(day_table_of(mixed).groups.at(1).lead.empty());
    EXPECT_EQ(words_of(day_table_of(mixed).groups.at(1).lead.at(1)), "1 tablet of 1 mg = 1 mg");
    const Product weak{"clonazepam", Form::oral_solution, Dose::milligrams(1), Cuts::whole,
                       Volume::nanolitres(100'000)};
    const Product strong{"clonazepam", Form::oral_concentrate, Dose::milligrams(2), Cuts::whole,
                         Volume::nanolitres(100'000)};
    source.plan->steps[1].doses = {dose(8 * 60, {measured(weak, Volume::millilitres(1))}),
                                   dose(21 * 60, {measured(strong, Volume::millilitres(1))})};
    const Document bottles = schedule_of(source);  // two bottles are drawn alike
    EXPECT_TRUE(day_table_of(bottles).groups.at(1).lead.empty());
    EXPECT_EQ(words_of(day_table_of(bottles).groups.at(1).rows.at(3).at(1)),
              "1 mL from the bottle marked 1 mg per mL = 1 mg");
}

TEST(Schedule, BearsTheMarkOfItsVersionInTheFootOfEveryPage) {
    const Document document = schedule_of(two_steps());
    ASSERT_TRUE(document.footer.mark.has_value());
    const auto says = read_mark(document.footer.mark->text);
    ASSERT_TRUE(says.has_value());
    EXPECT_EQ(says->code, code_of(two_steps()));
    EXPECT_EQ(says->plan, two_steps().plan_id);
    EXPECT_EQ(document.footer.mark->text.find("river"), std::string::npos);
    PaperSource unsigned_source = two_steps();
    unsigned_source.plan_id.clear();
    EXPECT_FALSE(schedule_of(unsigned_source).footer.mark.has_value());
}

TEST(Schedule, HasNoEmptyLicenceLine) {
    PaperSource source = two_steps();
    EXPECT_NE(plain_text(schedule_of(source)).find("Licence"), std::string::npos);
    source.prescriber.licence.clear();
    EXPECT_EQ(plain_text(schedule_of(source)).find("Licence"), std::string::npos);
}

TEST(Schedule, PutsPartsOfTheDayBeforeClockTimes) {
    const Document document = schedule_of(every_risk());
    const Table& table = day_table_of(document);
    EXPECT_EQ(table.columns[1].title, "Morning");
    EXPECT_EQ(table.columns[1].note, "08:00");
    EXPECT_EQ(table.columns[2].title, "Afternoon");
    EXPECT_EQ(table.columns[3].title, "Bedtime");
}

TEST(Schedule, MarksAChangedDoseOnItsFirstDayWithWhatItWas) {
    const Document document = schedule_of(two_steps());
    const Table& table = day_table_of(document);
    const Group& first = table.groups.at(0);
    EXPECT_EQ(first.rows.at(0).at(2).doses.at(0).was, "Changed: was 1.5 mg");
    EXPECT_EQ(first.rows.at(0).at(1).doses.at(0).was, "");
    EXPECT_EQ(first.rows.at(1).at(2).doses.at(0).was, "");
    EXPECT_EQ(first.band.at(0), "Step 1 from Monday 4 January 2027");
    EXPECT_EQ(first.continued, "Step 1 goes on · 4 Jan 2027 to 17 Jan 2027");
    EXPECT_NE(plain_text(document).find("Bar at the left: changed."), std::string::npos);
    EXPECT_EQ(first.band.at(1), "Bedtime 21:00: 1.375 mg (was 1.5 mg)");
    EXPECT_EQ(table.groups.at(1).rows.at(0).at(2).doses.at(0).was, "Changed: was 1.375 mg");
}

TEST(Schedule, SaysTheDaysSumSoThatItIsNotOneMoreDose) {
    const Document document = schedule_of(two_steps());
    for (const Column& column : day_table_of(document).columns) EXPECT_FALSE(column.sum);
    EXPECT_EQ(day_table_of(document).groups.at(0).band.back(),
              "2.375 mg is all doses of one day added up. It is not one more dose.");
    const Table& table = step_table_of(document);
    EXPECT_TRUE(table.columns.at(3).sum);
    EXPECT_EQ(table.columns.at(3).note, "all doses added up");
    const Cell& sum = table.groups.at(0).rows.at(0).at(3);
    EXPECT_EQ(sum.lines.at(0), "2.375 mg in\u00A0all");
    EXPECT_FALSE(sum.tick_box);
    EXPECT_TRUE(sum.doses.empty());
}

TEST(Schedule, LeavesTheOutlookOutAndSaysSo) {
    const std::string all = plain_text(schedule_of(two_steps()));
    EXPECT_EQ(all.find("1 Feb 2027"), std::string::npos);
    EXPECT_EQ(all.find("1 February 2027"), std::string::npos);
    EXPECT_NE(all.find("What comes later is not agreed yet."), std::string::npos);
}

TEST(Schedule, SaysUntilWhenItHoldsAndWhatToDoThen) {
    const std::string all = plain_text(schedule_of(two_steps()));
    EXPECT_NE(all.find("This sheet holds until Sunday 31 January 2027, that day too."), std::string::npos);
    EXPECT_NE(all.find("No new sheet by then? Keep taking the doses of the last step each day and call us."),
              std::string::npos);
    EXPECT_EQ(valid_through(two_steps()), day_at(2027, 1, 31));
}

TEST(Schedule, NamesEveryNumberTheVersionAndWhatItReplaces) {
    const Document document = schedule_of(every_risk());
    const std::string all = plain_text(document);
    for (const char* number : {"555-0140", "555-0141", "112", "555-0199", "4F7K-X2MC of 7 Dec 2026"})
        EXPECT_NE(all.find(number), std::string::npos) << number;
    EXPECT_NE(document.footer.version.find(code_of(every_risk())), std::string::npos);
    EXPECT_NE(document.footer.patient.find("river-17"), std::string::npos);
    EXPECT_NE(plain_text(schedule_of(two_steps())).find("No earlier sheet to replace."), std::string::npos);
}

TEST(Schedule, BeginsOnTheDayOfIssueInTheMiddleOfAStep) {
    PaperSource source = two_steps();
    source.as_of = day_at(2027, 1, 20);
    const Document document = schedule_of(source);
    const Table& table = day_table_of(document);
    ASSERT_EQ(table.groups.size(), 1u);
    EXPECT_EQ(table.groups[0].rows.at(0).at(0).strong.at(0), "Wed 20 Jan");
    EXPECT_EQ(table.groups[0].rows.at(0).at(2).doses.at(0).was, "");
    EXPECT_EQ(table.groups[0].rows.size(), 12u);
    // The step's own row says what was changed; no day does, and no sign is explained for it.
    EXPECT_EQ(step_table_of(document).groups.at(0).rows.at(0).at(2).doses.at(0).was, "Changed: was 1.375 mg");
    EXPECT_EQ(plain_text(document).find("Bar at the left"), std::string::npos);
}

TEST(Schedule, KeepsTheDoseOfAHoldUntilItsReview) {
    PaperSource source = two_steps();
    source.as_of = day_at(2027, 1, 14);
    source.hold = HoldStarted{day_at(2027, 1, 13), day_at(2027, 1, 27), "a hard week"};
    const Document document = schedule_of(source);
    const Table& table = day_table_of(document);
    ASSERT_EQ(table.groups.size(), 1u);
    EXPECT_EQ(table.groups[0].rows.size(), 14u);
    EXPECT_NE(plain_text(document).find(
                  "Your dose stays as it is for now. We look at it again on Wednesday 27 January 2027."),
              std::string::npos);
    EXPECT_EQ(plain_text(document).find("2.25 mg"), std::string::npos);
}

TEST(Schedule, NamesTheAgentWhereThereIsMoreThanOne) {
    const std::string all = plain_text(schedule_of(two_agents()));
    EXPECT_NE(all.find("zolpidem 5 mg, no change"), std::string::npos);
    const std::string why = "Zolpidem: not drawn, because we do not know which product you have.";
    const std::size_t first = all.find(why);
    ASSERT_NE(first, std::string::npos) << "beside the steps, and again on the sheet that hangs alone";
    EXPECT_NE(all.find(why, first + 1), std::string::npos);
    EXPECT_EQ(plain_text(schedule_of(two_steps())).find("not drawn"), std::string::npos);
    EXPECT_NE(all.find("\nClonazepam and zolpidem, day by day"), std::string::npos);
    EXPECT_NE(all.find("clonazepam 2.375 mg in\u00A0all"), std::string::npos);
    EXPECT_NE(all.find("zolpidem 5 mg in\u00A0all"), std::string::npos);
    EXPECT_EQ(day_table_of(schedule_of(two_agents())).groups.at(0).band.back(),
              "The whole day: clonazepam 2.375 mg; zolpidem 5 mg (all doses added up, not one more dose).");
}

TEST(Schedule, SaysTheVolumeToDrawUpBesideEverySyringe) {
    const Document document = schedule_of(from_a_bottle());
    const Table& table = day_table_of(document);
    const Group& second = table.groups.at(1);
    EXPECT_EQ(words_of(table.groups.at(0).rows.at(3).at(1)), "0.45 mL = 0.9 mg");
    EXPECT_EQ(words_of(second.rows.at(0).at(1)), "0.35 mL = 0.7 mg");
    EXPECT_EQ(second.rows.at(0).at(1).doses.at(0).was, "Changed: was 0.45 mL = 0.9 mg");
    EXPECT_EQ(table.groups.at(0).band.at(1), "Morning 08:00: 0.45 mL of 2 mg per mL = 0.9 mg (was 1 mg)");
    EXPECT_EQ(second.band.at(1),
              "Morning 08:00: 0.35 mL of 2 mg per mL = 0.7 mg (was 0.45 mL of 2 mg per mL = 0.9 mg)");
}

/// What the sheet to hang up says: everything behind the page break.
std::string wall_text(const Document& document) {
    Document wall = document;
    const auto breaks = std::ranges::find_if(
        wall.blocks, [](const Block& block) { return std::holds_alternative<PageBreak>(block.content); });
    wall.blocks.erase(wall.blocks.begin(), breaks);
    wall.title.clear();
    wall.subtitle.clear();
    return plain_text(wall);
}

TEST(Schedule, TellsOnTheWallWhatHoldsAtAnyHourOfAnyDay) {
    const std::string wall = wall_text(schedule_of(two_steps()));
    for (const char* says :
         {"Until Sunday 3 January 2027, keep taking your doses as you do now:",
          "Morning 08:00: clonazepam 1 mg",
          "Dose times from Monday 4 January 2027: Morning 08:00, Bedtime 21:00. At any other time there is "
          "no dose.",
          "This sheet holds until Sunday 31 January 2027, that day too.",
          "No new sheet by then? Keep taking the doses of the last step each day and call us.",
          "Call us: 555-0140. At other hours: 555-0141."})
        EXPECT_NE(wall.find(says), std::string::npos) << says;
    const std::string off = wall_text(schedule_of(down_to_off()));
    EXPECT_EQ(off.find("the doses of the last step"), std::string::npos);
    PaperSource begun = two_steps();
    begun.as_of = day_at(2027, 1, 6);
    EXPECT_EQ(wall_text(schedule_of(begun)).find("as you do now"), std::string::npos);
}

TEST(Schedule, NamesPiecesBeforeTheFirstStepOnlyOfWhatWasCountedAtHome) {
    PaperSource source = two_steps();
    const Product half = source.plan->products.front();
    source.before = {dose(8 * 60, {piece(half, Cut::whole, 2)}), dose(21 * 60, {piece(half, Cut::whole, 3)})};
    EXPECT_NE(plain_text(schedule_of(source)).find("Morning 08:00: clonazepam 1 mg\n"), std::string::npos);
    source.on_hand = {{half, 100, {}}};
    EXPECT_NE(
        plain_text(schedule_of(source)).find("Bedtime 21:00: clonazepam 3 tablets of 0.5 mg = 1.5 mg\n"),
        std::string::npos);
}

TEST(Schedule, SaysWhatAMarkOfTheSyringeStandsFor) {
    EXPECT_NE(plain_text(schedule_of(from_a_bottle())).find("Each 0.05 mL must have its own line on it."),
              std::string::npos);
    EXPECT_EQ(plain_text(schedule_of(two_steps())).find("its own line"), std::string::npos);
}

TEST(Schedule, CallsNoAgentsTabletsAnothers) {
    const Document document = schedule_of(crossing_over());
    const std::string all = plain_text(document);
    EXPECT_EQ(document.title, "Your schedule for alprazolam and diazepam");
    EXPECT_NE(all.find("Your alprazolam: 0.25 mg tablets\n"), std::string::npos);
    EXPECT_NE(all.find("Your diazepam: 2 mg tablets\n"), std::string::npos);
    EXPECT_EQ(all.find("% less"), std::string::npos);
}

TEST(Schedule, NamesTheAgentOfEveryChangeInACrossover) {
    const Document document = schedule_of(crossing_over());
    const Table& table = day_table_of(document);
    EXPECT_EQ(table.groups.at(0).band,
              (std::vector<std::string>{"Step 1 from Monday 4 January 2027",
                                        "Bedtime 22:00: alprazolam 0.25 mg (was 0.5 mg)",
                                        "Bedtime 22:00: diazepam 6 mg (new at this time)",
                                        "The whole day: alprazolam 0.75 mg; diazepam 6 mg (all doses added "
                                        "up, not one more dose)."}));
    EXPECT_EQ(table.groups.at(1).band,
              (std::vector<std::string>{"Step 2 from Monday 11 January 2027",
                                        "Morning 08:00: no alprazolam any more (was 0.5 mg)",
                                        "Morning 08:00: diazepam 10 mg (new at this time)",
                                        "Bedtime 22:00: no alprazolam any more (was 0.25 mg)",
                                        "The whole day: diazepam 16 mg (all doses added up, not one more "
                                        "dose)."}));
}

TEST(Schedule, HasABoxToTickForEachOfTwoMedicinesAtOneTime) {
    const Document document = schedule_of(crossing_over());
    const Table& table = day_table_of(document);
    const Cell& both = table.groups.at(0).rows.at(1).at(2);
    ASSERT_EQ(both.doses.size(), 2u);
    EXPECT_TRUE(both.doses.at(0).tick_box && both.doses.at(1).tick_box);
    const Cell& one = table.groups.at(1).rows.at(0).at(2);  // the dose, and what is not taken any more
    EXPECT_TRUE(one.tick_box);
    for (const DoseInCell& each : one.doses) EXPECT_FALSE(each.tick_box);
}

TEST(Schedule, SaysOffInWordsAndWarnsOfLostTolerance) {
    const std::string all = plain_text(schedule_of(down_to_off()));
    EXPECT_NE(all.find("From Monday 18 January 2027: no more clonazepam."), std::string::npos);
    EXPECT_NE(all.find("Your body is no longer used to it"), std::string::npos);
    EXPECT_NE(all.find("This is the only dose of the day."), std::string::npos);
}

TEST(Schedule, SaysTheForgottenDoseRuleOfTheAgentAndNeverDouble) {
    for (const char* id : {"missed-dose-short", "missed-dose-long", "missed-dose-night"}) {
        Formulary formulary = shipped_formulary();
        formulary.drugs["clonazepam"].missed_dose_rule = id;
        PaperSource source = two_steps();
        source.formulary = &formulary;
        const std::string all = plain_text(schedule_of(source));
        EXPECT_NE(all.find(shipped_texts("en").text(id)), std::string::npos);
        EXPECT_NE(all.find("Never take a double dose."), std::string::npos);
    }
}

TEST(Schedule, SpeaksSpanishWithTheSameAmounts) {
    const std::string all = plain_text(schedule_of(two_steps(), "es"));
    EXPECT_NE(all.find("lunes 4 de enero de 2027"), std::string::npos);
    EXPECT_NE(all.find("2 tabletas + la mitad de una tableta de 0.5 mg"), std::string::npos);
    EXPECT_NE(all.find("= 1.375 mg"), std::string::npos);
}

}  // namespace
}  // namespace evenfall::papers
