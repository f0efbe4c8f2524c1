// SPDX-License-Identifier: GPL-3.0-or-later
#include "course/scene.h"

#include <algorithm>
#include <map>

namespace evenfall::ui {
namespace {

std::vector<SymptomRow> symptom_rows(const PatientRecord& record) {
    std::map<std::string, std::vector<Rating>> by_item;
    for (const auto& entry : record.symptoms)
        for (const Rating& rating : entry.value.entries) by_item[rating.item].push_back(rating);
    std::vector<SymptomRow> rows;
    for (auto& [item, ratings] : by_item) {
        std::ranges::stable_sort(ratings, {}, &Rating::rated_at);
        rows.push_back({QString::fromStdString(item), std::move(ratings)});
    }
    std::ranges::stable_sort(rows, std::greater{}, [](const SymptomRow& row) { return row.ratings.size(); });
    return rows;
}

Day block_of(Day day, int days) {
    if (days == 1) return day;
    const Day monday = day - std::chrono::days(weekday_from_monday(day));
    // Counted from a fixed Monday, so that panning never moves the blocks.
    const auto weeks = (monday - day_at(1970, 1, 5)).count() / 7;
    const auto per_block = days / 7;
    return monday - std::chrono::days(((weeks % per_block) + per_block) % per_block * 7);
}

void widen(TimeRange& range, double place) {
    range.first = std::min(range.first, place);
    range.last = std::max(range.last, place);
}

}  // namespace

std::vector<SymptomCell> symptom_cells(const SymptomRow& row, int days_per_cell) {
    std::vector<SymptomCell> cells;
    int sum = 0;
    for (const Rating& rating : row.ratings) {
        const Day from = block_of(day_of(rating.rated_at), days_per_cell);
        if (cells.empty() || cells.back().from != from) {
            cells.push_back({from, days_per_cell, 0, 0, 0});
            sum = 0;
        }
        SymptomCell& cell = cells.back();
        sum += rating.severity;
        ++cell.count;
        cell.mean = (2 * sum + cell.count) / (2 * cell.count);
        cell.worst = std::max(cell.worst, rating.severity);
    }
    return cells;
}

CourseScene make_scene(const PatientRecord& record, const Course& course, Day today,
                       const std::function<QString(const Message&)>& say) {
    CourseScene scene{course, symptom_rows(record), {}, today};
    for (const ContactMark& mark : course.contacts) scene.contact_texts.push_back(say(mark.text));
    return scene;
}

double shown_end(const Stretch& stretch, Day today) {
    constexpr std::chrono::days beyond(14);
    return axis_day(stretch.to.value_or(std::max(stretch.from, today) + beyond));
}

TimeRange limits_of(const CourseScene& scene) {
    TimeRange range{axis_day(scene.today), axis_day(scene.today) + 1};
    for (const Stretch& stretch : scene.course.stretches) {
        widen(range, axis_day(stretch.from));
        widen(range, shown_end(stretch, scene.today));
    }
    for (const TakenDay& taken : scene.course.taken) widen(range, axis_day(taken.day));
    for (const ContactMark& mark : scene.course.contacts) widen(range, axis_day(mark.on) + 1);
    for (const SymptomRow& row : scene.symptoms)
        if (!row.ratings.empty()) widen(range, axis_day(day_of(row.ratings.front().rated_at)));
    const double room = std::max(7.0, range.days() * 0.03);
    return {range.first - room, range.last + room};
}

}  // namespace evenfall::ui
