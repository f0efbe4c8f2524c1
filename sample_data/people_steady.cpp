// SPDX-License-Identifier: GPL-3.0-or-later
#include "sample_data/contacts.h"
#include "sample_data/diary.h"
#include "sample_data/people.h"
#include "sample_data/profile.h"
#include "sample_data/signing.h"

// People whose taper runs.

namespace evenfall::sample {

Story steady_on_diazepam(const Teller& teller) {
    Story story{{"HL-1007", "Imre Castellane", day_at(1968, 3, 14), 82.0, "en"}, ago(210)};
    Profile profile;
    profile.risks = {"driving work"};
    profile.history = {"panic attacks after a road accident", day_at(2014, 5, 1),
                       "escitalopram 10 mg in the morning; weekly talking therapy since spring",
                       "2019, stopped within a month: could not work",
                       "Crossed over from lorazepam last winter."};
    profile.goals = {
        {"drive the night shift without fear", "feel music again"}, 7, "Asks for written steps."};
    profile.supports = {{{"Dorka Castellane", "wife", "555-0152", true}}, "weekdays after 16:00"};
    profile.cutting = {Cuts::quarters, ""};
    profile.baseline = {{"anxiety", 4}, {"sleep", 3}, {"muscle tension", 4}, {"restlessness", 2}};
    profile.products = {tablet("diazepam", "5"), tablet("diazepam", "2")};
    profile.reason =
        "Steady dosing, panic treated, wife at home. Work driving paused for two days after each cut.";
    take_stock(story, profile, teller.draws);
    const Regimen start{{dose("diazepam", "08:00", "6", "with water", "mornings at the depot"),
                         dose("diazepam", "21:00", "8", "with water", "sleep")}};
    take(story, ago(230), start);
    Signing signing{usual_request("diazepam"), start, profile.products};
    start_so_that(signing, 6, 7, teller);
    const Plan plan = sign(story, signing, teller);
    keep_diary(story, ago(91), {25, 60, 0, 1, 0, 0}, teller.draws);
    rate_symptoms(story, ago(91),
                  {{{"anxiety", 3}, {"sleep", 2}, {"muscle tension", 3}, {"restlessness", 1}}, 7, 2, 1},
                  teller.draws);
    call(story, ago(196), ago(4), 14, teller.draws);
    score(story, ago(200), 8, 9, 0, teller.draws);
    count_supply(story, ago(7), plan, kToday + std::chrono::days(24));
    plan_contact(story, kToday + std::chrono::days(7), "call");
    return story;
}

Story worked_clonazepam(const Teller& teller) {
    Story story{{"HL-1031", "Ravenna Dlamini-Koss", day_at(1979, 8, 2), 66.0, "en"}, ago(56)};
    Profile profile;
    profile.history = {"anxiety with sleeplessness after a bereavement", day_at(2016, 11, 1),
                       "sertraline 50 mg; grief counselling every second week", "None.", ""};
    profile.goals = {{"clear head for the accounts", "sleep without a tablet"}, 8, ""};
    profile.supports = {{{"Theo Koss", "brother", "555-0153", true}}, "any morning"};
    profile.cutting = {Cuts::quarters, ""};
    profile.baseline = {{"anxiety", 5}, {"sleep", 5}, {"muscle tension", 2}, {"noise sensitivity", 2}};
    profile.products = {tablet("clonazepam", "0.5", Cuts::quarters),
                        product("clonazepam", Form::orally_disintegrating_tablet, "0.125")};
    profile.reason = "Steady dosing for six weeks; nothing that speaks against tapering at home.";
    take_stock(story, profile, teller.draws);
    const Regimen start{{dose("clonazepam", "08:00", "1", "swallowed", "the working day"),
                         dose("clonazepam", "21:00", "1.5", "swallowed", "sleep")}};
    take(story, ago(400), start);
    Signing signing{usual_request("clonazepam"), start, profile.products};
    signing.request.start = ago(10);
    const Plan plan = sign(story, signing, teller);
    keep_diary(story, ago(48), {15, 30, 0, 0, 0, 0}, teller.draws);
    rate_symptoms(story, ago(48),
                  {{{"anxiety", 4}, {"sleep", 4}, {"muscle tension", 2}, {"noise sensitivity", 1}}, 4, 3, 0},
                  teller.draws);
    call(story, ago(49), ago(3), 7, teller.draws);
    score(story, ago(50), 9, 11, 0, teller.draws);
    count_supply(story, ago(13), plan, kToday + std::chrono::days(19));
    plan_contact(story, kToday + std::chrono::days(4), "call");
    return story;
}

Story on_a_liquid(const Teller& teller) {
    Story story{{"HL-1018", "Leocadia Brightwater", day_at(1957, 12, 9), 59.0, "en"}, ago(240)};
    Profile profile;
    profile.risks = {"older age", "lives alone"};
    profile.history = {"muscle spasm after back surgery, then sleep", day_at(2009, 2, 1),
                       "physiotherapy twice a week; heat; no other medicine for it",
                       "Two, both with tablets only.",
                       "Shaky hands: cannot quarter a tablet, reads a syringe well."};
    profile.goals = {{"paint with a steady hand", "walk to the market alone"}, 6, ""};
    profile.supports = {{{"Paloma Reyes-Ito", "neighbour", "555-0154", true}},
                        "after 10:00, not on Thursdays"};
    profile.cutting = {Cuts::whole, "reads the oral syringe herself"};
    profile.baseline = {{"anxiety", 2}, {"sleep", 5}, {"muscle tension", 6}, {"sweating", 1}};
    profile.products = {solution("diazepam", "1")};
    profile.reason = "Liquid makes small even steps; neighbour looks in every evening.";
    take_stock(story, profile, teller.draws);
    const Regimen start{{dose("diazepam", "09:00", "3", "from the oral syringe", "stiffness"),
                         dose("diazepam", "21:30", "6", "from the oral syringe", "sleep")}};
    take(story, ago(300), start);
    Signing signing{usual_request("diazepam"), start, profile.products};
    start_so_that(signing, 9, 7, teller);
    const Plan plan = sign(story, signing, teller);
    keep_diary(story, ago(70), {20, 0, 1, 0, 0, 0}, teller.draws);
    rate_symptoms(story, ago(70),
                  {{{"anxiety", 2}, {"sleep", 4}, {"muscle tension", 5}, {"sweating", 1}}, 7, 2, 1},
                  teller.draws);
    call(story, ago(224), ago(6), 14, teller.draws);
    score(story, ago(224), 7, 6, 0, teller.draws);
    count_supply(story, ago(6), plan, kToday + std::chrono::days(30));
    plan_contact(story, kToday + std::chrono::days(8), "call");
    return story;
}

Story on_two_agents(const Teller& teller) {
    Story story{{"HL-1022", "Nadezhda Okpara", day_at(1974, 6, 27), 71.0, "en"}, ago(120)};
    Profile profile;
    profile.risks = {"other sedative"};
    profile.risk_note = "Two agents of the same kind: clonazepam first, temazepam stays until it is done.";
    profile.history = {"generalized anxiety; sleep", day_at(2012, 1, 1),
                       "venlafaxine 150 mg; CBT for insomnia booked for January",
                       "2021: both at once, went badly.", ""};
    profile.goals = {{"one thing at a time", "no hangover in the mornings"}, 6, ""};
    profile.supports = {
        {{"Idris Okpara", "husband", "555-0155", true}, {"Maren Vogt-Sala", "friend", "555-0156", false}},
        "evenings until 20:00"};
    profile.cutting = {Cuts::quarters, "husband, with a tablet cutter"};
    profile.others = {{{"venlafaxine", "150 mg in the morning"}}, false};
    profile.baseline = {{"anxiety", 5}, {"sleep", 6}, {"restlessness", 3}, {"noise sensitivity", 3}};
    profile.products = {tablet("clonazepam", "0.5", Cuts::quarters),
                        product("temazepam", Form::capsule, "15")};
    profile.reason = "Both agents steady. The daytime one first; the night one is not touched until then.";
    take_stock(story, profile, teller.draws);
    const Regimen start{{dose("clonazepam", "08:00", "1", "", "the day"),
                         dose("clonazepam", "20:00", "1", "", "the evening"),
                         dose("temazepam", "22:30", "15", "", "sleep")}};
    take(story, ago(365), start);
    Signing signing{usual_request("clonazepam"), start, profile.products};
    start_so_that(signing, 4, 9, teller);
    const Plan plan = sign(story, signing, teller);
    keep_diary(story, ago(77), {25, 45, 1, 1, 0, 0}, teller.draws);
    rate_symptoms(story, ago(77),
                  {{{"anxiety", 4}, {"sleep", 5}, {"restlessness", 2}, {"noise sensitivity", 2}}, 4, 3, 1},
                  teller.draws);
    call(story, ago(112), ago(5), 14, teller.draws);
    score(story, ago(110), 11, 12, 0, teller.draws);
    count_supply(story, ago(9), plan, kToday + std::chrono::days(20));
    plan_contact(story, kToday + std::chrono::days(2), "call");
    return story;
}

Story older_with_falls(const Teller& teller) {
    Story story{{"HL-1003", "Eudora Pellham", day_at(1948, 4, 30), 54.0, "en"}, ago(150)};
    Profile profile;
    profile.risks = {"older age", "falls", "lives alone"};
    profile.risk_note = "Two falls since August, one at night on the way to the bathroom.";
    profile.history = {"sleep since widowhood", day_at(2004, 9, 1),
                       "sleep habits; bright lamp at breakfast; no other tablet",
                       "Never tried: nobody had asked.", ""};
    profile.goals = {
        {"no more falls", "hold the new great-grandchild standing up"}, 5, "Fears bad nights most."};
    profile.supports = {{{"Constance Pellham-Ruiz", "daughter", "555-0157", true}},
                        "mornings; hard of hearing, let it ring"};
    profile.cutting = {Cuts::quarters, "daughter, fills the weekly box on Sundays"};
    profile.baseline = {{"anxiety", 2}, {"sleep", 6}, {"restlessness", 2}, {"sweating", 1}};
    profile.products = {tablet("lorazepam", "0.5", Cuts::quarters)};
    profile.reason = "Falls weigh for tapering now; slowly, with the daughter filling the box.";
    take_stock(story, profile, teller.draws);
    const Regimen start{{dose("lorazepam", "13:00", "0.5", "with lunch", "the afternoon"),
                         dose("lorazepam", "21:00", "1.5", "with water", "sleep")}};
    take(story, ago(900), start);
    Signing signing{usual_request("lorazepam"), start, profile.products};
    signing.request.days_per_step = 21;
    start_so_that(signing, 3, 11, teller);
    const Plan plan = sign(story, signing, teller);
    keep_diary(story, ago(84), {15, 0, 0, 0, 0, 0}, teller.draws);
    rate_symptoms(story, ago(84),
                  {{{"anxiety", 2}, {"sleep", 5}, {"restlessness", 2}, {"sweating", 1}}, 3, 3, 1},
                  teller.draws);
    call(story, ago(140), ago(2), 7, teller.draws);
    score(story, ago(140), 7, 5, 0, teller.draws);
    count_supply(story, ago(2), plan, kToday + std::chrono::days(28));
    plan_contact(story, kToday + std::chrono::days(5), "call");
    return story;
}

Story with_an_opioid(const Teller& teller) {
    Story story{{"HL-1026", "Rufino Hallgarth", day_at(1962, 10, 18), 94.0, "en"}, ago(170)};
    Profile profile;
    profile.risks = {"opioid", "breathing trouble"};
    profile.risk_note =
        "Oxycodone for the hip; sleep apnoea, mask used on most nights. Naloxone explained to the partner.";
    profile.history = {"anxiety and spasm after a fall from a ladder", day_at(2013, 7, 1),
                       "duloxetine 60 mg; pain group; hip replacement planned",
                       "2018: stopped when the ward changed shift.", ""};
    profile.goals = {{"be fit for the hip operation", "breathe well at night"}, 6, ""};
    profile.supports = {{{"Bastien Orlow", "partner", "555-0158", true}}, "weekdays 12:00 to 13:00"};
    profile.cutting = {Cuts::halves, ""};
    profile.others = {
        {{"oxycodone", "10 mg twice a day, pain clinic"}, {"duloxetine", "60 mg in the morning"}}, true};
    profile.baseline = {{"anxiety", 4}, {"sleep", 5}, {"muscle tension", 5}, {"sweating", 2}};
    profile.products = {tablet("diazepam", "5"), tablet("diazepam", "2")};
    profile.reason =
        "With an opioid the taper matters more. Opioid stays the same meanwhile; naloxone at home.";
    take_stock(story, profile, teller.draws);
    const Regimen start{{dose("diazepam", "08:00", "5", "", "the day"),
                         dose("diazepam", "14:00", "5", "", "spasm"),
                         dose("diazepam", "22:00", "10", "", "sleep")}};
    take(story, ago(700), start);
    Signing signing{usual_request("diazepam"), start, profile.products};
    start_so_that(signing, 5, 3, teller);
    const Plan plan = sign(story, signing, teller);
    keep_diary(story, ago(63), {30, 60, 1, 2, 0, 0}, teller.draws);
    rate_symptoms(story, ago(63),
                  {{{"anxiety", 4}, {"sleep", 4}, {"muscle tension", 5}, {"sweating", 2}}, 7, 2, 1},
                  teller.draws);
    call(story, ago(160), ago(3), 14, teller.draws);
    score(story, ago(160), 10, 9, 0, teller.draws);
    count_supply(story, ago(3), plan, kToday + std::chrono::days(26));
    plan_contact(story, kToday + std::chrono::days(11), "visit");
    return story;
}

}  // namespace evenfall::sample
