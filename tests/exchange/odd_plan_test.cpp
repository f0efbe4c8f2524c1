// SPDX-License-Identifier: GPL-3.0-or-later
#include <gtest/gtest.h>

#include "exchange/compute.h"
#include "exchange/support.h"
#include "rules/texts.h"

// What a prescriber may ask for by mistake: each is said at its field, in words, with what to do.

namespace evenfall {
namespace {

using namespace testing_case;

struct Parts {
    std::string regimen =
        R"([{"drug":"lorazepam","at":"08:00","amount_mg":"1"},{"drug":"lorazepam","at":"22:00","amount_mg":"1"}])";
    std::string products = R"([{"drug":"lorazepam","form":"tablet","strength_mg":"0.5","cuts":"halves"}])";
    std::string plan = R"({"drug":"lorazepam","start":"2027-01-04"})";
    std::string more;

    std::string text() const {
        return R"({"case":1,"as_of":"2026-12-20T09:00","regimen":)" + regimen + R"(,"products":)" + products +
               R"(,"plan":)" + plan + more + "}";
    }
};

Result<Answered> computed(Kind kind, const Parts& parts) {
    auto given = read(parts.text());
    if (!given) return given.faults();
    const Formulary laid = with_case(formulary(), *given);
    return compute(kind, {*given, laid, rules()});
}

/// The sentence of the first fault: "place: what was wrong".
std::string said(const Result<Answered>& result) {
    static const Texts texts = Texts::load(resources_folder(), "en").value();
    if (result) return "nothing";
    EXPECT_TRUE(texts.has(result.faults().front().id)) << result.faults().front().id;
    return texts.text(result.faults().front());
}

bool holds(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

TEST(OddPlan, TargetsAndCapsThatAreNoStepAreSaidAtTheirField) {
    for (const char* percent : {"0", "100", "150"}) {
        Parts parts;
        parts.plan = std::string(R"({"drug":"lorazepam","target_percent":")") + percent + "\"}";
        EXPECT_TRUE(holds(said(computed(Kind::taper, parts)), "plan.target_percent")) << percent;
        parts.plan = std::string(R"({"drug":"lorazepam","cap_percent":")") + percent + "\"}";
        EXPECT_TRUE(holds(said(computed(Kind::taper, parts)), "plan.cap_percent")) << percent;
    }
}

TEST(OddPlan, IntervalsOfNothingAndOfAThousandDaysAreSaidAtTheirField) {
    for (const char* days : {"0", "1000", "-3"}) {
        Parts parts;
        parts.plan = std::string(R"({"drug":"lorazepam","days_per_step":)") + days + "}";
        EXPECT_TRUE(holds(said(computed(Kind::taper, parts)), "plan.days_per_step")) << days;
    }
}

TEST(OddPlan, ADoseThatCannotBeMadeNamesTheNearestAndWhatWouldMakeIt) {
    Parts parts;
    parts.regimen = R"([{"drug":"lorazepam","at":"08:00","amount_mg":"1.1"}])";
    const std::string sentence = said(computed(Kind::taper, parts));
    EXPECT_TRUE(holds(sentence, "1.1 mg at 08:00"));
    EXPECT_TRUE(holds(sentence, "1 mg, 1.25 mg"));
    EXPECT_TRUE(holds(sentence, "0.05 mg"));
}

TEST(OddPlan, DoseTimesTwiceAreSaid) {
    Parts parts;
    parts.regimen =
        R"([{"drug":"lorazepam","at":"08:00","amount_mg":"1"},{"drug":"lorazepam","at":"08:00","amount_mg":"1"}])";
    const std::string sentence = said(computed(Kind::taper, parts));
    EXPECT_TRUE(holds(sentence, "already has a dose at this time")) << sentence;
    EXPECT_TRUE(holds(sentence, "regimen")) << sentence;
}

TEST(OddPlan, ACapBelowTheSmallestCutIsNoFaultButIsSaidOnTheFirstStep) {
    Parts parts;
    parts.plan = R"({"drug":"lorazepam","start":"2027-01-04","target_percent":"1","cap_percent":"1"})";
    const auto result = computed(Kind::taper, parts);
    ASSERT_TRUE(result);
    EXPECT_TRUE(holds((*result)["steps"][0]["flags"].dump(), "cap-cannot-be-kept"));
    EXPECT_EQ((*result)["floor"]["daily_mg"], "2");
}

TEST(OddPlan, AStartInThePastIsSaid) {
    Parts parts;
    parts.plan = R"({"drug":"lorazepam","start":"2026-12-19"})";
    EXPECT_TRUE(holds((*computed(Kind::taper, parts))["flags"].dump(), "start-in-past"));
    parts.plan = R"({"drug":"lorazepam","start":"2026-12-20"})";
    EXPECT_FALSE(holds((*computed(Kind::taper, parts))["flags"].dump(), "start-in-past"));
}

TEST(OddPlan, EquivalencesUpsideDownAreSaidAtTheirAgent) {
    Parts parts;
    parts.more =
        R"(,"equivalence":{"lorazepam":{"usual_mg":"1","least_diazepam_mg":"0.5","most_diazepam_mg":"2"}})";
    EXPECT_TRUE(holds(said(computed(Kind::taper, parts)), "equivalence.lorazepam"));
}

TEST(OddPlan, APriceThatIsNoNumberIsSaidAtItsProduct) {
    Parts parts;
    parts.products =
        R"([{"drug":"lorazepam","form":"tablet","strength_mg":"0.5","cuts":"halves","price":"$2"}])";
    EXPECT_TRUE(holds(said(computed(Kind::taper, parts)), "products[0].price"));
}

TEST(Sequence, PlansThatFollowAndTheirCostAreInTheAnswers) {
    Parts parts;
    parts.regimen =
        R"([{"drug":"lorazepam","at":"08:00","amount_mg":"1"},{"drug":"temazepam","at":"22:00","amount_mg":"15"}])";
    parts.products =
        R"([{"drug":"lorazepam","form":"tablet","strength_mg":"0.5","cuts":"halves","price":"0.1"},
            {"drug":"temazepam","form":"capsule","strength_mg":"7.5","price":"0.25"}])";
    parts.plan = R"({"drug":"lorazepam","start":"2027-01-04","then":[{"drug":"temazepam"}]})";
    parts.more = R"(,"supply":{"from":"2027-01-04","to":"2027-02-01","days_per_fill":28,"reserve_days":2})";
    const auto taper = computed(Kind::taper, parts);
    ASSERT_TRUE(taper) << said(taper);
    ASSERT_EQ((*taper)["then"].size(), 1U);
    EXPECT_EQ((*taper)["then"][0]["drug"], "temazepam");
    EXPECT_GT((*taper)["then"][0]["steps"][0]["starts"], (*taper)["steps"].back()["starts"]);
    const auto supply = computed(Kind::supply, parts);
    ASSERT_TRUE(supply) << said(supply);
    const auto& fill = (*supply)["fills"][0];
    EXPECT_EQ(fill["items"].size(), 2U);
    EXPECT_EQ(fill["cost"], "21.00");  // 60 tablets and 60 capsules
    parts.plan = R"({"drug":"lorazepam","then":[{"drug":"temazepam","days_per_step":400}]})";
    EXPECT_TRUE(holds(said(computed(Kind::taper, parts)), "plan.then[0].days_per_step"));
}

TEST(OddPlan, TheOrderOfACrossoverIsTheClinicians) {
    Parts parts;
    parts.products = R"([{"drug":"lorazepam","form":"tablet","strength_mg":"1","cuts":"halves"},
                         {"drug":"diazepam","form":"tablet","strength_mg":"5","cuts":"halves"}])";
    parts.more =
        R"(,"other_medicines":["omeprazole"],"crossover":{"from":"lorazepam","to":"diazepam","start":"2027-01-04","order":["08:00"]})";
    const auto crossed = computed(Kind::crossover, parts);
    ASSERT_TRUE(crossed) << said(crossed);
    for (const auto& plan : (*crossed)["plans"])
        EXPECT_TRUE(plan["stages"][0]["doses"][0]["drug"] == "diazepam" ||
                    plan["stages"][0]["doses"][1]["drug"] == "diazepam");
    EXPECT_TRUE(holds((*crossed)["plans"][0]["stages"][0]["flags"].dump(), "omeprazole"));
    EXPECT_EQ((*crossed)["plans"][0]["stages"][0]["diazepam_mg"]["usual"], "10");
    EXPECT_GT((*crossed)["other_agents"].size(), 5U);
    parts.more = R"(,"crossover":{"from":"lorazepam","to":"diazepam","order":["25:00"]})";
    EXPECT_TRUE(holds(said(computed(Kind::crossover, parts)), "crossover.order[0]"));
}

}  // namespace
}  // namespace evenfall
