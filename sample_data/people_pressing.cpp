// SPDX-License-Identifier: GPL-3.0-or-later
#include "sample_data/contacts.h"
#include "sample_data/diary.h"
#include "sample_data/people.h"
#include "sample_data/profile.h"
#include "sample_data/signing.h"

// People whom something presses this morning.

namespace evenfall::sample {

using std::chrono::days;

Story supply_ends_tomorrow(const Teller& teller) {
    Story story{{"HL-1024", "Anselm Quiroz-Teague", day_at(1959, 7, 7), 86.0, "en"}, ago(105)};
    Profile profile;
    profile.risks = {"weak liver"};
    profile.history = {"anxiety after a heart attack", day_at(2008, 1, 1),
                       "heart group; metoprolol; talking therapy", "None.", ""};
    profile.goals = {{"mountain hut in August"}, 7, ""};
    profile.supports = {{{"Noor Teague", "wife", "555-0170", true}}, "any time"};
    profile.cutting = {Cuts::halves, ""};
    profile.baseline = {{"anxiety", 4}, {"sleep", 3}, {"sweating", 2}};
    profile.products = {tablet("lorazepam", "1"), tablet("lorazepam", "0.5", Cuts::quarters)};
    profile.reason = "Steady; liver clinic agrees with lorazepam.";
    take_stock(story, profile, teller.draws);
    const Regimen start{{dose("lorazepam", "08:00", "1"), dose("lorazepam", "14:00", "0.5"),
                         dose("lorazepam", "22:00", "1.5")}};
    take(story, ago(900), start);
    Signing signing{usual_request("lorazepam"), start, profile.products};
    start_so_that(signing, 4, 2, teller);
    const Plan plan = sign(story, signing, teller);
    keep_diary(story, ago(56), {20, 20, 0, 1, 0, 0}, teller.draws);
    rate_symptoms(story, ago(56), {{{"anxiety", 3}, {"sleep", 3}, {"sweating", 2}}, 3, 3, 0}, teller.draws);
    call(story, ago(98), ago(4), 14, teller.draws);
    score(story, ago(98), 7, 9, 0, teller.draws);
    count_supply(story, ago(12), plan, kToday + days(1));
    plan_contact(story, kToday + days(9), "call");
    return story;
}

Story suicidal_thoughts(const Teller& teller) {
    Story story{{"HL-1030", "Yasmin Thorvald", day_at(1984, 10, 12), 60.0, "en"}, ago(84)};
    Profile profile;
    profile.history = {"panic and low mood", day_at(2017, 5, 1),
                       "sertraline 100 mg; therapy paused since the therapist moved", "None.", ""};
    profile.goals = {{"be there for the girls", "sleep"}, 5, ""};
    profile.supports = {{{"Sunniva Thorvald", "mother", "555-0171", true}},
                        "while the girls are at school, 9:00 to 13:00"};
    profile.cutting = {Cuts::quarters, ""};
    profile.baseline = {{"anxiety", 5}, {"sleep", 5}, {"restlessness", 3}};
    profile.products = {tablet("clonazepam", "0.5", Cuts::quarters), tablet("clonazepam", "1")};
    profile.reason = "Steady; mood treated; no thoughts of suicide now or before.";
    take_stock(story, profile, teller.draws);
    const Regimen start{{dose("clonazepam", "09:00", "1"), dose("clonazepam", "21:00", "1")}};
    take(story, ago(600), start);
    Signing signing{usual_request("clonazepam"), start, profile.products};
    start_so_that(signing, 3, 9, teller);
    const Plan plan = sign(story, signing, teller);
    keep_diary(story, ago(49), {25, 40, 1, 1, 0, 0}, teller.draws);
    rate_symptoms(story, ago(49), {{{"anxiety", 5}, {"sleep", 5}, {"restlessness", 3}}, 4, 4, -2},
                  teller.draws);
    call(story, ago(77), ago(10), 7, teller.draws);
    call_with_danger(story, ago(3), {"suicidal thoughts"},
                     "Since Tuesday I think they would be better off without me. I have not told my mother.");
    score(story, ago(77), 13, 14, 0, teller.draws);
    story.on(ago(3), ScaleAnswers{"PHQ-9", ago(3), {2, 3, 3, 2, 1, 3, 2, 1, 2}});
    count_supply(story, ago(10), plan, kToday + days(18));
    plan_contact(story, kToday + days(2), "call");
    return story;
}

Story seizure(const Teller& teller) {
    Story story{{"HL-1032", "Gideon Abarquez", day_at(1977, 12, 1), 83.0, "en"}, ago(70)};
    Profile profile;
    profile.history = {"panic attacks", day_at(2015, 9, 1), "citalopram 20 mg; relaxation group", "None.",
                       ""};
    profile.goals = {{"no tablets at the workbench"}, 7, ""};
    profile.supports = {{{"Ysolde Abarquez", "wife", "555-0172", true}}, "after 15:00"};
    profile.cutting = {Cuts::halves, ""};
    profile.baseline = {{"anxiety", 4}, {"sleep", 3}, {"restlessness", 3}};
    profile.products = {tablet("alprazolam", "0.5"), tablet("alprazolam", "0.25")};
    profile.reason = "Steady for five weeks; no seizure ever.";
    take_stock(story, profile, teller.draws);
    const Regimen start{{dose("alprazolam", "08:00", "0.5"), dose("alprazolam", "14:00", "0.5"),
                         dose("alprazolam", "22:00", "0.75")}};
    take(story, ago(500), start);
    Signing signing{usual_request("alprazolam"), start, profile.products};
    signing.until = ago(10);
    start_so_that(signing, 2, 7, teller);
    const Plan plan = sign(story, signing, teller);
    keep_diary(story, ago(42), {30, 30, 2, 2, 0, 0}, teller.draws);
    rate_symptoms(story, ago(42), {{{"anxiety", 4}, {"sleep", 3}, {"restlessness", 3}}, 2, 4, 0},
                  teller.draws);
    call(story, ago(63), ago(14), 7, teller.draws);
    call_with_danger(story, ago(3), {"seizure"},
                     "His wife: on Thursday night he shook all over for a minute. They did not go anywhere.");
    score(story, ago(63), 8, 12, 0, teller.draws);
    count_supply(story, ago(7), plan, kToday + days(17));
    plan_contact(story, kToday + days(4), "call");
    return story;
}

Story step_due(const Teller& teller) {
    Story story{{"HL-1027", "Henrike Vanterpool", day_at(1972, 3, 3), 75.0, "en"}, ago(90)};
    Profile profile;
    profile.history = {"back pain and worry", day_at(2014, 1, 1),
                       "physiotherapy; amitriptyline 10 mg at night", "None.", ""};
    profile.goals = {{"dig the garden over"}, 7, ""};
    profile.supports = {{{"Dirk Vanterpool", "husband", "555-0173", true}}, "from 8:00"};
    profile.cutting = {Cuts::halves, ""};
    profile.baseline = {{"anxiety", 3}, {"sleep", 3}, {"muscle tension", 5}};
    profile.products = {tablet("diazepam", "5"), tablet("diazepam", "2")};
    profile.reason = "Steady; pain treated.";
    take_stock(story, profile, teller.draws);
    const Regimen start{{dose("diazepam", "08:00", "5"), dose("diazepam", "21:00", "7")}};
    take(story, ago(900), start);
    Signing signing{usual_request("diazepam"), start, profile.products};
    signing.until = ago(30);
    start_so_that(signing, 3, 3, teller);
    Plan plan = sign(story, signing, teller);
    keep_diary(story, ago(56), {20, 20, 0, 0, 0, 0}, teller.draws);
    rate_symptoms(story, ago(56), {{{"anxiety", 3}, {"sleep", 2}, {"muscle tension", 4}}, 7, 2, 1},
                  teller.draws);
    call(story, ago(84), ago(6), 14, teller.draws);
    score(story, ago(84), 6, 7, 0, teller.draws);
    // The unsigned steps have not begun: the last signed dose goes on through today.
    for (Step& step : plan.steps)
        if (step.status == StepStatus::outlook) step.starts += days(4);
    count_supply(story, ago(14), plan, kToday + days(23));
    plan_contact(story, kToday + days(1), "visit");
    return story;
}

Story contact_overdue(const Teller& teller) {
    Story story{{"HL-1028", "Joaquín Merriwether-Paz", day_at(1980, 5, 21), 92.0, "es"}, ago(98)};
    Profile profile;
    profile.risks = {"lives alone"};
    profile.history = {"anxiety since moving country", day_at(2018, 2, 1),
                       "escitalopram 10 mg; group in Spanish", "None.", ""};
    profile.goals = {{"language certificate", "visit home"}, 6, ""};
    profile.supports = {{{"Itziar Paz", "aunt", "555-0174", true}},
                        "Spanish preferred; weekdays after 17:00"};
    profile.cutting = {Cuts::quarters, ""};
    profile.baseline = {{"anxiety", 5}, {"sleep", 4}, {"restlessness", 3}};
    profile.products = {tablet("lorazepam", "0.5", Cuts::quarters), tablet("lorazepam", "1")};
    profile.reason = "Steady; treated; calls in Spanish arranged.";
    take_stock(story, profile, teller.draws);
    const Regimen start{{dose("lorazepam", "08:00", "1"), dose("lorazepam", "16:00", "0.5"),
                         dose("lorazepam", "23:00", "1")}};
    take(story, ago(700), start);
    Signing signing{usual_request("lorazepam"), start, profile.products};
    start_so_that(signing, 4, 4, teller);
    const Plan plan = sign(story, signing, teller);
    keep_diary(story, ago(49), {35, 60, 2, 2, 0, 0}, teller.draws);
    rate_symptoms(story, ago(49), {{{"anxiety", 5}, {"sleep", 4}, {"restlessness", 3}}, 3, 3, 1},
                  teller.draws);
    call(story, ago(91), ago(20), 14, teller.draws);
    score(story, ago(91), 9, 11, 0, teller.draws);
    count_supply(story, ago(20), plan, kToday + days(12));
    plan_contact(story, ago(5), "call");
    story.at(at_clock(ago(4), {17 * 60 + 10}),
             ContactAttempted{at_clock(ago(4), {17 * 60 + 10}), "555-0128", "rang out"});
    return story;
}

}  // namespace evenfall::sample
