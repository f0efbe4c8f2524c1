// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>

#include <gtest/gtest.h>

#include "papers/caseload.h"
#include "papers/papers.h"
#include "papers/sample.h"

namespace evenfall::papers {
namespace {

const Caseload& caseload() {
    static const Caseload loaded;
    return loaded;
}

// HL-1022 takes temazepam 15 mg at bedtime beside the clonazepam that is tapered; 15 mg capsules are hers.
TEST(PaperSource, MakesTheDosesOfOtherAgentsOfTheProductsOfThePerson) {
    const PaperSource& source = caseload().person("HL-1022");
    int found = 0;
    for (const Step& step : source.plan->steps)
        for (const PlannedDose& dose : step.doses) {
            if (dose.drug != "temazepam") continue;
            ++found;
            ASSERT_EQ(dose.pieces.size(), 1u);
            EXPECT_EQ(dose.pieces.front().product.form, Form::capsule);
            EXPECT_EQ(amount_of(dose.pieces), dose.amount);
        }
    EXPECT_GT(found, 0);
    const auto document = make_paper(Paper::pharmacy, source, shipped_texts("en"));
    ASSERT_TRUE(document.ok());
    const std::string all = plain_text(*document);
    EXPECT_NE(all.find("1 capsule of 15 mg = 15 mg"), std::string::npos) << all;
    EXPECT_EQ(all.find("not on our record"), std::string::npos) << all;
}

TEST(PaperSource, KnowsWhatIsTakenAfterAPlanHasEnded) {
    const PaperSource& off = caseload().person("HL-0994");
    EXPECT_FALSE(off.plan.has_value());
    EXPECT_TRUE(off.regimen.doses.empty());
    EXPECT_EQ(off.agent, "lorazepam");
    const PaperSource& kept = caseload().person("HL-0998");
    EXPECT_EQ(daily_amount(kept.regimen, "diazepam"), Dose::milligrams(4));
    EXPECT_TRUE(caseload().person("HL-1036").as_needed);
    EXPECT_EQ(caseload().person("HL-1032").reported.front().rule, "red-flag-seizure");
}

TEST(PaperSource, LeavesThePiecesThatWereSigned) {
    for (const PaperSource& source : caseload().people()) {
        if (!source.plan) continue;
        for (const Step& step : source.plan->steps)
            for (const PlannedDose& dose : step.doses)
                if (dose.drug == source.plan->request.drug) {
                    EXPECT_EQ(amount_of(dose.pieces), dose.amount);
                }
    }
}

TEST(PaperSource, KnowsThePiecesOfTheStartingRegimenAndWhenTheHomeWasCounted) {
    const PaperSource& source = caseload().person("HL-1007");
    ASSERT_EQ(source.before.size(), source.plan->start.doses.size());
    for (const PlannedDose& dose : source.before) EXPECT_EQ(amount_of(dose.pieces), dose.amount);
    ASSERT_TRUE(source.counted_on.has_value());
    EXPECT_LE(*source.counted_on, source.as_of);
    EXPECT_FALSE(source.on_hand.empty());
    const PaperSource& uncounted = caseload().person("HL-1034");
    EXPECT_FALSE(uncounted.counted_on.has_value());
}

}  // namespace
}  // namespace evenfall::papers
