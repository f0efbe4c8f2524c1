// SPDX-License-Identifier: GPL-3.0-or-later
#include "planning/kept_pieces.h"

#include <algorithm>
#include <utility>

namespace evenfall::planning {
namespace {

int burden_of_day(const std::vector<PlannedDose>& doses, const std::string& drug,
                  const PieceWeights& weights) {
    std::vector<std::vector<Piece>> day;
    for (const PlannedDose& dose : doses)
        if (dose.drug == drug) day.push_back(dose.pieces);
    return burden_of(day, weights);
}

/// The pieces that a dose had, where it stays and can keep them; null where there is nothing to keep.
const std::vector<Piece>* pieces_before(const PlannedDose& dose, const std::vector<PlannedDose>& before,
                                        std::span<const Product> products) {
    for (const PlannedDose& was : before) {
        if (was.at != dose.at || was.drug != dose.drug || was.amount != dose.amount) continue;
        const bool still_there = std::ranges::all_of(
            was.pieces, [&](const Piece& piece) { return std::ranges::count(products, piece.product) > 0; });
        return was.pieces.empty() || was.pieces == dose.pieces || !still_there ? nullptr : &was.pieces;
    }
    return nullptr;
}

}  // namespace

void keep_pieces(std::vector<PlannedDose>& doses, const std::vector<PlannedDose>& before,
                 const std::string& drug, std::span<const Product> products, const PieceWeights& weights,
                 int allowed) {
    std::vector<std::pair<std::size_t, const std::vector<Piece>*>> kept;
    for (std::size_t i = 0; i < doses.size(); ++i)
        if (doses[i].drug == drug)
            if (const auto* pieces = pieces_before(doses[i], before, products)) kept.emplace_back(i, pieces);
    if (kept.empty()) return;
    int most = burden_of_day(doses, drug, weights);
    std::vector<PlannedDose> all = doses;
    for (const auto& [i, pieces] : kept) all[i].pieces = *pieces;
    if (burden_of_day(all, drug, weights) <= most + allowed * static_cast<int>(kept.size())) {
        doses = std::move(all);
        return;
    }
    for (const auto& [i, pieces] : kept) {
        std::vector<PlannedDose> one = doses;
        one[i].pieces = *pieces;
        if (burden_of_day(one, drug, weights) > most + allowed) continue;
        most += allowed;
        doses = std::move(one);
    }
}

}  // namespace evenfall::planning
