// SPDX-License-Identifier: GPL-3.0-or-later
#include "planning/pieces.h"

#include <algorithm>
#include <bit>
#include <numeric>

namespace evenfall {

namespace {

// Beyond this a table would not fit a laptop's cache, and strengths that share no coarser grid are a slip.
constexpr std::int64_t kMostUnits = 1 << 20;

Cuts finest_cut(const Product& product) {
    const bool one_piece = is_liquid(product.form) || is_modified_release(product.form) ||
                           product.form == Form::capsule || product.form == Form::oral_spray;
    return one_piece ? Cuts::whole : product.cuts;
}

bool listed_before(const Product& a, const Product& b) {
    if (is_liquid(a.form) != is_liquid(b.form)) return is_liquid(b.form);
    if (a.strength != b.strength) return a.strength > b.strength;
    return a < b;
}

// The smallest volume in steps of the measure that holds a whole number of nanograms.
std::optional<Volume> exact_step(const Product& liquid) {
    constexpr int kMostSteps = 1000;
    for (int n = 1; n <= kMostSteps; ++n)
        if (amount_in(liquid.measure * n, liquid.strength)) return liquid.measure * n;
    return std::nullopt;
}

}  // namespace

PieceWeights PieceWeights::from(const Rules& rules) {
    PieceWeights weights;
    weights.product = rules.whole("piece-weights", "product");
    weights.piece = rules.whole("piece-weights", "piece");
    weights.quarter = rules.whole("piece-weights", "quarter");
    weights.half = rules.whole("piece-weights", "half");
    weights.pour = Volume::millilitres(rules.whole("piece-weights", "ml_per_piece"));
    weights.most = Volume::millilitres(rules.whole("piece-weights", "most_ml"));
    return weights;
}

PieceTable::PieceTable(std::span<const Product> products, std::string_view drug, const PieceWeights& weights,
                       Dose most)
    : weights_(weights) {
    keep_products(products, drug);
    if (products_.size() > kMostProducts) {
        limit_ = Limit::products;
        products_.resize(kMostProducts);
    }
    std::vector<std::pair<std::size_t, Volume>> steps;
    for (std::size_t i = 0; i < products_.size(); ++i)
        if (is_liquid(products_[i].form))
            if (const auto step = exact_step(products_[i])) steps.emplace_back(i, *step);
    lay_grid(solid_pieces(), steps, most);
    order_sets();
}

void PieceTable::keep_products(std::span<const Product> products, std::string_view drug) {
    for (const Product& product : products) {
        const bool measured = !is_liquid(product.form) || product.measure > Volume();
        if (product.drug == drug && product.strength > Dose() && measured) products_.push_back(product);
    }
    std::sort(products_.begin(), products_.end(), listed_before);
    products_.erase(std::unique(products_.begin(), products_.end()), products_.end());
}

std::vector<PieceTable::Piecewise> PieceTable::solid_pieces() const {
    std::vector<Piecewise> pieces;
    for (std::size_t i = 0; i < products_.size(); ++i) {
        const Product& product = products_[i];
        if (is_liquid(product.form)) continue;
        pieces.push_back({i, Cut::whole, product.strength, weights_.piece});
        const Cuts finest = finest_cut(product);
        const auto half = product.strength.part(2);
        const auto quarter = product.strength.part(4);
        if (finest != Cuts::whole && half)
            pieces.push_back({i, Cut::half, *half, weights_.piece + weights_.half});
        if (finest == Cuts::quarters && quarter)
            pieces.push_back({i, Cut::quarter, *quarter, weights_.piece + weights_.quarter});
    }
    std::stable_sort(pieces.begin(), pieces.end(),
                     [](const Piecewise& a, const Piecewise& b) { return a.amount > b.amount; });
    return pieces;
}

// Every set has a burden and a coin for each unit; half of the sets hold each liquid, with a volume for each
// unit.
std::size_t PieceTable::table_bytes(std::int64_t units, std::size_t liquids) const {
    const std::size_t sets = std::size_t{1} << products_.size();
    const std::size_t each = sizeof(int) + sizeof(std::uint8_t);
    return static_cast<std::size_t>(units + 1) * (sets * each + sets / 2 * liquids * sizeof(std::uint32_t));
}

void PieceTable::lay_grid(const std::vector<Piecewise>& pieces,
                          const std::vector<std::pair<std::size_t, Volume>>& steps, Dose most) {
    std::int64_t unit = 0;
    for (const Piecewise& piece : pieces) unit = std::gcd(unit, piece.amount.ng());
    for (const auto& [product, step] : steps)
        unit = std::gcd(unit, amount_in(step, products_[product].strength)->ng());
    unit_ = Dose::nanograms(unit);
    if (unit == 0) return;
    if (searchable() && most.ng() / unit > kMostUnits) limit_ = Limit::grid;
    if (searchable() && table_bytes(most.ng() / unit, steps.size()) > kMostTableBytes) limit_ = Limit::memory;
    units_ = searchable() ? static_cast<std::size_t>(std::max<std::int64_t>(most.ng(), 0) / unit) : 0;
    for (const Piecewise& piece : pieces)
        coins_.push_back(
            {static_cast<std::size_t>(piece.amount.ng() / unit), piece.burden, piece.product, piece.cut});
    for (const auto& [product, step] : steps) {
        const Dose amount = *amount_in(step, products_[product].strength);
        liquids_.push_back({product, static_cast<std::size_t>(amount.ng() / unit), step});
    }
}

void PieceTable::order_sets() {
    const ProductSet count = ProductSet{1} << products_.size();
    sets_.resize(count);
    std::iota(sets_.begin(), sets_.end(), ProductSet{0});
    std::sort(sets_.begin(), sets_.end(), [](ProductSet a, ProductSet b) {
        if (std::popcount(a) != std::popcount(b)) return std::popcount(a) < std::popcount(b);
        const ProductSet differ = a ^ b;
        return (a & (differ & (~differ + 1))) != 0;
    });
    tables_.resize(count);
}

std::optional<std::size_t> PieceTable::index(Dose amount) const {
    if (!searchable() || amount < Dose()) return std::nullopt;
    if (amount.is_zero()) return 0;
    if (unit_.is_zero() || amount.ng() % unit_.ng() != 0) return std::nullopt;
    const auto at = static_cast<std::size_t>(amount.ng() / unit_.ng());
    return at <= units_ ? std::optional(at) : std::nullopt;
}

const PieceTable::Table& PieceTable::table(ProductSet set) const {
    std::optional<Table>& kept = tables_[set];
    if (!kept) {
        kept = solids(set);
        for (const Liquid& liquid : liquids_)
            if (set >> liquid.product & 1U) pour(*kept, liquid);
    }
    return *kept;
}

PieceTable::Table PieceTable::solids(ProductSet set) const {
    std::vector<std::pair<Coin, std::uint8_t>> allowed;
    for (std::size_t c = 0; c < coins_.size(); ++c)
        if (set >> coins_[c].product & 1U) allowed.emplace_back(coins_[c], static_cast<std::uint8_t>(c));
    Table table{std::vector<int>(units_ + 1, kNotMakeable), std::vector<std::uint8_t>(units_ + 1), {}};
    table.burden[0] = 0;
    for (std::size_t at = 1; at <= units_; ++at)
        for (const auto& [coin, c] : allowed) {
            if (coin.units > at || table.burden[at - coin.units] + coin.burden >= table.burden[at]) continue;
            table.burden[at] = table.burden[at - coin.units] + coin.burden;
            table.coin[at] = c;
        }
    return table;
}

// One liquid added to a table: the least over every volume at one time. A sliding minimum for each started
// pour, along each residue of the liquid's step, so that a fine measure costs no more than a coarse one.
void PieceTable::pour(Table& table, const Liquid& liquid) const {
    const std::vector<int> before = table.burden;
    std::vector<std::uint32_t>& poured = table.poured.emplace_back(units_ + 1, 0U);
    const std::int64_t step_nl = liquid.step_volume.nl();
    const auto most = static_cast<std::size_t>(weights_.most.nl() / step_nl);
    std::vector<std::size_t> window;
    std::size_t low = 1;
    for (int pours = 1; low <= most; ++pours) {
        const std::size_t high =
            std::min(most, static_cast<std::size_t>(weights_.pour.nl() * pours / step_nl));
        for (std::size_t residue = 0; residue < liquid.step && residue <= units_; ++residue) {
            window.clear();
            std::size_t head = 0;
            for (std::size_t i = low, at = residue + low * liquid.step; at <= units_;
                 ++i, at += liquid.step) {
                const auto cost = [&](std::size_t k) { return before[residue + k * liquid.step]; };
                const std::size_t entering = i - low;
                while (window.size() > head && cost(window.back()) >= cost(entering)) window.pop_back();
                window.push_back(entering);
                while (window[head] + high < i) ++head;
                const int total = cost(window[head]) + weights_.piece * pours;
                if (total >= table.burden[at]) continue;
                table.burden[at] = total;
                poured[at] = static_cast<std::uint32_t>(i - window[head]);
            }
        }
        low = std::max(low, high + 1);
    }
}

int PieceTable::sum(const Table& table, std::span<const std::size_t> indices) const {
    int total = 0;
    for (const std::size_t at : indices) {
        if (table.burden[at] >= kNotMakeable) return kNotMakeable;
        total += table.burden[at];
    }
    return total;
}

int PieceTable::best_set(std::span<const std::size_t> indices, ProductSet& used) const {
    // With every product at once no day can cost less, so larger sets are tried only while they could still
    // win.
    const int least = sum(table(sets_.back()), indices);
    int best = kNotMakeable;
    if (least >= kNotMakeable) return best;
    for (const ProductSet set : sets_) {
        const int share = weights_.product * std::popcount(set);
        if (share + least >= best) break;
        const int pieces = sum(table(set), indices);
        if (pieces >= kNotMakeable || share + pieces >= best) continue;
        best = share + pieces;
        used = set;
    }
    return best;
}

bool PieceTable::makes(Dose amount) const {
    const auto at = index(amount);
    return at && table(sets_.back()).burden[*at] < kNotMakeable;
}

std::vector<Dose> PieceTable::makeable() const {
    std::vector<Dose> amounts;
    const Table& all = table(sets_.back());
    for (std::size_t at = 0; at <= units_; ++at)
        if (all.burden[at] < kNotMakeable) amounts.push_back(unit_ * static_cast<std::int64_t>(at));
    return amounts;
}

std::pair<std::optional<Dose>, std::optional<Dose>> PieceTable::nearest(Dose amount) const {
    std::pair<std::optional<Dose>, std::optional<Dose>> found;
    for (const Dose each : makeable()) {
        if (each <= amount) found.first = each;
        if (each >= amount && !found.second) found.second = each;
    }
    return found;
}

std::optional<std::vector<std::size_t>> PieceTable::indices(std::span<const Dose> amounts) const {
    std::vector<std::size_t> found;
    found.reserve(amounts.size());
    for (const Dose amount : amounts) {
        const auto at = index(amount);
        if (!at) return std::nullopt;
        found.push_back(*at);
    }
    return found;
}

int PieceTable::day_burden(std::span<const Dose> amounts, ProductSet* used) const {
    const auto at = indices(amounts);
    if (!at) return kNotMakeable;
    ProductSet set = 0;
    const int best = best_set(*at, set);
    if (used) *used = set;
    return best;
}

std::optional<std::vector<std::vector<Piece>>> PieceTable::day_pieces(std::span<const Dose> amounts) const {
    ProductSet set = 0;
    if (day_burden(amounts, &set) >= kNotMakeable) return std::nullopt;
    std::vector<std::vector<Piece>> day;
    for (const Dose amount : amounts) day.push_back(trace(set, *index(amount)));
    return day;
}

void PieceTable::trace_liquids(ProductSet set, std::size_t& at, std::vector<Piece>& pieces) const {
    const Table& from = table(set);
    std::size_t layer = from.poured.size();
    for (auto liquid = liquids_.rbegin(); liquid != liquids_.rend(); ++liquid) {
        if (!(set >> liquid->product & 1U)) continue;
        const std::uint32_t steps = from.poured[--layer][at];
        at -= steps * liquid->step;
        if (steps > 0)
            pieces.push_back({products_[liquid->product], Cut::ml, 1, liquid->step_volume * steps});
    }
}

std::vector<Piece> PieceTable::trace(ProductSet set, std::size_t at) const {
    std::vector<Piece> liquids;
    trace_liquids(set, at, liquids);
    std::vector<int> counts(coins_.size(), 0);
    for (const Table& from = table(set); at > 0; at -= coins_[from.coin[at]].units) ++counts[from.coin[at]];
    std::vector<Piece> pieces;
    for (std::size_t product = 0; product < products_.size(); ++product)
        for (std::size_t c = 0; c < coins_.size(); ++c)
            if (coins_[c].product == product && counts[c] > 0)
                pieces.push_back({products_[product], coins_[c].cut, counts[c], {}});
    pieces.insert(pieces.end(), liquids.rbegin(), liquids.rend());
    return pieces;
}

std::optional<std::vector<Piece>> pieces_for(Dose amount, std::string_view drug,
                                             std::span<const Product> products, const PieceWeights& weights) {
    const PieceTable table(products, drug, weights, amount);
    const auto day = table.day_pieces(std::span(&amount, 1));
    if (!day) return std::nullopt;
    return day->front();
}

int burden_of(const std::vector<std::vector<Piece>>& day, const PieceWeights& weights) {
    int total = 0;
    std::vector<Product> used;
    for (const std::vector<Piece>& dose : day)
        for (const Piece& piece : dose) {
            const std::int64_t pours = (piece.volume.nl() + weights.pour.nl() - 1) / weights.pour.nl();
            total += weights.piece * (piece.cut == Cut::ml ? static_cast<int>(pours) : piece.count);
            if (piece.cut == Cut::quarter) total += weights.quarter * piece.count;
            if (piece.cut == Cut::half) total += weights.half * piece.count;
            if (std::find(used.begin(), used.end(), piece.product) == used.end())
                used.push_back(piece.product);
        }
    return total + weights.product * static_cast<int>(used.size());
}

}  // namespace evenfall
