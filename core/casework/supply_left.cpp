// SPDX-License-Identifier: GPL-3.0-or-later
#include "casework/supply_left.h"

#include "planning/stock.h"

namespace evenfall {
namespace {

using std::chrono::days;

constexpr int kDaysLookedAhead = 366;

const Stretch* stretch_on(const Course& course, Day day) {
    const Stretch* found = nullptr;
    for (const Stretch& stretch : course.stretches)
        if (stretch.from <= day && (!stretch.to || day < *stretch.to)) found = &stretch;
    return found;
}

}  // namespace

std::optional<Day> supply_runs_out(const PatientRecord& record, const Course& course) {
    if (record.supply.empty()) return std::nullopt;
    const SupplyCounted& last = record.supply.back().value;
    Stock stock(last.on_hand);
    for (int ahead = 0; ahead < kDaysLookedAhead; ++ahead) {
        const Day day = last.on + days(ahead);
        if (const Stretch* stretch = stretch_on(course, day)) stock.take(stretch->doses);
        if (stock.lacks_anything()) return day;
    }
    return std::nullopt;
}

}  // namespace evenfall
