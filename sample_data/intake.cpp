// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>

#include "sample_data/diary.h"

namespace evenfall::sample {
namespace {

using std::chrono::days;
using std::chrono::minutes;

/// Entries are handed in a week at a time, the last of them yesterday evening.
void hand_in(Story& story, Day week, IntakeNoted noted) {
    const Day on = std::min(week + days(6), kToday - days(1));
    std::ranges::sort(noted.entries, {}, &Intake::taken_at);
    if (noted.entries.empty() && noted.kept_empty.empty()) return;
    story.at(at_clock(on, {23 * 60 + 30}), std::move(noted));
}

bool is_weekend(Day day) {
    return weekday_from_monday(day) >= 5;
}

/// Goes through the meant doses of a day as a person with this habit takes them.
class Taker {
  public:
    Taker(const Habit& habit, Draws& draws) : habit_(habit), draws_(draws) {}

    void day(Day day, const std::vector<PlannedDose>& doses, std::vector<Intake>& entries) {
        for (const PlannedDose& dose : doses) take(day, dose, entries);
        if (!doses.empty() && draws_.chance(habit_.extra)) extra(day, doses.front(), entries);
    }

  private:
    void take(Day day, const PlannedDose& dose, std::vector<Intake>& entries) {
        if (draws_.chance(habit_.missed)) {
            missed_ = true;
            return;
        }
        const bool double_up = missed_ && draws_.chance(habit_.doubled);
        missed_ = false;
        int shift = draws_.around(habit_.spread) + (is_weekend(day) ? habit_.weekend_late : 0);
        const bool late = draws_.chance(habit_.late);
        if (late) shift += draws_.between(60, 240);
        const LocalTime at = std::min(at_clock(day, dose.at) + minutes(shift), at_clock(day, {23 * 60 + 20}));
        const TakenWhy why = double_up || late ? TakenWhy::forgot : TakenWhy::as_planned;
        entries.push_back({at, dose.drug, double_up ? dose.amount * 2 : dose.amount, why,
                           double_up ? "made up for the one before" : ""});
    }

    void extra(Day day, const PlannedDose& dose, std::vector<Intake>& entries) {
        const Dose half = dose.amount.part(2).value_or(dose.amount);
        entries.push_back(
            {at_clock(day, {draws_.between(12 * 60, 16 * 60)}), dose.drug, half, TakenWhy::symptoms,
             draws_.one_of({"shaking before the meeting", "chest tight", "could not wait", ""})});
    }

    const Habit& habit_;
    Draws& draws_;
    bool missed_ = false;
};

}  // namespace

void keep_diary(Story& story, Day from, const Habit& habit, Draws& draws) {
    Taker taker(habit, draws);
    for (Day week = from; week < kToday; week += days(7)) {
        IntakeNoted noted;
        for (Day day = week; day < std::min(week + days(7), kToday); day += days(1))
            if (const auto& doses = story.doses_on(day); doses.empty())
                noted.kept_empty.push_back(day);
            else
                taker.day(day, doses, noted.entries);
        hand_in(story, week, std::move(noted));
    }
}

void keep_diary_as_needed(Story& story, Day from, const std::string& drug, Dose amount, int percent,
                          Draws& draws) {
    for (Day week = from; week < kToday; week += days(7)) {
        IntakeNoted noted;
        for (Day day = week; day < std::min(week + days(7), kToday); day += days(1)) {
            if (draws.chance(percent))
                noted.entries.push_back({at_clock(day, {draws.between(9 * 60, 22 * 60)}), drug, amount,
                                         TakenWhy::symptoms,
                                         draws.one_of({"supermarket", "before the train", "", ""})});
            else
                noted.kept_empty.push_back(day);
        }
        hand_in(story, week, std::move(noted));
    }
}

}  // namespace evenfall::sample
