// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <map>
#include <vector>

#include "model/person.h"
#include "model/plan.h"

namespace evenfall {

/// What is at home, piece by piece: whole units, and the halves and quarters that earlier doses left over. A
/// half is taken from the loose halves first, then a whole unit is split; a quarter likewise, so that what is
/// left over is used up before another unit is opened.
class Stock {
  public:
    Stock() = default;
    explicit Stock(const std::vector<OnHand>& on_hand);

    /// Takes the pieces of a day's doses. Units and volumes that are not at home are counted as missing, and
    /// taken.
    void take(const std::vector<PlannedDose>& doses);
    /// Adds whole units, or a volume.
    void add(const Product& product, std::int64_t units, Volume volume);
    /// Takes so much of a liquid away that is at home; what is not there is not counted as missing.
    void throw_away(const Product& liquid, Volume volume);

    bool lacks_anything() const;
    /// Whole units of a product that were taken without being there.
    std::int64_t missing_units(const Product& product) const;
    Volume missing_volume(const Product& product) const;
    std::vector<Product> products() const;
    /// What is at home; nothing of a product that is used up.
    std::vector<OnHand> on_hand() const;

  private:
    struct Shelf {
        std::int64_t wholes = 0, halves = 0, quarters = 0, missing = 0;
        std::int64_t nl = 0, missing_nl = 0;
    };
    static void take_whole(Shelf& shelf);
    static void take_half(Shelf& shelf);
    static void take_quarter(Shelf& shelf);
    static void pour(Shelf& shelf, std::int64_t nl);

    std::map<Product, Shelf> shelves_;
};

}  // namespace evenfall
