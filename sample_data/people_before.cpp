// SPDX-License-Identifier: GPL-3.0-or-later
#include "sample_data/contacts.h"
#include "sample_data/diary.h"
#include "sample_data/people.h"
#include "sample_data/profile.h"
#include "sample_data/signing.h"

// People before a first cut.

namespace evenfall::sample {

using std::chrono::days;

Story erratic_lorazepam(const Teller& teller) {
    Story story{{"HL-1034", "Tovah Lindgren-Amaro", day_at(1982, 1, 22), 63.0, "en"}, ago(63)};
    Profile profile;
    profile.history = {"panic attacks, shift work", day_at(2018, 3, 1),
                       "none at present; on the list for CBT",
                       "Leaves doses out on good days, pays for it the day after.", ""};
    profile.goals = {{"not think of tablets all day", "stay in the job"}, 4, "Shifts change every week."};
    profile.supports = {{{"Anouk Lindgren", "sister", "555-0160", true}}, "text first; nights on duty"};
    profile.cutting = {Cuts::halves, ""};
    profile.baseline = {{"anxiety", 6}, {"sleep", 5}, {"restlessness", 5}, {"sweating", 3}};
    profile.products = {tablet("lorazepam", "1"), tablet("lorazepam", "0.5")};
    take_stock(story, profile, teller.draws);
    take(story, ago(500),
         {{dose("lorazepam", "08:00", "1", "", "getting to work"),
           dose("lorazepam", "14:00", "1", "", "the ward"), dose("lorazepam", "22:00", "1", "", "sleep")}});
    keep_diary(story, ago(63), {80, 120, 14, 14, 60, 22}, teller.draws);
    rate_symptoms(story, ago(63),
                  {{{"anxiety", 6}, {"sleep", 5}, {"restlessness", 5}, {"sweating", 3}}, 0, 0, 0},
                  teller.draws);
    call(story, ago(56), ago(4), 7, teller.draws);
    score(story, ago(60), 12, 17, 0, teller.draws);
    plan_contact(story, kToday + days(1), "call");
    return story;
}

Story symptoms_late_in_the_interval(const Teller& teller) {
    Story story{{"HL-1029", "Desmond Arkwell", day_at(1987, 7, 11), 88.0, "en"}, ago(49)};
    Profile profile;
    profile.history = {"panic attacks", day_at(2019, 10, 1), "paroxetine 20 mg", "One, without a plan.", ""};
    profile.goals = {{"no more clock-watching", "coach the youth team"}, 6, ""};
    profile.supports = {{{"Farah Arkwell", "wife", "555-0161", true}}, "lunch break, 12:30"};
    profile.cutting = {Cuts::halves, ""};
    profile.baseline = {{"anxiety", 5}, {"restlessness", 4}, {"sweating", 3}};
    profile.products = {tablet("alprazolam", "0.5"), tablet("alprazolam", "0.25")};
    profile.outcome = SuitabilityOutcome::not_now;
    profile.reason = "Symptoms come before each next dose: spread or cross over first, then look again.";
    take_stock(story, profile, teller.draws);
    take(story, ago(420),
         {{dose("alprazolam", "07:30", "0.5", "", "the commute"), dose("alprazolam", "15:00", "0.5", "", ""),
           dose("alprazolam", "22:30", "0.5", "", "sleep")}});
    keep_diary(story, ago(49), {100, 60, 3, 8, 0, 4}, teller.draws);
    rate_between_doses(story, ago(49), "anxiety", teller.draws);
    call(story, ago(42), ago(5), 7, teller.draws);
    score(story, ago(45), 9, 14, 0, teller.draws);
    plan_contact(story, kToday + days(3), "visit");
    return story;
}

Story crossing_over(const Teller& teller) {
    Story story{{"HL-1021", "Priya Solberg", day_at(1975, 5, 5), 68.0, "en"}, ago(77)};
    Profile profile;
    profile.history = {"panic after a hospital stay", day_at(2017, 6, 1),
                       "fluoxetine 20 mg; exposure therapy",
                       "From alprazolam straight down: symptoms between doses.", ""};
    profile.goals = {{"sleep through", "travel to the fjord in summer"}, 8, ""};
    profile.supports = {{{"Halvard Solberg", "husband", "555-0162", true}}, "any time after 9:00"};
    profile.cutting = {Cuts::halves, ""};
    profile.baseline = {{"anxiety", 5}, {"sleep", 4}, {"restlessness", 4}, {"muscle tension", 3}};
    profile.products = {tablet("alprazolam", "0.25"), tablet("alprazolam", "0.5"), tablet("diazepam", "5"),
                        tablet("diazepam", "2")};
    profile.reason = "Crossover in stages first, the night dose before the others; taper once steady.";
    take_stock(story, profile, teller.draws);
    const DoseTime morning = dose("alprazolam", "08:00", "0.5", "", "the morning");
    const DoseTime midday = dose("alprazolam", "14:00", "0.25");
    take(story, ago(300), {{morning, midday, dose("alprazolam", "22:00", "0.5", "", "sleep")}});
    take(story, ago(20), {{morning, midday, dose("diazepam", "22:00", "10", "", "sleep")}});
    take(story, ago(6), {{morning, dose("diazepam", "22:00", "15", "", "sleep")}});
    take(story, kToday + days(8),
         {{dose("alprazolam", "08:00", "0.25"), dose("diazepam", "08:00", "5"),
           dose("diazepam", "22:00", "15")}});
    take(story, kToday + days(22), {{dose("diazepam", "08:00", "10"), dose("diazepam", "22:00", "15")}});
    keep_diary(story, ago(70), {25, 40, 1, 1, 0, 0}, teller.draws);
    rate_symptoms(story, ago(70),
                  {{{"anxiety", 5}, {"sleep", 4}, {"restlessness", 4}, {"muscle tension", 3}}, 5, 2, 2},
                  teller.draws);
    call(story, ago(70), ago(5), 7, teller.draws);
    score(story, ago(70), 9, 12, 0, teller.draws);
    plan_contact(story, kToday + days(7), "call");
    return story;
}

Story nightly_zopiclone(const Teller& teller) {
    Story story{{"HL-1016", "Saskia Montclerc", day_at(1970, 9, 19), 61.0, "en"}, ago(130)};
    story.use = Use::night_only;
    story.overrule("cut-over-cap",
                   "Halves of 3.75 mg are the least to be had; one dose a night, longer stays agreed.");
    story.overrule("fall-over-two-weeks",
                   "Halves of 3.75 mg are the least to be had; one dose a night, longer stays agreed.");
    Profile profile;
    profile.history = {"sleep after night shifts", day_at(2015, 4, 1),
                       "CBT for insomnia, five of eight meetings done",
                       "Stopped on holiday: two nights awake.", ""};
    profile.goals = {{"fall asleep by myself", "no tablet on the bedside table"}, 7, ""};
    profile.supports = {{{"Joris Montclerc", "son", "555-0163", false}}, "after 18:00"};
    profile.cutting = {Cuts::halves, ""};
    profile.baseline = {{"sleep", 6}, {"anxiety", 2}, {"restlessness", 2}};
    profile.products = {tablet("zopiclone", "7.5"), tablet("zopiclone", "3.75")};
    profile.reason = "Only at night, steady for years, sleep treated.";
    take_stock(story, profile, teller.draws);
    const Regimen start{{dose("zopiclone", "22:30", "7.5", "in bed", "sleep")}};
    take(story, ago(800), start);
    Signing signing{usual_request("zopiclone"), start, profile.products};
    start_so_that(signing, 2, 16, teller);
    const Plan plan = sign(story, signing, teller);
    keep_diary(story, ago(84), {35, 50, 1, 0, 0, 0}, teller.draws);
    rate_symptoms(story, ago(84), {{{"sleep", 5}, {"anxiety", 2}, {"restlessness", 2}}, 2, 1, 1},
                  teller.draws);
    call(story, ago(126), ago(5), 14, teller.draws);
    score(story, ago(120), 7, 6, 0, teller.draws);
    count_supply(story, ago(5), plan, kToday + days(22));
    plan_contact(story, kToday + days(9), "call");
    return story;
}

Story as_needed(const Teller& teller) {
    Story story{{"HL-1036", "Caleb Inouye-Strand", day_at(1990, 2, 8), 77.0, "en"}, ago(42)};
    story.use = Use::as_needed;
    Profile profile;
    profile.history = {"fear of crowds and lifts", day_at(2021, 1, 1), "exposure therapy from January",
                       "None.", ""};
    profile.goals = {{"take the train to work"}, 7, ""};
    profile.supports = {{{"Mirela Strand", "partner", "555-0164", true}}, "evenings"};
    profile.cutting = {Cuts::halves, ""};
    profile.baseline = {{"anxiety", 4}, {"sleep", 2}};
    profile.products = {tablet("lorazepam", "0.5")};
    take_stock(story, profile, teller.draws);
    take(story, ago(300), {{dose("lorazepam", "12:00", "0.5", "only when needed", "crowds")}});
    keep_diary_as_needed(story, ago(42), "lorazepam", mg("0.5"), 38, teller.draws);
    rate_symptoms(story, ago(42), {{{"anxiety", 4}, {"sleep", 2}}, 0, 0, 0}, teller.draws);
    call(story, ago(35), ago(6), 14, teller.draws);
    score(story, ago(40), 6, 10, 0, teller.draws);
    plan_contact(story, kToday + days(8), "visit");
    return story;
}

Story pregnant(const Teller& teller) {
    Story story{{"HL-1035", "Fenna Ashgrove", day_at(1997, 4, 16), 70.0, "en"}, ago(35)};
    Profile profile;
    profile.risks = {"pregnancy"};
    profile.risk_note = "14 weeks. The perinatal team has been written to.";
    profile.history = {"panic attacks", day_at(2022, 8, 1), "talking therapy every week", "None.", ""};
    profile.goals = {{"a calm pregnancy"}, 8, ""};
    profile.supports = {{{"Ruben Ashgrove", "husband", "555-0165", true}}, "mornings"};
    profile.cutting = {Cuts::halves, ""};
    profile.baseline = {{"anxiety", 4}, {"sleep", 3}};
    profile.products = {tablet("clonazepam", "0.5")};
    profile.outcome = SuitabilityOutcome::specialist_or_inpatient;
    profile.reason = "To the perinatal clinic; no change of dose until their view is here.";
    take_stock(story, profile, teller.draws);
    take(story, ago(200), {{dose("clonazepam", "08:00", "0.25"), dose("clonazepam", "21:00", "0.5")}});
    keep_diary(story, ago(28), {15, 20, 0, 0, 0, 0}, teller.draws);
    rate_symptoms(story, ago(28), {{{"anxiety", 4}, {"sleep", 3}}, 0, 0, 0}, teller.draws);
    call(story, ago(28), ago(4), 7, teller.draws);
    score(story, ago(30), 6, 9, 0, teller.draws);
    plan_contact(story, kToday + days(2), "call");
    return story;
}

Story just_arrived(const Teller&) {
    Story story{{"HL-1038", "Oskar Njeri-Holm", day_at(2002, 6, 3), {}, "en"}, ago(4)};
    Profile profile;
    profile.history.taken_for = "sleep, from an online prescriber; bottle not brought along";
    profile.goals = {{"get off it before the exams"}, 6, ""};
    begin_intake(story, profile);
    story.on(story.opened,
             NoteAdded{"First call. Will bring the bottles and a week of dose times on Wednesday."});
    story.on(ago(3), ContactPlanned{kToday + days(2), "visit"});
    return story;
}

}  // namespace evenfall::sample
