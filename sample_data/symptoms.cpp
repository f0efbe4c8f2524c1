// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>

#include "sample_data/diary.h"

namespace evenfall::sample {
namespace {

using std::chrono::days;

constexpr int kDaysToEase = 9;

/// Percent of the worst, so many days after a cut: rises to the lag, then eases.
int answer_percent(int day, int lag) {
    if (day < 0 || day > lag + kDaysToEase) return 0;
    if (day <= lag) return lag == 0 ? 100 : 100 * day / lag;
    return 100 * (lag + kDaysToEase - day) / kDaysToEase;
}

/// What all cuts so far add on a day, in hundredths of a point.
int answer_to_cuts(const Story& story, const Symptoms& symptoms, Day day) {
    int sum = 0;
    for (const auto& [cut, percent] : story.cuts) {
        const int since = static_cast<int>((day - cut).count());
        sum += answer_percent(since, symptoms.lag) * symptoms.rise * std::min(percent, 20) / 10;
    }
    return sum;
}

int bounded(int severity) {
    return std::clamp(severity, 0, 10);
}

void hand_in(Story& story, Day week, SymptomsNoted noted) {
    const Day on = std::min(week + days(6), kToday - days(1));
    if (!noted.entries.empty()) story.at(at_clock(on, {23 * 60 + 40}), std::move(noted));
}

const Intake* last_before(const std::vector<Intake>& intake, LocalTime time) {
    const Intake* found = nullptr;
    for (const Intake& each : intake)
        if (each.taken_at < time && (!found || each.taken_at > found->taken_at)) found = &each;
    return found;
}

std::vector<Intake> all_intake(const Story& story) {
    std::vector<Intake> intake;
    for (const Written& each : story.written)
        if (const auto* noted = std::get_if<IntakeNoted>(&each.change))
            intake.insert(intake.end(), noted->entries.begin(), noted->entries.end());
    return intake;
}

}  // namespace

void rate_symptoms(Story& story, Day from, const Symptoms& symptoms, Draws& draws) {
    const int whole = std::max(1, static_cast<int>((kToday - from).count()));
    for (Day week = from; week < kToday; week += days(7)) {
        SymptomsNoted noted;
        for (Day day = week; day < std::min(week + days(7), kToday); day += days(1)) {
            const LocalTime at = at_clock(day, {20 * 60 + draws.around(40)});
            const int gone = symptoms.drift * 100 * static_cast<int>((day - from).count()) / whole;
            const int answer = answer_to_cuts(story, symptoms, day);
            for (const auto& [item, usual] : symptoms.items) {
                const int hundredths = usual * 100 + answer - gone + draws.around(120);
                noted.entries.push_back({at, item, bounded((hundredths + 50) / 100)});
            }
        }
        hand_in(story, week, std::move(noted));
    }
}

void rate_between_doses(Story& story, Day from, const std::string& item, Draws& draws) {
    const std::vector<Intake> intake = all_intake(story);
    for (Day week = from; week < kToday; week += days(7)) {
        SymptomsNoted noted;
        for (Day day = week; day < std::min(week + days(7), kToday); day += days(1))
            for (const int hour : {7, 11, 15, 19, 22}) {
                if (draws.chance(25)) continue;
                const LocalTime at = at_clock(day, {hour * 60 + draws.between(0, 59)});
                const Intake* last = last_before(intake, at);
                if (!last) continue;
                const int since =
                    static_cast<int>(std::chrono::floor<std::chrono::hours>(at - last->taken_at).count());
                noted.entries.push_back(
                    {at, item, bounded(1 + std::min(since, 9) * 7 / 10 + draws.around(1))});
            }
        hand_in(story, week, std::move(noted));
    }
}

}  // namespace evenfall::sample
