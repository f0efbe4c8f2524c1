// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>

#include <gtest/gtest.h>

#include "papers/sample.h"
#include "papers/wording.h"

// What goes to pharmacy and care team, and the caution sheet, where more than one agent is taken.

namespace evenfall::papers {
namespace {

PaperSource supplied(PaperSource source) {
    source.supply = some_supply(source);
    return source;
}

bool has(const std::string& all, const std::string& part) {
    return all.find(part) != std::string::npos;
}

TEST(Pharmacy, TakesBackOnlyWhatNoDoseNeedsWhenTheFillsAreUsed) {
    PaperSource source = supplied(two_steps());
    const std::string kept = text_of(Paper::pharmacy, source);
    EXPECT_FALSE(has(kept, "the plan no longer uses")) << kept;
    source.supply->surplus = {{source.plan->products.front(), 6, {}}};
    const std::string back = text_of(Paper::pharmacy, source);
    EXPECT_TRUE(has(back,
                    "After Sunday 28 February 2027 the plan no longer uses 0.5 mg tablets: please take back "
                    "what is left."))
        << back;
}

TEST(Pharmacy, NamesTheAgentOfEveryProductWhereThereAreSeveral) {
    const std::string all = text_of(Paper::pharmacy, supplied(crossing_over()));
    EXPECT_TRUE(has(all, "Pharmacy summary: alprazolam and diazepam"));
    EXPECT_TRUE(has(all, "alprazolam 0.25 mg tablets; diazepam 2 mg tablets"));
    EXPECT_TRUE(has(all, "alprazolam: 1,204 tablets of 0.25 mg"));
    EXPECT_TRUE(has(all, "diazepam: 1,204 tablets of 2 mg"));
    EXPECT_TRUE(has(all, "alprazolam: 4 tablets")) << all;
}

TEST(Pharmacy, ListsWhatIsDispensedAmongTheStrengthsAndForms) {
    PaperSource source = supplied(two_agents());
    const Product tablet{"zolpidem", Form::tablet, Dose::milligrams(5), Cuts::whole, {}};
    source.supply->fills.front().items.push_back({tablet, 28, {}});
    EXPECT_TRUE(has(text_of(Paper::pharmacy, source), "; zolpidem 5 mg tablets"));
}

TEST(Pharmacy, GivesTheDosesUntilTheFirstStep) {
    const std::string all = text_of(Paper::pharmacy, supplied(two_steps()));
    EXPECT_TRUE(has(all, "Before the first step, until Sunday 3 January 2027:"));
    EXPECT_TRUE(has(all, "Bedtime 21:00: clonazepam 1.5 mg"));
    PaperSource begun = two_steps();
    begun.as_of = day_at(2027, 1, 4);
    EXPECT_FALSE(has(text_of(Paper::pharmacy, supplied(begun)), "Bedtime 21:00: clonazepam 1.5 mg"));
}

TEST(Pharmacy, GivesTheDosesUntilTheFirstStepInPieces) {
    PaperSource source = supplied(two_steps());
    const Product half = source.plan->products.front();
    EXPECT_TRUE(has(text_of(Paper::pharmacy, source),
                    "Bedtime 21:00: clonazepam 1.5 mg (product not on our record: call us)"));
    source.before = {dose(21 * 60, {piece(half, Cut::whole, 3)})};
    EXPECT_TRUE(
        has(text_of(Paper::pharmacy, source), "Bedtime 21:00: clonazepam 3 tablets of 0.5 mg = 1.5 mg"));
}

TEST(Pharmacy, SaysWhatIsNotCountedInTheFills) {
    const std::string all = text_of(Paper::pharmacy, supplied(two_agents()));
    EXPECT_TRUE(has(all, "because the product is not on our record: zolpidem. Go on dispensing it")) << all;
    EXPECT_FALSE(has(text_of(Paper::pharmacy, supplied(two_steps())), "Not counted in these fills"));
}

TEST(Pharmacy, NamesALiquidAsAPharmacyDoesWithItsSyringe) {
    const std::string all = text_of(Paper::pharmacy, supplied(from_a_bottle()));
    EXPECT_TRUE(has(all, "120 mL of 2 mg per mL oral concentrate (strong liquid)")) << all;
    EXPECT_TRUE(has(all, "with a mark every 0.05 mL, for up to 0.45 mL at one time")) << all;
    EXPECT_TRUE(has(all, "0.45 mL from the bottle marked 2 mg per mL = 0.9 mg")) << all;
}

TEST(Pharmacy, SaysWhatIsAtHomeAndWhenItWasCounted) {
    PaperSource source = supplied(two_steps());
    EXPECT_FALSE(has(text_of(Paper::pharmacy, source), "At home today"));
    source.counted_on = day_at(2026, 12, 12);
    source.on_hand = {{source.plan->products.front(), 42, {}}};
    EXPECT_TRUE(
        has(text_of(Paper::pharmacy, source),
            "10 tablets + half of a 0.5 mg tablet before today's first dose (worked out from the count of "
            "12 Dec 2026)"));
    source.on_hand.clear();
    EXPECT_TRUE(has(text_of(Paper::pharmacy, source),
                    "nothing before today's first dose (worked out from the count of 12 Dec 2026)"));
}

TEST(CareTeam, WhoTakesNothingAnyMoreIsNotToldToKeepADose) {
    PaperSource source = person_without_plan();
    source.regimen = {};
    source.agent = "lorazepam";
    for (const char* language : {"en", "es"})
        for (const Paper paper : {Paper::card, Paper::letter, Paper::call, Paper::caution, Paper::diary}) {
            const std::string all = text_of(paper, source, language);
            EXPECT_EQ(all.find(" mg"), std::string::npos) << all;
            EXPECT_EQ(all.find('['), std::string::npos) << all;
        }
    EXPECT_TRUE(has(text_of(Paper::card, source), "I no longer take\nlorazepam"));
    EXPECT_TRUE(has(text_of(Paper::card, source, "es"), "Ya no tomo\nlorazepam"));
    EXPECT_TRUE(has(text_of(Paper::card, source), "an old dose can kill"));
    EXPECT_FALSE(has(text_of(Paper::card, source), "keep the dose going"));
    EXPECT_FALSE(has(text_of(Paper::card, source), "stop suddenly"));
    EXPECT_FALSE(has(text_of(Paper::diary, source), "stop suddenly"));
    EXPECT_TRUE(has(text_of(Paper::letter, source), "no longer takes lorazepam"));
    for (const char* id : {"call-keep", "call-dose-times", "call-danger-missed", "call-danger-out"}) {
        const std::string says = shipped_texts("en").text(id);
        EXPECT_TRUE(has(text_of(Paper::call, two_steps()), says)) << says;
        EXPECT_FALSE(has(text_of(Paper::call, source), says)) << says;
    }
    EXPECT_TRUE(has(text_of(Paper::call, source), "Was any taken since the last call?"));
    EXPECT_TRUE(has(text_of(Paper::caution, source), "You take no lorazepam any more"));
    EXPECT_FALSE(has(text_of(Paper::caution, source), "Take each dose"));
}

TEST(CareTeam, WhatIsTakenWhenNeededIsNoOrderByTheClock) {
    PaperSource source = person_without_plan();
    source.regimen.doses = {{{12 * 60}, "lorazepam", Dose::micrograms(500), {}, {}}};
    source.as_needed = true;
    for (const Paper paper : {Paper::card, Paper::letter, Paper::call}) {
        const std::string all = text_of(paper, source);
        EXPECT_TRUE(has(all, "lorazepam 0.5 mg when needed")) << all;
        EXPECT_FALSE(has(all, "12:00"));
        EXPECT_FALSE(has(all, "a day on"));
    }
    for (const Paper paper : {Paper::card, Paper::call, Paper::diary, Paper::caution})
        for (const char* words : {"keep the dose going", "today's dose", "on purpose", "Take each dose"})
            EXPECT_FALSE(has(text_of(paper, source), words)) << words;
    EXPECT_TRUE(has(text_of(Paper::card, source), "Stopping suddenly can still cause seizures"));
    EXPECT_TRUE(has(text_of(Paper::card, source), "when needed; as of "));
    EXPECT_TRUE(has(text_of(Paper::caution, source), "Take it only as agreed with us."));
    EXPECT_FALSE(has(text_of(Paper::diary, source), "12:00"));
    EXPECT_TRUE(has(text_of(Paper::diary, source), "Dose, and when"));
}

TEST(Pharmacy, CountsUnitsOfAStrengthInEitherLanguageAndNumber) {
    PaperSource source = supplied(two_steps());
    const Product tablet = source.plan->products.front();
    const Product dissolving{
        tablet.drug, Form::orally_disintegrating_tablet, Dose::micrograms(125), Cuts::whole, {}};
    source.supply->fills.front().items = {{tablet, 18, {}}, {dissolving, 1, {}}};
    const std::string english = text_of(Paper::pharmacy, source);
    EXPECT_TRUE(has(english, "18 tablets of 0.5 mg")) << english;
    EXPECT_TRUE(has(english, "1 orally disintegrating (dissolving) tablet of 0.125 mg")) << english;
    const std::string spanish = text_of(Paper::pharmacy, source, "es");
    EXPECT_TRUE(has(spanish, "18 tabletas de 0.5 mg")) << spanish;
    EXPECT_TRUE(has(spanish, "1 tableta bucodispersable (que se disuelve) de 0.125 mg")) << spanish;
}

TEST(Pharmacy, ExplainsWhyAFillHasEnoughForMoreThanOneHold) {
    const std::string all = text_of(Paper::pharmacy, supplied(two_steps()));
    EXPECT_TRUE(has(all, "Nobody knows beforehand which dose will be held.")) << all;
}

TEST(CareTeam, TheCallGuideSaysWhatTheEndsOfAScaleMeanAndSpeaksOfMoreThanTablets) {
    const std::string all = text_of(Paper::call, from_a_bottle());
    EXPECT_TRUE(has(all, "Symptoms, from 0 (none) to 10 (worst)")) << all;
    EXPECT_TRUE(has(all, "Confidence, 0 (none) to 10 (full)")) << all;
    EXPECT_FALSE(has(all, "tablet")) << all;
    EXPECT_FALSE(has(all, "Tablet")) << all;
    const std::string spanish = text_of(Paper::call, from_a_bottle(), "es");
    EXPECT_FALSE(has(spanish, "tableta")) << spanish;
    EXPECT_TRUE(has(spanish, "de 0 (nada) a 10 (lo peor)")) << spanish;
}

TEST(CareTeam, HoursOfSleepAreNoRatingFromNoneToWorst) {
    PaperSource source = two_steps();
    source.tracked_items.clear();
    EXPECT_TRUE(has(text_of(Paper::call, source), "Poor sleep"));
    EXPECT_FALSE(has(text_of(Paper::call, source), "Hours of sleep"));
    EXPECT_TRUE(has(text_of(Paper::diary, source), "Sleep: how many hours."));
}

TEST(CareTeam, TheCallGuideNamesWhatIsDrawnUp) {
    const std::string all = text_of(Paper::call, every_risk());
    EXPECT_TRUE(has(all, "4.2 mL of ")) << all;
}

TEST(CareTeam, TheLetterTellsWhatWasReportedAndWhatIsNotAgreedAnyMore) {
    PaperSource source = two_steps();
    const Rules rules = Rules::load(resources_folder() / "rules.json").value();
    source.rules = &rules;
    source.reported = {{"red-flag-seizure", {{"on", "2027-01-10"}}, {}}};
    EXPECT_TRUE(has(text_of(Paper::letter, source), "seizure (reported 10 Jan 2027)"));
    source.reported.push_back({"bars-severe", {{"on", "2027-01-10"}, {"answer", "5"}}, {}});
    EXPECT_TRUE(has(text_of(Paper::letter, source, "es"), "inquietud interna grave (aviso del 10 ene 2027)"));
    source.as_of = day_at(2027, 3, 20);  // the second step ended in January, the third is not agreed
    EXPECT_TRUE(has(text_of(Paper::letter, source),
                    "Sunday 31 January 2027; its dose goes on until the next step is agreed"));
}

TEST(Pharmacy, NamesTheDangersThatStandForWhoDecidesOnSmallerFills) {
    PaperSource source = supplied(two_steps());
    source.rules = &shipped_rules();
    source.risks.clear();
    EXPECT_FALSE(has(text_of(Paper::pharmacy, source), "Take care"));
    source.risks = {"breathing trouble", "driving work"};
    source.reported = {{"red-flag-suicidal-thoughts", {{"on", "2027-01-10"}}, {}}};
    const std::string all = text_of(Paper::pharmacy, source);
    EXPECT_TRUE(has(
        all, "Thoughts of suicide (reported 10 Jan 2027), breathing trouble. Call us before you dispense"))
        << all;
    EXPECT_FALSE(has(all, "drives for work"));
    EXPECT_TRUE(has(text_of(Paper::pharmacy, source, "es"), "Ideas de suicidio (aviso del 10 ene 2027)"));
}

TEST(Pharmacy, SaysThatLaterFillsCountOnNoHoldBeforeThem) {
    const std::string all = text_of(Paper::pharmacy, supplied(two_steps()));
    EXPECT_TRUE(has(all, "Fills after the first count on no hold before them.")) << all;
    EXPECT_TRUE(has(all, "Call us before the next fill.")) << all;
    EXPECT_TRUE(has(all, "days at most")) << all;
}

TEST(Pharmacy, SaysWhichAgentWasNotCounted) {
    PaperSource source = supplied(two_agents());
    source.counted_on = source.as_of;
    source.on_hand = {{source.plan->products.front(), 42, {}}};
    source.counted = {"clonazepam"};
    EXPECT_TRUE(has(text_of(Paper::pharmacy, source),
                    "(counted today); zolpidem: not counted; the fills take it that none is at home"));
    source.counted_on = source.as_of - std::chrono::days(3);
    const std::string all = text_of(Paper::pharmacy, source);
    EXPECT_TRUE(has(all, "before today's first dose (worked out from the count of ")) << all;
    EXPECT_TRUE(has(all, "); zolpidem: not counted")) << all;
}

TEST(Pharmacy, NamesWhatIsTakenBesideAndTheOpioid) {
    PaperSource source = supplied(two_steps());
    source.other_medicines = {"fluoxetine 20 mg"};
    source.risks.erase("opioid");
    EXPECT_TRUE(has(text_of(Paper::pharmacy, source), "fluoxetine 20 mg"));
    EXPECT_FALSE(has(text_of(Paper::pharmacy, source), "naloxone"));
    source.risks.insert("opioid");
    source.naloxone_at_home = false;
    EXPECT_TRUE(has(text_of(Paper::pharmacy, source), "No naloxone at home on our record: please offer it."));
    source.naloxone_at_home = true;
    EXPECT_TRUE(has(text_of(Paper::pharmacy, source), "Naloxone is at home."));
}

TEST(CareTeam, SpeaksOfAnOpioidThatIsTakenAsTaken) {
    PaperSource source = two_steps();
    source.risks.erase("opioid");
    EXPECT_TRUE(has(text_of(Paper::caution, source), "Tell us before you start one."));
    EXPECT_TRUE(has(text_of(Paper::letter, source), "Before an opioid, call us"));
    source.risks.insert("opioid");
    EXPECT_FALSE(has(text_of(Paper::caution, source), "before you start one"));
    EXPECT_TRUE(has(text_of(Paper::caution, source), "Take no more of either than agreed."));
    EXPECT_TRUE(has(text_of(Paper::letter, source), "Takes an opioid: before you change it, call us"));
}

TEST(Pharmacy, SaysThatAllFillsTogetherAreNothingWhereNothingIsDispensed) {
    PaperSource source = supplied(two_steps());
    EXPECT_TRUE(has(text_of(Paper::pharmacy, source), "All fills together"));
    for (Fill& fill : source.supply->fills) fill.items.clear();
    const std::string all = text_of(Paper::pharmacy, source);
    EXPECT_TRUE(has(all.substr(all.find("All fills together")), "Nothing: enough is at home")) << all;
}

TEST(CareTeam, WhatWasReportedStandsOnEveryPaperThatItTouches) {
    PaperSource source = two_steps();
    const Rules rules = Rules::load(resources_folder() / "rules.json").value();
    source.rules = &rules;
    EXPECT_FALSE(has(text_of(Paper::card, source), "I have had a seizure before."));
    EXPECT_FALSE(has(text_of(Paper::call, source), "Still open"));
    source.reported = {{"red-flag-seizure", {{"on", "2027-01-10"}}, {}}};
    EXPECT_TRUE(has(text_of(Paper::card, source), "I have had a seizure before."));
    EXPECT_TRUE(has(text_of(Paper::caution, source), "You have had a seizure."));
    EXPECT_TRUE(has(text_of(Paper::call, source), "Still open: seizure (reported 10 Jan 2027)."));
    // The same thing told twice on one day is said once.
    source.reported = {{"red-flag-suicidal-thoughts", {{"on", "2027-01-10"}}, {}},
                       {"phq-9-item-9", {{"on", "2027-01-10"}, {"scale", "PHQ-9"}, {"answer", "2"}}, {}}};
    EXPECT_TRUE(has(text_of(Paper::call, source), "Still open: thoughts of suicide (reported 10 Jan 2027)."));
}

TEST(CareTeam, TheCallGuideSaysWhatIsTakenFromWhatAndWhatChangesNext) {
    PaperSource source = two_steps();
    const std::string all = text_of(Paper::call, source);
    const Step& second = source.plan->steps.at(1);
    EXPECT_TRUE(has(all, "Prescriber: " + source.prescriber.name + ", " + source.clinic.phone)) << all;
    source.as_of = source.plan->steps.front().starts;
    const Wording say(shipped_texts("en"), source.parts);
    const PlannedDose& first = source.plan->steps.front().doses.front();
    EXPECT_TRUE(has(text_of(Paper::call, source), joined(say.pieces(first.pieces, first.amount), " ")))
        << all;
    EXPECT_TRUE(has(text_of(Paper::call, source), "From " + say.short_date(second.starts) + ": ")) << all;
    source.as_of = second.starts;
    EXPECT_FALSE(has(text_of(Paper::call, source), "From " + say.short_date(second.starts) + ": ")) << all;
    source.prescriber.name.clear();
    EXPECT_TRUE(has(text_of(Paper::call, source), "Prescriber: " + source.clinic.phone));
}

TEST(CareTeam, TheLetterDrawsAndSaysThatADoseIsHeld) {
    PaperSource source = two_steps();
    source.as_of = day_at(2027, 1, 14);
    source.hold = HoldStarted{day_at(2027, 1, 13), day_at(2027, 1, 27), "a hard week"};
    const Document letter = make_paper(Paper::letter, source, shipped_texts("en")).value();
    EXPECT_TRUE(has(plain_text(letter), "Held: the dose stays as it is until the review on 27 Jan 2027"));
    EXPECT_TRUE(has(text_of(Paper::call, source), "Held: the dose stays as it is until the review on"));
    const auto block = std::ranges::find_if(
        letter.blocks, [](const Block& each) { return std::holds_alternative<DoseChart>(each.content); });
    ASSERT_NE(block, letter.blocks.end());
    const auto& stairs = std::get<DoseChart>(block->content).stairs;
    const auto open = std::ranges::find_if(stairs, [](const auto& stair) { return !stair.agreed; });
    ASSERT_NE(open, stairs.end());
    EXPECT_EQ(open->from, day_at(2027, 1, 28)) << "the day after the review";
    EXPECT_EQ(open->mg, source.plan->steps.at(1).daily.mg()) << "the step that the hold keeps back";
}

TEST(CareTeam, NamesOfMedicinesAreThoseOfTheReadersLanguage) {
    PaperSource source = two_steps();
    source.other_medicines = {"Oxycodone 10 mg twice a day", "ibuprofen"};
    EXPECT_TRUE(has(text_of(Paper::letter, source), "oxycodone 10 mg twice a day; ibuprofen"));
    EXPECT_TRUE(has(text_of(Paper::letter, source, "es"), "oxicodona 10 mg"));
    EXPECT_TRUE(has(text_of(Paper::card, source, "es"), "oxicodona 10 mg"));
    EXPECT_TRUE(has(text_of(Paper::pharmacy, supplied(source), "es"), "oxicodona 10 mg"));
    EXPECT_TRUE(has(text_of(Paper::caution, source, "es"), "oxicodona 10 mg"));
}

TEST(CareTeam, AMedicineIsKnownByTheRulesListsHoweverItWasTyped) {
    PaperSource source = two_steps();
    source.other_medicines = {"Gabapentin, 300 mg", "ibuprofen", "oxycodone; 5 mg"};
    const std::string all = text_of(Paper::caution, source);
    EXPECT_TRUE(has(all, "You take gabapentin, 300 mg. It can change how clonazepam works.")) << all;
    EXPECT_TRUE(has(all, "You take oxycodone; 5 mg. It can change how clonazepam works.")) << all;
    EXPECT_TRUE(has(all, "Your other medicines: ibuprofen."));
    EXPECT_TRUE(has(text_of(Paper::letter, source, "es"), "gabapentina, 300 mg"));
}

TEST(CareTeam, AReportedNewOpioidOrSedativeStandsOnTheCardAndAsksForNaloxone) {
    PaperSource source = two_steps();
    EXPECT_FALSE(has(text_of(Paper::card, source), "new opioid or sedative"));
    source.reported = {{"red-flag-new-opioid-or-sedative", {{"on", "2026-12-18"}}, {}}};
    EXPECT_TRUE(has(text_of(Paper::card, source), "I may also take a new opioid or sedative."));
    EXPECT_TRUE(has(text_of(Paper::caution, source), "Ask us for naloxone to keep at home."));
}

TEST(Letter, LeavesNoAgentOutOfAStep) {
    const std::string crossing = text_of(Paper::letter, crossing_over());
    EXPECT_TRUE(has(crossing, "come off alprazolam and diazepam slowly"));
    EXPECT_TRUE(has(crossing, "From Monday 4 January 2027: alprazolam 0.75 mg a day; diazepam 6 mg a day"));
    EXPECT_TRUE(has(crossing, "Do not stop alprazolam and diazepam suddenly"));
    const std::string two = text_of(Paper::letter, two_agents());
    EXPECT_TRUE(has(two, "come off clonazepam slowly"));
    EXPECT_TRUE(has(two, "This person also takes zolpidem."));
    EXPECT_TRUE(has(two, "From Monday 4 January 2027: clonazepam 2.375 mg a day; zolpidem 5 mg a day"));
}

PaperSource came_off() {
    PaperSource source = person_without_plan();
    source.agent = "lorazepam";
    source.regimen = {};
    source.risks = {"opioid", "withdrawal seizure", "driving work", "pregnancy"};
    return source;
}

TEST(Caution, SpeaksOfNoDoseToWhoCameOff) {
    const PaperSource source = came_off();
    for (const char* language : {"en", "es"}) {
        const std::string all = text_of(Paper::caution, source, language);
        for (const char* wrong :
             {"With lorazepam", "with lorazepam", "con lorazepam", "change of dose", "cambio de dosis",
              "After a cut", "Después de bajar", "locked up", "bajo llave", "Never be late", "No se atrase",
              "Do not change a dose", "No cambie la dosis"})
            EXPECT_FALSE(has(all, wrong)) << wrong << "\n" << all;
    }
    EXPECT_TRUE(has(text_of(Paper::caution, source), "You take an opioid. It can stop your breath."));
    EXPECT_TRUE(has(text_of(Paper::caution, source), "Never take an old, higher dose again."));
    EXPECT_FALSE(has(text_of(Paper::call, source), "Out of medicine"));
    EXPECT_TRUE(has(text_of(Paper::call, two_steps()), "Out of medicine"));
}

TEST(Caution, SpeaksOfNoCutWhereNoPlanIsInForce) {
    const PaperSource source = person_without_plan();
    ASSERT_FALSE(source.plan.has_value());
    EXPECT_FALSE(has(text_of(Paper::caution, source), "next cut"));
    EXPECT_FALSE(has(text_of(Paper::letter, source), "last cut"));
    EXPECT_TRUE(has(text_of(Paper::caution, two_steps()), "next cut"));
    EXPECT_TRUE(has(text_of(Paper::letter, two_steps()), "last cut"));
}

TEST(Caution, SpeaksOfAnotherDrugThatMakesSleepyWhereTheSheetIsNotItsOwn) {
    PaperSource source = two_agents();
    source.risks = {"other sedative"};
    EXPECT_TRUE(has(text_of(Paper::caution, source), "clonazepam and zolpidem"));
    EXPECT_FALSE(has(text_of(Paper::caution, source), "You take another drug that makes you sleepy."));
    source = two_steps();
    source.risks = {"other sedative"};
    EXPECT_TRUE(has(text_of(Paper::caution, source), "You take another drug that makes you sleepy."));
}

TEST(Caution, SendsWhoCannotBreatheToTheEmergencyNumber) {
    PaperSource source = two_steps();
    source.clinic.emergency_number = "911";
    source.risks = {"breathing trouble"};
    EXPECT_TRUE(has(text_of(Paper::caution, source), "Short of breath, or hard to wake? Call 911 now."));
    EXPECT_TRUE(has(text_of(Paper::caution, source, "es"), "cuesta despertarle? Llame ya al 911."));
}

TEST(Caution, CoversEveryAgentOfTheSheet) {
    PaperSource source = crossing_over();
    const std::string all = text_of(Paper::caution, source);
    EXPECT_TRUE(has(all, "Caution sheet for alprazolam and diazepam"));
    EXPECT_TRUE(has(all, "Your body is used to alprazolam and diazepam."));
    EXPECT_TRUE(has(text_of(Paper::caution, source, "es"), "alprazolam y diazepam"));
}

}  // namespace
}  // namespace evenfall::papers
