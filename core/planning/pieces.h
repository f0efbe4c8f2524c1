// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <string_view>
#include <utility>
#include <vector>

#include "model/product.h"
#include "rules/rules.h"

namespace evenfall {

/// What makes a combination of pieces a burden to the person who must make it. Rule `piece-weights`.
struct PieceWeights {
    int product = 25;  ///< for each different product used in the day
    int piece = 10;    ///< for each piece; for a liquid for each started `pour` at one time
    int quarter = 4;   ///< for each quarter, on top
    int half = 2;      ///< for each half, on top
    Volume pour = Volume::millilitres(5);   ///< of a liquid
    Volume most = Volume::millilitres(10);  ///< of a liquid at one time

    /// Reads rule `piece-weights`.
    static PieceWeights from(const Rules& rules);
    bool operator==(const PieceWeights&) const = default;
};

/// A set of products of a table, one bit for each in the table's order.
using ProductSet = std::uint32_t;

inline constexpr int kNotMakeable = 1'000'000'000;
/// More products of one agent than this are refused by the planner.
inline constexpr std::size_t kMostProducts = 12;
/// What the tables of all sets of products may take together, at most; each is filled only when asked for.
inline constexpr std::size_t kMostTableBytes = std::size_t{256} << 20;

/// The least burdensome way to make every amount from one agent's products: an exact dynamic programme in
/// units of the greatest common divisor of the pieces, one table for each set of products, filled when first
/// asked for.
///
/// Ties are broken in a fixed order that does not depend on the order in which products are given: the fewest
/// products, then the set whose products come first (solids before liquids, stronger first), then at each
/// dose time the least liquid and the largest pieces first. Tables are filled lazily: use one object in one
/// thread.
class PieceTable {
  public:
    /// Products that are not of `drug`, doubled, or of zero strength are left out. `most` is the largest
    /// amount at one dose time that will be asked for.
    PieceTable(std::span<const Product> products, std::string_view drug, const PieceWeights& weights,
               Dose most);

    /// Why nothing can be searched, where it cannot: too many products, strengths that share no grid coarse
    /// enough, or tables for every set of these products that would not fit (kMostTableBytes).
    enum class Limit { none, products, grid, memory };
    /// False where a limit is met; nothing is makeable then.
    bool searchable() const { return limit_ == Limit::none; }
    Limit limit() const { return limit_; }
    /// The grid on which all makeable amounts lie; zero without products.
    Dose unit() const { return unit_; }
    /// In the table's order.
    const std::vector<Product>& products() const { return products_; }

    bool makes(Dose amount) const;
    /// Every makeable amount up to `most`, ascending, zero first.
    std::vector<Dose> makeable() const;
    /// The nearest makeable amounts at or below and at or above, where there are any up to `most`.
    std::pair<std::optional<Dose>, std::optional<Dose>> nearest(Dose amount) const;

    /// The least burden of a day with these amounts at its dose times, the products' own share included;
    /// kNotMakeable where one of them cannot be made. `used` receives the set of products.
    int day_burden(std::span<const Dose> amounts, ProductSet* used = nullptr) const;
    /// The pieces of a day, one list for each amount (empty for zero). Nothing where one cannot be made.
    std::optional<std::vector<std::vector<Piece>>> day_pieces(std::span<const Dose> amounts) const;

  private:
    struct Coin {
        std::size_t units;
        int burden;
        std::size_t product;
        Cut cut;
    };
    struct Liquid {
        std::size_t product;
        std::size_t step;  ///< in units
        Volume step_volume;
    };
    /// Costs in units, for one set of products: `burden[a]`, and what was taken last to reach a.
    struct Table {
        std::vector<int> burden;
        std::vector<std::uint8_t> coin;                  ///< index of the first coin
        std::vector<std::vector<std::uint32_t>> poured;  ///< for each liquid of the set, steps taken at a
    };

    struct Piecewise {
        std::size_t product;
        Cut cut;
        Dose amount;
        int burden;
    };
    void keep_products(std::span<const Product> products, std::string_view drug);
    std::vector<Piecewise> solid_pieces() const;
    std::size_t table_bytes(std::int64_t units, std::size_t liquids) const;
    void lay_grid(const std::vector<Piecewise>& pieces,
                  const std::vector<std::pair<std::size_t, Volume>>& steps, Dose most);
    void order_sets();
    std::optional<std::size_t> index(Dose amount) const;
    const Table& table(ProductSet set) const;
    Table solids(ProductSet set) const;
    void pour(Table& table, const Liquid& liquid) const;
    int sum(const Table& table, std::span<const std::size_t> indices) const;
    std::optional<std::vector<std::size_t>> indices(std::span<const Dose> amounts) const;
    int best_set(std::span<const std::size_t> indices, ProductSet& used) const;
    void trace_liquids(ProductSet set, std::size_t& at, std::vector<Piece>& pieces) const;
    std::vector<Piece> trace(ProductSet set, std::size_t at) const;

    PieceWeights weights_;
    std::vector<Product> products_;
    std::vector<Coin> coins_;
    std::vector<Liquid> liquids_;
    Dose unit_;
    std::size_t units_ = 0;  ///< `most` in units
    Limit limit_ = Limit::none;
    std::vector<ProductSet> sets_;                      ///< in the order of ties
    mutable std::vector<std::optional<Table>> tables_;  ///< by set
};

/// The least burdensome pieces for one dose on its own. Nothing where the amount cannot be made.
std::optional<std::vector<Piece>> pieces_for(Dose amount, std::string_view drug,
                                             std::span<const Product> products, const PieceWeights& weights);

/// The burden of a day of pieces as the rule counts it: an independent count, from the pieces themselves.
int burden_of(const std::vector<std::vector<Piece>>& day, const PieceWeights& weights);

}  // namespace evenfall
