// SPDX-License-Identifier: GPL-3.0-or-later
#include "sample_data/contacts.h"
#include "sample_data/diary.h"
#include "sample_data/people.h"
#include "sample_data/profile.h"
#include "sample_data/signing.h"

// People on hold, near the end, or at it.

namespace evenfall::sample {

using std::chrono::days;

namespace {

/// Near the end each cut that can be made is a large share of what is left.
void agree_to_large_shares(Story& story) {
    const std::string reason =
        "No smaller piece is to be had; a longer stay after each cut is agreed and understood.";
    for (const char* rule : {"cut-over-cap", "fall-over-two-weeks", "dose-time-dropped"})
        story.overrule(rule, reason);
}

}  // namespace

Story on_hold(const Teller& teller) {
    Story story{{"HL-1020", "Bertrand Oyelade", day_at(1963, 2, 25), 90.0, "en"}, ago(110)};
    Profile profile;
    profile.history = {"anxiety with tinnitus", day_at(2011, 3, 1), "mirtazapine 15 mg; hearing clinic",
                       "2020, too fast.", ""};
    profile.goals = {{"sing in the choir", "hear the doorbell without a start"}, 5, ""};
    profile.supports = {{{"Adaeze Oyelade", "wife", "555-0166", true}}, "not before 10:00"};
    profile.cutting = {Cuts::quarters, ""};
    profile.baseline = {{"anxiety", 4}, {"sleep", 3}, {"noise sensitivity", 5}, {"muscle tension", 3}};
    profile.products = {tablet("clonazepam", "0.5", Cuts::quarters)};
    profile.reason = "Steady; hearing clinic agrees.";
    take_stock(story, profile, teller.draws);
    const Regimen start{
        {dose("clonazepam", "09:00", "1", "", "the day"), dose("clonazepam", "21:00", "1", "", "sleep")}};
    take(story, ago(700), start);
    Signing signing{usual_request("clonazepam"), start, profile.products};
    signing.until = ago(12);
    start_so_that(signing, 3, 15, teller);
    const Plan plan = sign(story, signing, teller);
    hold(story, ago(11), kToday + days(5),
         "Noise sensitivity and broken sleep after the third cut; stay until both have eased.");
    keep_diary(story, ago(63), {20, 40, 0, 1, 0, 0}, teller.draws);
    rate_symptoms(story, ago(63),
                  {{{"anxiety", 4}, {"sleep", 3}, {"noise sensitivity", 4}, {"muscle tension", 3}}, 5, 4, 0},
                  teller.draws);
    call(story, ago(105), ago(4), 7, teller.draws);
    score(story, ago(105), 9, 11, 0, teller.draws);
    count_supply(story, ago(11), plan, kToday + days(21));
    plan_contact(story, kToday + days(5), "call");
    return story;
}

Story near_the_floor(const Teller& teller) {
    Story story{{"HL-1011", "Wilhelmina Tso-Parker", day_at(1966, 11, 3), 57.0, "en"}, ago(260)};
    agree_to_large_shares(story);
    Profile profile;
    profile.history = {"anxiety at the change of life", day_at(2010, 5, 1),
                       "hormone treatment; yoga; sertraline 25 mg", "2022", ""};
    profile.goals = {{"finish by spring", "remember names again"}, 8, ""};
    profile.supports = {{{"Blythe Parker", "daughter", "555-0167", true}}, "weekdays before noon"};
    profile.cutting = {Cuts::quarters, "pharmacist cuts and packs"};
    profile.baseline = {{"anxiety", 4}, {"sleep", 4}, {"sweating", 4}, {"muscle tension", 2}};
    profile.products = {tablet("clonazepam", "0.5", Cuts::quarters)};
    profile.reason = "Steady, treated, wishes it herself.";
    take_stock(story, profile, teller.draws);
    const Regimen start{{dose("clonazepam", "09:00", "0.5"), dose("clonazepam", "21:00", "0.5")}};
    take(story, ago(1100), start);
    Signing signing{usual_request("clonazepam"), start, profile.products};
    start_so_that(signing, 5, 14, teller);
    const Plan plan = sign(story, signing, teller);
    keep_diary(story, ago(70), {20, 30, 0, 0, 0, 0}, teller.draws);
    rate_symptoms(story, ago(70),
                  {{{"anxiety", 3}, {"sleep", 3}, {"sweating", 3}, {"muscle tension", 2}}, 4, 1, 0},
                  teller.draws);
    call(story, ago(252), ago(4), 14, teller.draws);
    score(story, ago(252), 6, 8, 0, teller.draws);
    count_supply(story, ago(4), plan, kToday + days(33));
    plan_contact(story, kToday + days(10), "call");
    return story;
}

Story finished(const Teller& teller) {
    Story story{{"HL-0994", "Lucian Farrowdale", day_at(1971, 1, 30), 79.0, "en"}, ago(440)};
    agree_to_large_shares(story);
    story.overrule("to-off", "Last piece taken for four weeks without trouble; calls go on for six months.");
    Profile profile;
    profile.history = {"sleep after a divorce", day_at(2016, 2, 1), "CBT for insomnia, finished", "None.",
                       ""};
    profile.goals = {{"be done with it"}, 9, "Reached."};
    profile.supports = {{{"Gwendal Farrowdale", "brother", "555-0168", true}}, "evenings"};
    profile.cutting = {Cuts::quarters, ""};
    profile.baseline = {{"anxiety", 3}, {"sleep", 5}, {"restlessness", 2}};
    profile.products = {tablet("lorazepam", "0.5", Cuts::quarters)};
    profile.reason = "Steady, treated.";
    take_stock(story, profile, teller.draws);
    const Regimen start{{dose("lorazepam", "21:30", "1", "", "sleep")}};
    take(story, ago(1200), start);
    Signing signing{usual_request("lorazepam"), start, profile.products};
    signing.off_too = true;
    start_so_that(signing, 0, 42, teller);
    sign(story, signing, teller);
    story.on(ago(38), PlanEnded{ago(38), "OFF reached without trouble; calls go on for six months."});
    story.on(ago(34), TabletsReturned{ago(34), {{profile.products.front(), 4 * 9, {}}}, "the pharmacy"});
    keep_diary(story, ago(91), {25, 30, 0, 0, 0, 0}, teller.draws);
    rate_symptoms(story, ago(91), {{{"anxiety", 2}, {"sleep", 3}, {"restlessness", 1}}, 3, 1, 1},
                  teller.draws);
    call(story, ago(420), ago(6), 14, teller.draws);
    score(story, ago(420), 5, 5, 0, teller.draws);
    plan_contact(story, kToday + days(14), "call");
    return story;
}

Story on_maintenance(const Teller& teller) {
    Story story{{"HL-0998", "Magnus Delorme-Hu", day_at(1945, 8, 8), 73.0, "en"}, ago(330)};
    agree_to_large_shares(story);
    Profile profile;
    profile.risks = {"older age"};
    profile.history = {"spasm after a stroke", day_at(2003, 1, 1), "physiotherapy; baclofen was not borne",
                       "Twice to OFF: spasm came back.", ""};
    profile.goals = {{"walk with one stick", "a smaller dose is enough"}, 6, ""};
    profile.supports = {{{"Odile Delorme", "wife", "555-0169", true}}, "afternoons"};
    profile.cutting = {Cuts::halves, "wife"};
    profile.baseline = {{"muscle tension", 5}, {"sleep", 3}, {"anxiety", 1}};
    profile.products = {tablet("diazepam", "2"), tablet("diazepam", "5")};
    profile.reason = "Lower for the falls' sake, to a dose that keeps the leg loose.";
    take_stock(story, profile, teller.draws);
    const Regimen start{
        {dose("diazepam", "09:00", "3", "", "the leg"), dose("diazepam", "21:00", "3", "", "the leg")}};
    take(story, ago(1500), start);
    Signing signing{usual_request("diazepam"), start, profile.products};
    signing.request.end_amount = mg("4");
    start_so_that(signing, 0, 70, teller);
    const Plan plan = sign(story, signing, teller);
    story.on(ago(42),
             PlanEnded{ago(42), "Maintenance at 4 mg a day agreed; looked at again every three months."});
    keep_diary(story, ago(56), {15, 0, 0, 0, 0, 0}, teller.draws);
    rate_symptoms(story, ago(56), {{{"muscle tension", 4}, {"sleep", 2}, {"anxiety", 1}}, 0, 0, 0},
                  teller.draws);
    call(story, ago(322), ago(6), 28, teller.draws);
    call(story, ago(6), ago(6), 1, teller.draws);
    score(story, ago(322), 5, 4, 0, teller.draws);
    count_supply(story, ago(6), plan, kToday + days(40));
    plan_contact(story, kToday + days(21), "call");
    return story;
}

}  // namespace evenfall::sample
