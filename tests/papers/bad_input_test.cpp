// SPDX-License-Identifier: GPL-3.0-or-later
#include <gtest/gtest.h>

#include "papers/hard_people.h"
#include "papers/wording.h"
#include "units/dose_text.h"

// What people really type and plan: papers that can be read, or a refusal; never a dose that is cut off.

namespace evenfall::papers {
namespace {

TEST(BadInput, FortyStepsAreAllThere) {
    const std::string all = text_of(Paper::schedule, forty_steps());
    for (int number = 1; number <= 40; ++number)
        EXPECT_NE(all.find("Step " + std::to_string(number) + "\n"), std::string::npos) << number;
    const Wording say(shipped_texts("en"), {});
    std::size_t at = all.find("Step 1 from Monday 4 January 2027");
    for (int day = 0; day < 280 && at != std::string::npos; ++day) {
        at = all.find("\n" + say.day_date(day_at(2027, 1, 4) + std::chrono::days(day)) + "\n", at);
        EXPECT_NE(at, std::string::npos) << "day " << day << ", or not in its order";
    }
    EXPECT_NE(all.find("40 tablets of 0.5 mg = 20 mg"), std::string::npos);
    EXPECT_NE(all.find("1 tablet of 0.5 mg = 0.5 mg"), std::string::npos);
}

TEST(BadInput, TwelveDoseTimesAreAllThereWithTheirDoses) {
    const std::string all = text_of(Paper::schedule, twelve_dose_times());
    for (int hour = 1; hour <= 12; ++hour) {
        EXPECT_NE(all.find(print_clock({hour * 110})), std::string::npos) << hour;
        EXPECT_NE(all.find("= " + print_dose(Dose::micrograms(500) * hour)), std::string::npos) << hour;
    }
}

TEST(BadInput, ThreeAgentsAreNamedAtEachOfTheirDoses) {
    const PaperSource source = three_agents();
    for (const std::string& language : languages(resources_folder())) {
        const std::string all = text_of(Paper::schedule, source, language);
        for (const char* words : {"zolpidem 5 mg", "temazepam 20 mg", "clonazepam"})
            EXPECT_NE(all.find(words), std::string::npos) << words;
    }
    EXPECT_NE(text_of(Paper::schedule, source).find("2 capsules of 10 mg = 20 mg"), std::string::npos);
}

TEST(BadInput, NamesInOtherScriptsAndWithCombiningMarksStayAsTheyAre) {
    const std::string names[] = {"\xD7\xA9\xD7\x9C\xD7\x95\xD7\x9D \xD7\x93",
                                 "\xD9\x85\xD8\xB1\xD9\x8A\xD9\x85", "Zoe\xCC\x88 N\xCC\x83u\xCC\x88",
                                 "\xE9\x99\xB3"};
    for (const std::string& name : names) {
        PaperSource source = two_steps();
        source.person.name = name;
        EXPECT_NE(text_of(Paper::schedule, source).find(name), std::string::npos) << name;
    }
}

TEST(BadInput, WithoutAPrescriberThereAreLinesToSign) {
    PaperSource source = two_steps();
    source.prescriber = {};
    source.supply = some_supply(source);
    for (const Paper paper : {Paper::schedule, Paper::pharmacy, Paper::letter}) {
        const std::string all = text_of(paper, source);
        EXPECT_NE(all.find("Prescriber\n"), std::string::npos);
        EXPECT_NE(all.find("Signature\n"), std::string::npos);
    }
}

TEST(BadInput, ANameOfTwoHundredLettersIsPrintedAndALongerOneIsRefused) {
    PaperSource source = long_name();
    ASSERT_EQ(character_count(source.person.name), 200u);
    EXPECT_NE(text_of(Paper::card, source).find(source.person.name), std::string::npos);
    source.person.name += "a";
    const auto refused = make_paper(Paper::card, source, shipped_texts("en"));
    ASSERT_FALSE(refused.ok());
    EXPECT_EQ(refused.faults().front().id, "paper-name-long");
}

TEST(BadInput, WithoutAnAgreedStepThereIsNoScheduleAndEveryOtherPaperKeepsTheDoseOfToday) {
    const PaperSource source = nothing_agreed();
    for (const Paper paper : {Paper::schedule, Paper::pharmacy}) {
        const auto refused = make_paper(paper, source, shipped_texts("en"));
        ASSERT_FALSE(refused.ok());
        EXPECT_EQ(refused.faults().front().id, "paper-no-plan");
    }
    EXPECT_NE(text_of(Paper::call, source).find("Bedtime 21:00: clonazepam 1.5 mg"), std::string::npos);
    for (const Paper paper : {Paper::letter, Paper::card})
        EXPECT_NE(text_of(paper, source).find("2.5 mg a day"), std::string::npos);
}

}  // namespace
}  // namespace evenfall::papers
