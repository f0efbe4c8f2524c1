// SPDX-License-Identifier: GPL-3.0-or-later
#include "casework/supply_left.h"

#include <map>

namespace evenfall {
namespace {

using std::chrono::days;

constexpr int kDaysLookedAhead = 366;

/// What is left of a product: quarters of a unit, or nanolitres.
using Stock = std::map<Product, std::int64_t>;

Stock counted(const SupplyCounted& supply) {
    Stock stock;
    for (const OnHand& item : supply.on_hand)
        stock[item.product] += is_liquid(item.product.form) ? item.volume.nl() : item.quarters;
    return stock;
}

std::int64_t used(const Piece& piece) {
    switch (piece.cut) {
        case Cut::whole:
            return 4LL * piece.count;
        case Cut::half:
            return 2LL * piece.count;
        case Cut::quarter:
            return piece.count;
        case Cut::ml:
            return piece.volume.nl();
    }
    return 0;
}

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
    Stock stock = counted(last);
    for (int ahead = 0; ahead < kDaysLookedAhead; ++ahead) {
        const Day day = last.on + days(ahead);
        const Stretch* stretch = stretch_on(course, day);
        if (!stretch) continue;
        for (const PlannedDose& dose : stretch->doses)
            for (const Piece& piece : dose.pieces)
                if ((stock[piece.product] -= used(piece)) < 0) return day;
    }
    return std::nullopt;
}

}  // namespace evenfall
