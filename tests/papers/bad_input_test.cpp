// SPDX-License-Identifier: GPL-3.0-or-later
#include <gtest/gtest.h>

#include "papers/sample.h"
#include "units/dose_text.h"

// What people really type and plan: papers that can be read, or a refusal; never a dose that is cut off.

namespace evenfall::papers {
namespace {

std::string all_of(Paper paper, const PaperSource& source, const std::string& language = "en") {
    const auto document = make_paper(paper, source, shipped_texts(language));
    if (!document) throw std::runtime_error(document.faults().front().id);
    return plain_text(*document);
}

PaperSource forty_steps() {
    PaperSource source = two_steps();
    const Product tablet = source.plan->products.front();
    Step step = source.plan->steps.front();
    source.plan->steps.clear();
    for (int number = 1; number <= 40; ++number) {
        step.number = number;
        step.starts = day_at(2027, 1, 4) + std::chrono::days(7 * (number - 1));
        step.days = 7;
        step.doses = {dose(21 * 60, {piece(tablet, Cut::whole, 41 - number)})};
        step.daily = step.doses.front().amount;
        source.plan->steps.push_back(step);
    }
    return source;
}

TEST(BadInput, FortyStepsAreAllThere) {
    const std::string all = all_of(Paper::schedule, forty_steps());
    for (int number = 1; number <= 40; ++number)
        EXPECT_NE(all.find("Step " + std::to_string(number) + "\n"), std::string::npos) << number;
    for (Day day = day_at(2027, 1, 4); day < day_at(2027, 1, 4) + std::chrono::days(280);
         day += std::chrono::days(1)) {
        const auto date = calendar(day);
        EXPECT_NE(all.find(" " + std::to_string(static_cast<unsigned>(date.day())) + " "), std::string::npos);
    }
    EXPECT_NE(all.find("40 tablets of 0.5 mg = 20 mg"), std::string::npos);
    EXPECT_NE(all.find("1 tablet of 0.5 mg = 0.5 mg"), std::string::npos);
}

TEST(BadInput, TwelveDoseTimesAreAllThereWithTheirDoses) {
    PaperSource source = two_steps();
    const Product tablet = source.plan->products.front();
    for (Step& step : source.plan->steps) {
        step.doses.clear();
        for (int hour = 1; hour <= 12; ++hour)
            step.doses.push_back(dose(hour * 110, {piece(tablet, Cut::whole, hour)}));
    }
    const std::string all = all_of(Paper::schedule, source);
    for (int hour = 1; hour <= 12; ++hour) {
        EXPECT_NE(all.find(print_clock({hour * 110})), std::string::npos) << hour;
        EXPECT_NE(all.find("= " + print_dose(Dose::micrograms(500) * hour)), std::string::npos) << hour;
    }
}

TEST(BadInput, ThreeAgentsAreNamedAtEachOfTheirDoses) {
    PaperSource source = two_agents();
    const Product temazepam{"temazepam", Form::capsule, Dose::milligrams(10), Cuts::whole, {}};
    for (Step& step : source.plan->steps)
        step.doses.push_back(dose(23 * 60, {piece(temazepam, Cut::whole, 2)}));
    for (const std::string& language : languages(resources_folder())) {
        const std::string all = all_of(Paper::schedule, source, language);
        for (const char* words : {"zolpidem 5 mg", "temazepam 20 mg", "clonazepam"})
            EXPECT_NE(all.find(words), std::string::npos) << words;
    }
    EXPECT_NE(all_of(Paper::schedule, source).find("2 capsules of 10 mg = 20 mg"), std::string::npos);
}

TEST(BadInput, NamesInOtherScriptsAndWithCombiningMarksStayAsTheyAre) {
    const std::string names[] = {"\xD7\xA9\xD7\x9C\xD7\x95\xD7\x9D \xD7\x93",
                                 "\xD9\x85\xD8\xB1\xD9\x8A\xD9\x85", "Zoe\xCC\x88 N\xCC\x83u\xCC\x88",
                                 "\xE9\x99\xB3"};
    for (const std::string& name : names) {
        PaperSource source = two_steps();
        source.person.name = name;
        EXPECT_NE(all_of(Paper::schedule, source).find(name), std::string::npos) << name;
    }
}

TEST(BadInput, WithoutAPrescriberThereAreLinesToSign) {
    PaperSource source = two_steps();
    source.prescriber = {};
    source.supply = some_supply(source);
    for (const Paper paper : {Paper::schedule, Paper::pharmacy, Paper::letter}) {
        const std::string all = all_of(paper, source);
        EXPECT_NE(all.find("Prescriber\n"), std::string::npos);
        EXPECT_NE(all.find("Signature\n"), std::string::npos);
    }
}

}  // namespace
}  // namespace evenfall::papers
