// SPDX-License-Identifier: GPL-3.0-or-later
#include "casework/supply_left.h"

#include "planning/stock.h"
#include "planning/supply.h"

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
    const SupplyCounted* count = last_count(record, Day::max());
    if (!count) return std::nullopt;
    const SupplyCounted& last = *count;
    Stock stock(last.on_hand);
    for (int ahead = 0; ahead < kDaysLookedAhead; ++ahead) {
        const Day day = last.on + days(ahead);
        if (const Stretch* stretch = stretch_on(course, day)) stock.take(stretch->doses);
        if (stock.lacks_anything()) return day;
    }
    return std::nullopt;
}

const SupplyCounted* last_count(const PatientRecord& record, Day day) {
    const SupplyCounted* last = nullptr;
    for (const auto& each : record.supply)
        if (each.value.on <= day && (!last || last->on <= each.value.on)) last = &each.value;
    return last;
}

std::vector<OnHand> on_hand_on(const PatientRecord& record, const Course& course, Day day,
                               const PieceWeights& weights) {
    const SupplyCounted* count = last_count(record, day);
    if (!count) return {};
    const SupplyCounted& last = *count;
    std::vector<Product> counted;
    for (const OnHand& each : last.on_hand) counted.push_back(each.product);
    Stock stock(last.on_hand);
    const Stretch* before = nullptr;
    std::vector<PlannedDose> doses;
    for (Day each = last.on; each < day; each += days(1)) {
        const Stretch* stretch = stretch_on(course, each);
        if (!stretch) continue;
        if (stretch != before) {
            doses = stretch->doses;
            add_pieces(doses, counted, weights);
            before = stretch;
        }
        stock.take(doses);
    }
    return stock.on_hand();
}

}  // namespace evenfall
