// SPDX-License-Identifier: GPL-3.0-or-later
#include "sample_data/profile.h"

#include <algorithm>

namespace evenfall::sample {
namespace {

using std::chrono::days;

RiskScreen screen_of(const Profile& profile) {
    RiskScreen screen;
    for (const std::string& word : kRiskWords) screen.answers[word] = Answer::no;
    for (const std::string& word : profile.risks) screen.answers[word] = Answer::yes;
    screen.note = profile.risk_note;
    return screen;
}

Lifestyle lifestyle_of(const Profile& profile, Draws& draws) {
    return {
        draws.one_of({"Three meals, fruit most days; dinner late.", "Skips breakfast; cooks in the evening.",
                      "Regular meals with family; little green stuff.",
                      "Small meals; appetite low when anxious."}),
        draws.one_of({"Walks half an hour on most days.", "Swims on Tuesdays and Fridays.",
                      "Little movement since the knee; wants to begin again.",
                      "Cycles to work, stretches at night."}),
        draws.one_of({"Out in the morning with the dog.", "Daylight only at weekends: works indoors.",
                      "Sits on the balcony at breakfast.", "Garden every day when it is dry."}),
        draws.one_of({"In bed 23:00 to 07:00, wakes once.", "Long to fall asleep; screens until midnight.",
                      "Five to six hours, naps on the sofa.",
                      "Started a sleep diary; fixed rising time 06:45."}),
        draws.one_of({"Breathing exercise from the group, twice a day.",
                      "Has used grounding by the five senses.", "Meditates with a recording, ten minutes.",
                      "None yet; willing to try the Thursday group."}),
        profile.substances};
}

}  // namespace

void begin_intake(Story& story, const Profile& profile) {
    if (!profile.history.taken_for.empty()) story.on(story.opened, profile.history);
    if (!profile.goals.goals.empty()) story.on(story.opened, profile.goals);
    if (!profile.supports.people.empty()) story.on(story.opened, profile.supports);
}

void take_stock(Story& story, const Profile& profile, Draws& draws) {
    begin_intake(story, profile);
    story.on(story.opened, screen_of(profile));
    story.on(story.opened, lifestyle_of(profile, draws));
    story.on(story.opened, profile.cutting);
    story.on(story.opened, profile.others);
    const bool even = !story.person.reference.empty() && (story.person.reference.back() - '0') % 2 == 0;
    story.on(story.opened, CareTeamSet{"R. Vantongeren", even ? "N. Amarante" : "P. Ellingboe"});
    if (!profile.products.empty()) story.on(story.opened, ProductsChosen{profile.products});
    const Day week_later = std::min(story.opened + days(7), kToday - days(1));
    if (!profile.baseline.empty())
        story.on(week_later, Baseline{week_later, profile.baseline, profile.baseline_note});
    if (profile.reason.empty()) return;
    std::vector<std::string> rests_on;
    for (std::string word : profile.risks) {
        std::ranges::replace(word, ' ', '-');
        rests_on.push_back("risk-" + word);
    }
    // Looked at every quarter, the last time within the last two months.
    const Day looked = std::max(week_later, ago(55));
    story.on(looked, MonitoringChecked{looked, "Nothing that was not known.", looked + days(90)});
    story.on(week_later, Suitability{profile.outcome, rests_on, profile.reason});
}

}  // namespace evenfall::sample
