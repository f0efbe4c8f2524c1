// SPDX-License-Identifier: GPL-3.0-or-later
#include "casework/call.h"

#include <algorithm>

#include <gtest/gtest.h>

#include "casework/dangers.h"
#include "rules/texts.h"

namespace evenfall {
namespace {

using std::chrono::days;

const Day kToday = day_at(2026, 12, 21);
const LocalTime kNow = at_clock(kToday, {9 * 60});

Product tablet() {
    return {"clonazepam", Form::tablet, Dose::micrograms(500), Cuts::quarters, {}};
}

class Call : public testing::Test {
  protected:
    void SetUp() override {
        RegimenRecorded regimen;
        regimen.regimen = {kToday - days(60),
                           {{{{8 * 60}, "clonazepam", Dose::milligrams(1), "", ""},
                             {{21 * 60}, "clonazepam", Dose::milligrams(1), "", ""}}}};
        record_.regimens.push_back({"r1", {}, regimen});
        record_.products = {"q1", {}, ProductsChosen{{tablet()}}};
        record_.check_ins.push_back(
            {"c1", {}, CheckIn{at_clock(kToday - days(4), {600}), {{"work", "3"}}, ""}});
        record_.symptoms.push_back(
            {"s1", {}, SymptomsNoted{{{at_clock(kToday - days(4), {600}), "anxiety", 4}}}});
        IntakeNoted noted;
        noted.entries.push_back(
            {at_clock(kToday - days(2), {480}), "clonazepam", Dose::milligrams(2), TakenWhy::other, ""});
        record_.intake.push_back({"i1", {}, noted});
        form_.begun = kNow;
    }
    CallAsks asks() const {
        return asks_of(record_, derive_course(record_, formulary_, rules_, kNow), rules_, kNow);
    }
    template <class T>
    const T* find(const std::vector<Change>& changes) const {
        for (const Change& change : changes)
            if (const T* found = std::get_if<T>(&change)) return found;
        return nullptr;
    }

