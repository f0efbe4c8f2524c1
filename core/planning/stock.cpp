// SPDX-License-Identifier: GPL-3.0-or-later
#include "planning/stock.h"

#include <algorithm>

namespace evenfall {

Stock::Stock(const std::vector<OnHand>& on_hand) {
    for (const OnHand& item : on_hand) {
        Shelf& shelf = shelves_[item.product];
        shelf.wholes += item.quarters / 4;
        shelf.halves += item.quarters % 4 / 2;
        shelf.quarters += item.quarters % 2;
        shelf.nl += item.volume.nl();
    }
}

void Stock::take_whole(Shelf& shelf) {
    if (shelf.wholes > 0)
        --shelf.wholes;
    else
        ++shelf.missing;
}

void Stock::take_half(Shelf& shelf) {
    if (shelf.halves == 0) {
        take_whole(shelf);
        shelf.halves += 2;
    }
    --shelf.halves;
}

void Stock::take_quarter(Shelf& shelf) {
    if (shelf.quarters == 0) {
        take_half(shelf);
        shelf.quarters += 2;
    }
    --shelf.quarters;
}

void Stock::pour(Shelf& shelf, std::int64_t nl) {
    const std::int64_t there = std::min(shelf.nl, nl);
    shelf.nl -= there;
    shelf.missing_nl += nl - there;
}

void Stock::take(const std::vector<PlannedDose>& doses) {
    for (const PlannedDose& dose : doses) {
        for (const Piece& piece : dose.pieces) {
            Shelf& shelf = shelves_[piece.product];
            if (piece.cut == Cut::ml) pour(shelf, piece.volume.nl());
            for (int i = 0; piece.cut != Cut::ml && i < piece.count; ++i) {
                if (piece.cut == Cut::whole) take_whole(shelf);
                if (piece.cut == Cut::half) take_half(shelf);
                if (piece.cut == Cut::quarter) take_quarter(shelf);
            }
        }
    }
}

void Stock::add(const Product& product, std::int64_t units, Volume volume) {
    Shelf& shelf = shelves_[product];
    shelf.wholes += units;
    shelf.nl += volume.nl();
}

void Stock::throw_away(const Product& liquid, Volume volume) {
    Shelf& shelf = shelves_[liquid];
    shelf.nl -= std::min(shelf.nl, volume.nl());
}

bool Stock::lacks_anything() const {
    return std::ranges::any_of(
        shelves_, [](const auto& each) { return each.second.missing > 0 || each.second.missing_nl > 0; });
}

std::int64_t Stock::missing_units(const Product& product) const {
    const auto found = shelves_.find(product);
    return found == shelves_.end() ? 0 : found->second.missing;
}

Volume Stock::missing_volume(const Product& product) const {
    const auto found = shelves_.find(product);
    return Volume::nanolitres(found == shelves_.end() ? 0 : found->second.missing_nl);
}

std::vector<Product> Stock::products() const {
    std::vector<Product> products;
    for (const auto& [product, shelf] : shelves_) products.push_back(product);
    return products;
}

std::vector<OnHand> Stock::on_hand() const {
    std::vector<OnHand> items;
    for (const auto& [product, shelf] : shelves_) {
        const auto quarters = 4 * shelf.wholes + 2 * shelf.halves + shelf.quarters;
        if (quarters > 0 || shelf.nl > 0)
            items.push_back({product, static_cast<int>(quarters), Volume::nanolitres(shelf.nl)});
    }
    return items;
}

}  // namespace evenfall
