// SPDX-License-Identifier: GPL-3.0-or-later
#include "diary/sheet.h"

#include <algorithm>
#include <set>

#include "response/burden.h"
#include "stabilization/dosing.h"

namespace evenfall::ui {
namespace {

using std::chrono::days;

/// Days after the last entry are unknown, not absent.
void reach_today(Sheet& sheet, const std::vector<DatedRegimen>& held_against) {
    if (sheet.rows.empty()) return;
    const Day today = diary_day_of(sheet.as_of, sheet.begins);
    while (sheet.rows.back().day < today) {
        DayRow row;
        row.day = sheet.rows.back().day + days(1);
        row.known = row.day == today ? DayKnown::running : DayKnown::unknown;
        if (const Regimen* regimen = stabilization::regimen_on(held_against, row.day))
            row.intended = regimen->doses;
        sheet.rows.push_back(std::move(row));
    }
}

void add_items(Sheet& sheet) {
    std::set<std::string> rated;
    for (const Rating& rating : sheet.diary.ratings) rated.insert(rating.item);
    for (const std::string& item : in_list_order({rated.begin(), rated.end()}))
        sheet.items.push_back({item, symptom_name(item), symptom_group(item)});
}

void add_scores(Sheet& sheet) {
    std::map<std::string, std::size_t> column;
    for (std::size_t i = 0; i < sheet.items.size(); ++i) column[sheet.items[i].item] = i;
    sheet.scores.reserve(sheet.rows.size());
    for (const DayRow& row : sheet.rows) {
        auto& scores = sheet.scores.emplace_back(sheet.items.size());
        for (const auto at : row.ratings) {
            const Rating& rating = sheet.diary.ratings[at];
            Score& score = scores[column[rating.item]];
            score.worst = std::max(score.worst, rating.severity);
            ++score.count;
        }
    }
}

/// The burden that the response is read from, day by day.
void add_burden(Sheet& sheet, const Rules& rules) {
    const auto rated = response::item_days(sheet.diary.ratings, sheet.as_of, rules);
    sheet.burden.assign(sheet.rows.size(), -1);
    for (std::size_t row = 0; row < sheet.rows.size(); ++row) {
        const auto day = rated.find(sheet.rows[row].day);
        if (day == rated.end() || day->second.empty()) continue;
        double sum = 0;
        for (const auto& [item, level] : day->second) sum += level;
        sheet.burden[row] = sum / static_cast<double>(day->second.size());
    }
}

}  // namespace

std::optional<std::size_t> Sheet::row_of(Day day) const {
    if (rows.empty() || day < rows.front().day || day > rows.back().day) return std::nullopt;
    return static_cast<std::size_t>((day - rows.front().day).count());
}

Sheet make_sheet(const SheetRequest& request, std::stop_token stop) {
    Sheet sheet;
    sheet.begins = diary_day_begins(*request.rules);
    sheet.as_of = request.input.as_of;
    sheet.marks = request.marks;
    sheet.tolerance_minutes = request.rules->whole("late-dose", "minutes");
    sheet.diary = request.input.diary;
    if (stop.stop_requested()) return sheet;
    const Zone zone = Zone::of_machine();
    auto dosing =
        stabilization::match_diary({request.input, *request.formulary, *request.rules, zone, sheet.begins});
    sheet.rows = std::move(dosing.rows);
    reach_today(sheet, dosing.held_against);
    add_items(sheet);
    add_scores(sheet);
    add_burden(sheet, *request.rules);
    return sheet;
}

}  // namespace evenfall::ui