    Formulary formulary_ = load_formulary(resources_folder() / "formulary.json").value();
    Rules rules_ = Rules::load(resources_folder() / "rules.json").value();
    Scales scales_ = load_scales(resources_folder() / "scales.json").value();
    PatientRecord record_;
    CallForm form_;
};

TEST_F(Call, AsksAboutEachDaySinceTheLastOneAndNotAboutWhatIsStillToCome) {
    const CallAsks asked = asks();
    ASSERT_EQ(asked.days.size(), 5u);
    EXPECT_EQ(asked.days.front().day, kToday - days(4));
    EXPECT_EQ(asked.days.front().doses.size(), 2u) << "the call at 10:00 told nothing of that morning";
    EXPECT_EQ(asked.days.back().day, kToday);
    EXPECT_EQ(asked.days.back().doses.size(), 1u) << "the evening's dose lies ahead";
    EXPECT_TRUE(asked.days[2].in_diary);
    EXPECT_EQ(asked.last_scores.at("anxiety"), 4);
    EXPECT_EQ(asked.last_answers.at("work"), "3");
    EXPECT_EQ(asked.dangers.size(), 13u);
}

/// Two calls in which all went as planned leave no dose that counts as missed.
TEST_F(Call, TheEveningOfADayOfACallIsAskedAboutInTheNextOne) {
    IntakeNoted told;
    told.entries.push_back(
        {at_clock(kToday - days(4), {480}), "clonazepam", Dose::milligrams(1), TakenWhy::as_planned, ""});
    record_.intake.push_back({"i2", {}, told});
    ASSERT_EQ(asks().days.front().doses.size(), 1u) << "the morning's was told in the last call";
    EXPECT_EQ(asks().days.front().doses.front().at.minutes, 21 * 60);
    EXPECT_FALSE(asks().days.front().in_diary)
        << "what the call wrote of the morning says nothing of the evening";
    told.entries.front().taken_at = at_clock(kToday - days(4), {21 * 60});
    record_.intake.push_back({"i3", {}, told});
    EXPECT_TRUE(asks().days.front().in_diary);
}

TEST_F(Call, TheMorningOfADayThatWasToldAsNotPlannedIsNotAskedAgain) {
    record_.check_ins.front().value.answers.emplace_back("not as planned on " + print_day(kToday - days(4)),
                                                         "yes");
    ASSERT_EQ(asks().days.front().doses.size(), 1u);
    EXPECT_EQ(asks().days.front().doses.front().at.minutes, 21 * 60);
}

TEST_F(Call, WritesDownOnlyDaysThatWentAsPlannedAndAreNotInTheDiaryYet) {
    const CallAsks asked = asks();
    for (const AskedDay& day : asked.days) form_.days[day.day] = CallDay::as_planned;
    form_.days[kToday - days(1)] = CallDay::not_as_planned;
    const auto changes = changes_of(form_, asked).value();
    const auto* noted = find<IntakeNoted>(changes);
    ASSERT_NE(noted, nullptr);
    EXPECT_EQ(noted->entries.size(), 5u) << "two whole days, and this morning's";
    for (const Intake& entry : noted->entries) {
        EXPECT_LE(entry.taken_at, kNow);
        EXPECT_NE(day_of(entry.taken_at), kToday - days(2));
        EXPECT_NE(day_of(entry.taken_at), kToday - days(1));
        EXPECT_EQ(entry.amount, Dose::milligrams(1));
    }
    const auto* check_in = find<CheckIn>(changes);
    ASSERT_NE(check_in, nullptr);
    EXPECT_EQ(check_in->answers.back().first, "not as planned on 2026-12-20");
}

TEST_F(Call, WhatWasNotAskedIsNotANo) {
    const CallAsks asked = asks();
    form_.answers["seizure"] = "no";
    EXPECT_EQ(unanswered(form_, asked).size(), 12u);
    const auto changes = changes_of(form_, asked).value();
    const auto* check_in = find<CheckIn>(changes);
    ASSERT_EQ(check_in->answers.size(), 1u);
    EXPECT_EQ(check_in->answers.front(), std::pair(std::string("seizure"), std::string("no")));
}

TEST_F(Call, ACountThatIsNoNumberIsNamedAndNothingIsGuessed) {
    for (const char* typed : {"12,5", "-3", "a", "99999", "1e3"}) {
        form_.counted[product_name(tablet())] = typed;
        const auto refused = changes_of(form_, asks());
        ASSERT_FALSE(refused) << typed;
        EXPECT_EQ(refused.faults().front().id, "count-not-in-pieces");
    }
    form_.counted[product_name(tablet())] = "12";
    ASSERT_EQ(find<SupplyCounted>(changes_of(form_, asks()).value())->on_hand.front().quarters, 48);
}

TEST(Count, IsAsFineAsTheProductMayBeCut) {
    Product product = tablet();
    const auto quarters = [&product](const char* typed) {
        const auto count = read_count(product, typed);
        return count ? count->quarters : -1;
    };
    product.cuts = Cuts::quarters;
    EXPECT_EQ(quarters("21.75"), 87);
    EXPECT_EQ(quarters("0.25"), 1);
    EXPECT_EQ(quarters("0.1"), -1);
    product.cuts = Cuts::halves;
    EXPECT_EQ(quarters("21.5"), 86);
    EXPECT_EQ(quarters("21.25"), -1);
    EXPECT_EQ(read_count(product, "21.25").faults().front().id, "count-not-in-pieces");
    product.cuts = Cuts::whole;
    EXPECT_EQ(quarters("21"), 84);
    EXPECT_EQ(quarters("21.5"), -1);
    EXPECT_EQ(quarters("9999"), 39'996);
    EXPECT_EQ(quarters("10000"), -1);
}

TEST(Count, IsInMillilitresForALiquid) {
    const Product liquid{"diazepam", Form::oral_solution, Dose::micrograms(1000), Cuts::whole,
                         Volume::nanolitres(100'000)};
    const auto count = read_count(liquid, "12.5");
    ASSERT_TRUE(count);
    EXPECT_EQ(count->quarters, 0);
    EXPECT_EQ(count->volume, Volume::nanolitres(12'500'000));
    EXPECT_FALSE(read_count(liquid, "12,5"));
}

TEST_F(Call, ComesBackFromItsDraftAsItWas) {
    form_.answers = {{"seizure", "yes"}, {"meals", "“soup” and bread \n é"}};
    form_.scores = {{"anxiety", 10}};
    form_.function = {{"work", 0}};
    form_.days = {{kToday, CallDay::not_as_planned}};
    form_.counted = {{"x", "12,5"}};
    form_.own_words = "Better.";
    form_.next_on = "2027-01";
    form_.dangers_written = {{"seizure", "e1"}};
    form_.counted_before = {{"x", "21"}};
    form_.beside = {{"Danger/line0", "at home"}};
    EXPECT_EQ(read_call(print_call(form_)).value(), form_);
    EXPECT_EQ(read_call("{").faults().front().id, "call-draft-unreadable");
    EXPECT_EQ(read_call("[]").faults().front().id, "call-draft-unreadable");
}

TEST_F(Call, ReadsADraftOfAnEarlierVersion) {
    const auto read = read_call(
        R"({"begun":"2026-12-20T09:00:00","answers":{"seizure":"no"},"scores":{},"function":{},"days":{},)"
        R"("counted":{},"own_words":"","next_on":"","dangers_written":{}})");
    ASSERT_TRUE(read);
    EXPECT_EQ(read->answers.at("seizure"), "no");
}

/// What holds for one moment only is asked again; what was said of days that were over stays.
TEST_F(Call, GoesOnOnALaterDayWithoutAnswersThatAreOld) {
    form_.begun = at_clock(kToday - days(2), {600});
    form_.answers = {{"seizure", "no"}, {"suicidal thoughts", "yes"}, {"sleep", "6 hours"}};
    form_.dangers_written = {{"suicidal thoughts", "e1"}};
    form_.scores = {{"anxiety", 5}};
    form_.days = {{kToday - days(3), CallDay::as_planned}, {kToday - days(2), CallDay::as_planned}};
    form_.counted = {{product_name(tablet()), "21"}};
    form_.own_words = "Tired.";
    const CallForm on = gone_on(form_, danger_questions(rules_), kNow);
    EXPECT_EQ(on.begun, kNow);
    EXPECT_EQ(unanswered(on, asks()).size(), 13u);
    EXPECT_EQ(on.answers, (std::map<std::string, std::string>{{"sleep", "6 hours"}}));
    EXPECT_TRUE(on.dangers_written.empty());
    EXPECT_EQ(on.days, (std::map<Day, CallDay>{{kToday - days(3), CallDay::as_planned}}));
    EXPECT_TRUE(on.counted.empty());
    EXPECT_EQ(on.counted_before, form_.counted);
    EXPECT_EQ(on.scores, form_.scores);
    EXPECT_EQ(on.own_words, form_.own_words);
    EXPECT_EQ(asks().days.back().day, kToday);
}

/// A danger is in the record before its call is saved: that entry tells nothing of the days.
TEST_F(Call, ADangerByItselfDoesNotEndTheDaysThatAreAskedAbout) {
    record_.check_ins.push_back(
        {"c2", {}, CheckIn{at_clock(kToday - days(1), {600}), {{"seizure", "yes"}}, ""}});
    EXPECT_EQ(asks().days.front().day, kToday - days(4));
    EXPECT_EQ(asks().last_call, kToday - days(1)) << "it was heard in a call all the same";
}

TEST_F(Call, SaysWhichDaysOfTheDiaryAreOffThePlan) {
    EXPECT_FALSE(asks().days[2].off_plan) << "2 mg at once are the 2 mg of the day";
    IntakeNoted noted;
    noted.entries.push_back(
        {at_clock(kToday - days(1), {480}), "clonazepam", Dose::milligrams(1), TakenWhy::other, ""});
    record_.intake.push_back({"i2", {}, noted});
    EXPECT_TRUE(asks().days[3].off_plan);
    EXPECT_FALSE(asks().days[1].off_plan) << "nothing is known of it";
}

TEST_F(Call, AsksWhereTheAnswersDoNotFitTheCount) {
    record_.supply.push_back({"u1", {}, SupplyCounted{kToday - days(4), {{tablet(), 4 * 40, {}}}}});
    const Course course = derive_course(record_, formulary_, rules_, kNow);
    form_.answers["run out of tablets"] = "yes";
    form_.counted[product_name(tablet())] = "20";
    const auto flags = to_be_asked(form_, asks(), record_, course, {formulary_, rules_, scales_});
    EXPECT_EQ(std::ranges::count(flags, "call-out-yet-counted", &Flag::rule), 1);
    for (const Flag& flag : flags) EXPECT_FALSE(rules_.sentence(flag).empty());
}

}  // namespace
}  // namespace evenfall
