// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <functional>

#include <gtest/gtest.h>

#include "papers/sample.h"
#include "papers/wording.h"

namespace evenfall::papers {
namespace {

Faults faults_of(Paper paper, const PaperSource& source) {
    const auto document = make_paper(paper, source, shipped_texts("en"));
    return document ? Faults{} : document.faults();
}

bool has(const Faults& faults, const std::string& id, const std::string& place = {}) {
    return std::any_of(faults.begin(), faults.end(), [&](const Fault& fault) {
        return fault.id == id && (place.empty() || fault.place == place);
    });
}

TEST(PaperChecks, EveryMissingNumberIsAskedForAndNoneIsInvented) {
    PaperSource source = two_steps();
    source.clinic = {};
    source.clinic.crisis_number = "  ";
    for (const Paper paper : {Paper::schedule, Paper::caution, Paper::card, Paper::call}) {
        const Faults faults = faults_of(paper, source);
        for (const char* field :
             {"clinic.phone", "clinic.after_hours", "clinic.emergency_number", "clinic.crisis_number"})
            EXPECT_TRUE(has(faults, "paper-number-missing", field)) << field;
    }
    EXPECT_EQ(faults_of(Paper::diary, source).size(), 2u);
}

TEST(PaperChecks, EveryPaperThatThePatientKeepsNamesEveryNumber) {
    for (const std::string& language : languages(resources_folder()))
        for (const Paper paper : {Paper::schedule, Paper::caution, Paper::card}) {
            const std::string all =
                plain_text(make_paper(paper, two_steps(), shipped_texts(language)).value());
            for (const char* number : {"112\n", "555-0199\n", "555-0140", "555-0141\n"})
                EXPECT_NE(all.find(number), std::string::npos) << word(paper) << " " << number;
        }
}

TEST(PaperChecks, AScheduleNeedsASignedStepThatStillRuns) {
    EXPECT_TRUE(has(faults_of(Paper::schedule, person_without_plan()), "paper-no-plan-signed"));
    PaperSource late = two_steps();
    late.as_of = day_at(2027, 2, 1);
    EXPECT_TRUE(has(faults_of(Paper::schedule, late), "paper-no-plan"));
    PaperSource unsigned_plan = two_steps();
    for (Step& step : unsigned_plan.plan->steps) step.status = StepStatus::outlook;
    EXPECT_TRUE(has(faults_of(Paper::schedule, unsigned_plan), "paper-no-plan"));
    EXPECT_TRUE(faults_of(Paper::caution, person_without_plan()).empty());
}

TEST(PaperChecks, PiecesThatDoNotMakeTheDoseAreRefused) {
    PaperSource source = two_steps();
    source.plan->steps[0].doses[1].amount = Dose::milligrams(2);
    EXPECT_TRUE(has(faults_of(Paper::schedule, source), "paper-pieces-missing"));
    source = two_steps();
    source.plan->steps[0].doses[1].pieces.clear();
    EXPECT_TRUE(has(faults_of(Paper::schedule, source), "paper-pieces-missing"));
}

TEST(PaperChecks, NamesAreHeldToAHumanLength) {
    PaperSource source = two_steps();
    source.person.name = std::string(200, 'x');
    EXPECT_TRUE(faults_of(Paper::schedule, source).empty());
    source.person.name = std::string(10'000, 'x');
    EXPECT_TRUE(has(faults_of(Paper::schedule, source), "paper-name-long"));
    source.person.name = "\xE2\x80\xAE \t";
    EXPECT_TRUE(has(faults_of(Paper::schedule, source), "paper-no-name"));
    source.person = {};
    EXPECT_TRUE(has(faults_of(Paper::schedule, source), "paper-no-reference"));
}

/// A text that is typed freely, and the most that a record takes of it.
struct Typed {
    const char* place;
    std::size_t most;
    std::function<void(PaperSource&, const std::string&)> put;
};

std::vector<Typed> everything_typed() {
    const auto clinic = [](std::string Clinic::*field) {
        return [field](PaperSource& source, const std::string& text) { source.clinic.*field = text; };
    };
    return {
        {"clinic.name", 200, clinic(&Clinic::name)},
        {"clinic.phone", 200, clinic(&Clinic::phone)},
        {"clinic.after_hours", 200, clinic(&Clinic::after_hours)},
        {"clinic.emergency_number", 200, clinic(&Clinic::emergency_number)},
        {"clinic.crisis_number", 200, clinic(&Clinic::crisis_number)},
        {"prescriber.name", 200, [](auto& source, const auto& text) { source.prescriber.name = text; }},
        {"prescriber.licence", 200, [](auto& source, const auto& text) { source.prescriber.licence = text; }},
        {"made_by", 200, [](auto& source, const auto& text) { source.made_by = text; }},
        {"history.taken_for", 4000, [](auto& source, const auto& text) { source.taken_for = text; }},
        {"other_medicines", 200, [](auto& source, const auto& text) { source.other_medicines = {text}; }},
        {"goals", 200, [](auto& source, const auto& text) { source.goals = {text}; }},
        {"tracked_items", 200, [](auto& source, const auto& text) { source.tracked_items = {text}; }}};
}

TEST(PaperChecks, ALongTextRefusesThePapersThatPrintItAndNoOther) {
    for (const auto& [paper, name] : Words<Paper>::table)
        for (const Typed& typed : everything_typed()) {
            PaperSource source = every_risk();
            source.supply = some_supply(source);
            source.judged = some_check(source, 4);
            typed.put(source, "Zqwx");
            const bool prints =
                plain_text(make_paper(paper, source, shipped_texts("en")).value()).find("Zqwx") !=
                std::string::npos;
            typed.put(source, std::string(typed.most, 'x'));
            EXPECT_TRUE(faults_of(paper, source).empty()) << name << " " << typed.place;
            typed.put(source, std::string(typed.most + 1, 'x'));
            EXPECT_EQ(has(faults_of(paper, source), "paper-text-long", typed.place), prints)
                << name << " " << typed.place;
            EXPECT_EQ(faults_of(paper, source).empty(), !prints) << name << " " << typed.place;
        }
}

TEST(PaperChecks, WhatIsTooLongIsToldWithHowItBegins) {
    PaperSource source = two_steps();
    source.taken_for = "Ansiedad por años y también " + std::string(4000, 'x');
    const Faults faults = faults_of(Paper::letter, source);
    ASSERT_EQ(faults.size(), 1u);
    EXPECT_EQ(faults.front().args.at("begins"), "Ansiedad por años y tamb…");
    EXPECT_EQ(faults.front().args.at("length"), "4028");
    EXPECT_EQ(faults.front().args.at("most"), "4000");
}

TEST(PaperChecks, AnUnknownAgentAndAMissingRuleAreRefused) {
    PaperSource source = two_steps();
    Formulary formulary = shipped_formulary();
    source.formulary = &formulary;
    formulary.drugs["clonazepam"].missed_dose_rule = "";
    EXPECT_TRUE(has(faults_of(Paper::schedule, source), "paper-missed-dose-rule"));
    formulary.drugs.erase("clonazepam");
    EXPECT_TRUE(has(faults_of(Paper::caution, source), "paper-drug-unknown"));
}

TEST(PaperChecks, EveryFaultHasASentence) {
    PaperSource source;
    source.formulary = &shipped_formulary();
    for (const char* language : {"en", "es"})
        for (const auto& [paper, name] : Words<Paper>::table) {
            const auto document = make_paper(paper, source, shipped_texts(language));
            ASSERT_FALSE(document.ok());
            for (const Fault& fault : document.faults()) {
                const std::string says = shipped_texts(language).text(fault.id, fault.args);
                EXPECT_EQ(says.find_first_of("[{"), std::string::npos) << says;
            }
        }
}

TEST(PaperChecks, EveryPlaceOfALongTextHasWords) {
    for (const std::string& language : languages(resources_folder()))
        for (const Typed& typed : everything_typed())
            EXPECT_TRUE(shipped_texts(language).has("paper-place-" + std::string(typed.place)))
                << language << " " << typed.place;
}

TEST(Printable, TakesOutWhatCannotBeSeenAndKeepsWhatCan) {
    EXPECT_EQ(printable("Ana\xE2\x80\xAE\xE2\x81\xA6 01"), "Ana 01");
    EXPECT_EQ(printable("  A\n\tB\x01\x7F "), "A B");
    EXPECT_EQ(printable("<b>Ana</b> & {phone}"), "<b>Ana</b> & {phone}");
    EXPECT_EQ(printable("Zoë 陳 \xD9\x85\xD8\xB1\xD9\x8A\xD9\x85"),
              "Zoë 陳 \xD9\x85\xD8\xB1\xD9\x8A\xD9\x85");
    EXPECT_EQ(printable("bad \xFF byte"), "bad \xEF\xBF\xBD byte");
    EXPECT_EQ(character_count("Zoë"), 3u);
}

TEST(Caution, SaysWhatAppliesToThisPersonAndNothingElse) {
    const auto plain = [](const PaperSource& source) {
        return plain_text(make_paper(Paper::caution, source, shipped_texts("en")).value());
    };
    const std::string none = plain(two_steps());
    const std::string all = plain(every_risk());
    for (const char* line :
         {"You take an opioid.", "Ask us for naloxone", "You have had a seizure.", "You live alone.",
          "You drive for work.", "You take fluvoxamine 50 mg. It can change how diazepam works."}) {
        EXPECT_NE(all.find(line), std::string::npos) << line;
        EXPECT_EQ(none.find(line), std::string::npos) << line;
    }
    EXPECT_NE(all.find("You take oxycodone. It can change how diazepam works."), std::string::npos);
    EXPECT_NE(all.find("Your other medicines: ibuprofen."), std::string::npos);
    EXPECT_EQ(none.find("For you"), std::string::npos);
}

}  // namespace
}  // namespace evenfall::papers
