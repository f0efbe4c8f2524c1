// SPDX-License-Identifier: GPL-3.0-or-later
#include <set>

#include "papers/common.h"
#include "units/day.h"

namespace evenfall::papers {
namespace {

constexpr int kDays = 14;
constexpr int kBlankDoses = 2;
constexpr std::size_t kMostItems = 4;  // more leave no room to write

std::vector<std::string> items_of(const PaperDesk& desk) {
    std::vector<std::string> items;
    for (const std::string& item : desk.source.tracked_items)
        if (items.size() < kMostItems) items.push_back(desk.say.item(item));
    if (items.empty())
        items = {desk.say("diary-item-anxiety"), desk.say("diary-item-body"), desk.say("diary-item-mood")};
    return items;
}

/// When doses are taken on the days of the diary.
std::vector<ClockTime> times_of(const PaperDesk& desk, Day last) {
    std::set<ClockTime> times;
    for (const FirmStep& step : desk.steps)
        if (step.from <= last)
            for (const PlannedDose& dose : step.step->doses) times.insert(dose.at);
    // Before the first step, and where none is agreed, what is taken now.
    if (!desk.source.as_needed && (desk.steps.empty() || starts_later(desk) || times.empty()))
        for (const DoseTime& dose : regimen_on_issue(desk.source).doses) times.insert(dose.at);
    return {times.begin(), times.end()};
}

}  // namespace

Document make_diary(const PaperDesk& desk) {
    const Wording& say = desk.say;
    const Clinic& clinic = desk.source.clinic;
    const Day from = desk.source.as_of;
    const Day to = from + std::chrono::days(kDays - 1);
    Document document = begin(Paper::diary, desk, say("diary-title"),
                              say("diary-subtitle", {{"from", say.date(from)}, {"to", say.date(to)}}));
    const bool off = takes_nothing(desk);
    List how{{say("diary-how-ratings"), say("diary-how-honest")}, false};
    if (!off)
        how.items.insert(how.items.begin(),
                         say(desk.source.as_needed ? "diary-how-doses-as-needed" : "diary-how-doses"));
    add(document, std::move(how));
    if (!off)
        add(document,
            Paragraph{say(desk.source.as_needed ? "diary-stop-as-needed" : "diary-stop",
                          {{"phone", printable(clinic.phone)}, {"after", printable(clinic.after_hours)}}),
                      true});
    Grid grid;
    grid.lines_high = 2;
    grid.columns.push_back({say("diary-column-day"), {}, 1.35, false});
    for (const ClockTime at : times_of(desk, to))
        grid.columns.push_back({say.part(at), print_clock(at), 1.5, false});
    // What is taken when needed has no time of its own.
    for (int blank = 0; desk.source.as_needed && blank < kBlankDoses; ++blank)
        grid.columns.push_back({say("diary-column-when"), {}, 1.5, false});
    grid.columns.push_back({say("diary-column-sleep"), {}, 1.1, false});
    for (const std::string& item : items_of(desk)) grid.columns.push_back({item, {}, 1.25, false});
    grid.columns.push_back({say("diary-column-notes"), {}, 1.2, false, true});
    for (Day day = from; day <= to; day += std::chrono::days(1)) grid.rows.push_back(say.day_date(day));
    add(document, std::move(grid));
    return document;
}

}  // namespace evenfall::papers
