// SPDX-License-Identifier: GPL-3.0-or-later
#include "sample_data/contacts.h"

#include <algorithm>
#include <map>

namespace evenfall::sample {
namespace {

using std::chrono::days;

const std::vector<std::string> kDangers = {"suicidal thoughts",
                                           "cannot sit still",
                                           "seizure",
                                           "collapse or head injury",
                                           "confusion",
                                           "hallucination",
                                           "fever with racing heart",
                                           "hard to wake or slow breathing",
                                           "mania or violence",
                                           "run out of tablets",
                                           "vomiting tablets",
                                           "new opioid or sedative"};

const std::vector<std::string> kOwnWords = {
    "Sleep a little lighter in the first week, then as before.",
    "Fine. Took the dog out every morning.",
    "Edgy on days four and five, used the breathing, it passed.",
    "Tired but going on with it.",
    "Work was loud this week; otherwise all right.",
    "My sister helps with the halves, that is good.",
    "No complaints. Glad that it goes slowly.",
    "Woke at four on two nights.",
};

CheckIn answered(LocalTime at, const std::vector<std::string>& yes, std::string own_words) {
    CheckIn check_in{at, {}, std::move(own_words)};
    for (const std::string& question : kDangers)
        check_in.answers.emplace_back(question, std::ranges::find(yes, question) == yes.end() ? "no" : "yes");
    return check_in;
}

std::vector<int> answers(int count, int tenths, Draws& draws) {
    std::vector<int> items;
    for (int i = 0; i < count; ++i) items.push_back(std::clamp((tenths + draws.around(12) + 5) / 10, 0, 3));
    return items;
}

/// Quarters of a unit, or nanolitres, that a day of a step takes of each product.
void add_need(std::map<Product, std::int64_t>& need, const std::vector<PlannedDose>& doses) {
    for (const PlannedDose& dose : doses)
        for (const Piece& piece : dose.pieces) {
            const int quarters = piece.cut == Cut::whole ? 4 : piece.cut == Cut::half ? 2 : 1;
            need[piece.product] += piece.cut == Cut::ml ? piece.volume.nl() : quarters * piece.count;
        }
}

const Step* step_on(const Plan& plan, Day day) {
    const Step* found = nullptr;
    for (const Step& step : plan.steps)
        if (step.starts <= day) found = &step;
    return found;
}

}  // namespace

void call(Story& story, Day from, Day last, int every, Draws& draws) {
    for (Day day = from; day <= last; day += days(every)) {
        const LocalTime at = at_clock(day, {draws.between(9 * 60, 17 * 60)});
        if (at < kTold) story.at(at, answered(at, {}, draws.one_of(kOwnWords)));
    }
}

void call_with_danger(Story& story, Day on, const std::vector<std::string>& yes,
                      const std::string& own_words) {
    const LocalTime at = at_clock(on, {16 * 60 + 20});
    story.at(at, answered(at, yes, own_words));
}

void score(Story& story, Day from, int mood_tenths, int worry_tenths, int last_thoughts, Draws& draws) {
    for (Day day = from; day < kToday; day += days(28)) {
        std::vector<int> mood = answers(8, mood_tenths, draws);
        mood.push_back(day + days(28) >= kToday ? last_thoughts : 0);
        story.on(day, ScaleAnswers{"PHQ-9", day, std::move(mood)});
        story.on(day, ScaleAnswers{"GAD-7", day, answers(7, worry_tenths, draws)});
    }
}

void count_supply(Story& story, Day on, const Plan& plan, Day last) {
    std::map<Product, std::int64_t> need;
    for (Day day = on; day <= last; day += days(1))
        if (const Step* step = step_on(plan, day)) add_need(need, step->doses);
    SupplyCounted counted{on, {}};
    for (const auto& [product, much] : need)
        counted.on_hand.push_back(is_liquid(product.form) ? OnHand{product, 0, Volume::nanolitres(much)}
                                                          : OnHand{product, static_cast<int>(much), {}});
    story.on(on, std::move(counted));
}

void hold(Story& story, Day from, Day review_on, const std::string& reason) {
    std::erase_if(story.intended, [&](const Intended& each) { return each.from >= from; });
    std::erase_if(story.cuts, [&](const auto& cut) { return cut.first >= from; });
    story.on(from, HoldStarted{from, review_on, reason});
}

void plan_contact(Story& story, Day on, const std::string& how) {
    story.at(at_clock(kToday - days(6), {11 * 60}), ContactPlanned{on, how});
}

}  // namespace evenfall::sample
