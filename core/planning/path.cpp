// SPDX-License-Identifier: GPL-3.0-or-later
#include "planning/path.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>
#include <span>

namespace evenfall::planning {

double step_cost(const PathQuery& query, double ln_fall, int burden, int changed) {
    const double off = ln_fall + std::log1p(-query.target.value());
    return off * off + query.burden_weight * (burden + query.dose_time_weight * changed);
}

namespace {

constexpr double kNever = std::numeric_limits<double>::infinity();
constexpr std::uint32_t kNoNode = std::numeric_limits<std::uint32_t>::max();

std::int32_t total_of(std::span<const std::int32_t> amounts) {
    return std::accumulate(amounts.begin(), amounts.end(), std::int32_t{0});
}

// All regimens, totals descending; node 0 is the regimen now.
class Graph {
  public:
    Graph(const ShapeGrid& shape, const PieceTable& pieces, const PathQuery& query, std::stop_token stop)
        : query_(query), times_(query.from.size()), top_(total_of(query.from)), stop_(std::move(stop)) {
        first_.assign(static_cast<std::size_t>(top_) + 2, 0);
        add(query.from, 0);
        first_[static_cast<std::size_t>(top_)] = 0;
        std::vector<Dose> day(times_);
        for (std::int32_t total = top_ - 1; total >= std::max(query.end.value_or(1), 1); --total) {
            first_[static_cast<std::size_t>(total)] = nodes();
            if (stop_.stop_requested()) return;
            for (const Amounts& amounts : shape.regimens(total)) {
                for (std::size_t i = 0; i < times_; ++i) day[i] = pieces.unit() * amounts[i];
                const int burden = pieces.day_burden(day);
                if (burden < kNotMakeable) add(amounts, burden);
            }
        }
        bottom_ = std::max(query.end.value_or(1), 1);
        for (std::int32_t total = 0; total < top_; ++total)
            logs_.push_back(total > 0 ? std::log(static_cast<double>(total)) : 0);
        logs_.push_back(std::log(static_cast<double>(top_)));
    }

    bool stopped() const { return stop_.stop_requested(); }
    std::optional<Path> search();

  private:
    struct Reach {
        bool over_cap = false;
        std::int32_t nearest = 0;  // the total of the smallest reduction; 0 where there is none
    };

    std::uint32_t nodes() const { return static_cast<std::uint32_t>(totals_.size()); }
    void add(const Amounts& amounts, int burden) {
        amounts_.insert(amounts_.end(), amounts.begin(), amounts.end());
        totals_.push_back(total_of(amounts));
        burdens_.push_back(burden);
    }
    std::span<const std::int32_t> at(std::uint32_t node) const {
        return std::span(amounts_).subspan(node * times_, times_);
    }
    // The nodes of a total: [first, last).
    std::uint32_t first(std::int32_t total) const { return first_[static_cast<std::size_t>(total)]; }
    std::uint32_t last(std::int32_t total) const { return total > bottom_ ? first(total - 1) : nodes(); }

    // How many dose times change, or nothing where one rises, or one ends while another changes.
    std::optional<int> changes(std::uint32_t from, std::uint32_t to) const {
        const std::int32_t* u = &amounts_[from * times_];
        const std::int32_t* v = &amounts_[to * times_];
        int changed = 0, ended = 0;
        for (std::size_t i = 0; i < times_; ++i) {
            if (v[i] > u[i]) return std::nullopt;
            changed += v[i] != u[i];
            ended += v[i] == 0 && u[i] != 0;
        }
        if (ended > 0 && changed > 1) return std::nullopt;
        return changed;
    }

    std::int32_t least_within_cap(std::int32_t total) const {
        std::int32_t low = 0, high = total;  // the cut to `high` keeps the cap
        while (low < high) {
            const std::int32_t middle = low + (high - low) / 2;
            if (Share::of(total - middle, total) <= query_.cap)
                high = middle;
            else
                low = middle + 1;
        }
        return high;
    }

    // Calls use(node, changed) for each step that may follow, smaller cuts first.
    template <class Use>
    Reach each_step(std::uint32_t from, std::int32_t least, const Use& use) const {
        Reach reach;
        for (std::int32_t total = totals_[from] - 1; total >= bottom_; --total) {
            if (total < least && reach.nearest > 0) break;
            for (std::uint32_t to = first(total); to < last(total); ++to)
                if (const auto changed = changes(from, to)) {
                    if (reach.nearest == 0) reach = {total < least, total};
                    use(to, *changed);
                }
            if (reach.over_cap) break;
        }
        return reach;
    }

    void mark_reachable();
    void measure_back();
    void measure(std::uint32_t node, std::int32_t least);
    void measure_test();
    std::vector<std::int32_t> first_totals() const;
    Path trace() const;

    const PathQuery& query_;
    std::size_t times_;
    std::int32_t top_, bottom_ = 1;
    std::stop_token stop_;
    std::vector<std::int32_t> amounts_, totals_;
    std::vector<int> burdens_;
    std::vector<std::uint32_t> first_;
    std::vector<double> logs_, cost_;
    std::vector<std::uint32_t> next_;
    bool test_found_ = true;
};

// Raises the bottom to the least total that the regimen now can come down to.
void Graph::mark_reachable() {
    std::vector<bool> reached(nodes(), false);
    reached[0] = true;
    std::int32_t lowest = top_;
    for (std::uint32_t node = 0; node < nodes() && !stopped(); ++node) {
        if (!reached[node]) continue;
        lowest = totals_[node];
        each_step(node, least_within_cap(totals_[node]), [&](std::uint32_t to, int) { reached[to] = true; });
    }
    bottom_ = lowest;
    const std::uint32_t kept = lowest > 1 ? first(lowest - 1) : nodes();
    totals_.resize(kept);
    burdens_.resize(kept);
    amounts_.resize(kept * times_);
}

void Graph::measure(std::uint32_t node, std::int32_t least) {
    const double from = logs_[static_cast<std::size_t>(totals_[node])];
    each_step(node, least, [&](std::uint32_t to, int changed) {
        if (cost_[to] == kNever) return;
        const double fall = from - logs_[static_cast<std::size_t>(totals_[to])];
        const double cost = cost_[to] + step_cost(query_, fall, burdens_[to], changed);
        if (cost >= cost_[node]) return;
        cost_[node] = cost;
        next_[node] = to;
    });
}

void Graph::measure_back() {
    cost_.assign(nodes(), kNever);
    next_.assign(nodes(), kNoNode);
    std::int32_t total = 0, least = 0;
    for (std::uint32_t node = nodes(); node-- > 1 && !stopped();) {
        if (totals_[node] == bottom_) {
            cost_[node] = 0;
            continue;
        }
        if (totals_[node] != total) least = least_within_cap(total = totals_[node]);
        measure(node, least);
    }
    if (query_.test_least)
        measure_test();
    else
        measure(0, least_within_cap(top_));
}

// The totals that a first step may go to, from which the way down goes on, larger ones first.
std::vector<std::int32_t> Graph::first_totals() const {
    std::vector<std::int32_t> totals;
    each_step(0, least_within_cap(top_), [&](std::uint32_t to, int) {
        if (cost_[to] < kNever && (totals.empty() || totals.back() != totals_[to]))
            totals.push_back(totals_[to]);
    });
    return totals;
}

void Graph::measure_test() {
    const Share least = std::min(*query_.test_least, query_.target);
    const std::vector<std::int32_t> totals = first_totals();
    if (totals.empty()) return;
    const auto enough = std::find_if(totals.begin(), totals.end(), [&](std::int32_t total) {
        return Share::of(top_ - total, top_) >= least;
    });
    const std::int32_t chosen = enough != totals.end() ? *enough : totals.back();
    test_found_ = enough != totals.end() && Share::of(top_ - chosen, top_) <= query_.target;
    const std::int32_t least_total = least_within_cap(top_);
    each_step(0, least_total, [&](std::uint32_t to, int changed) {
        if (totals_[to] != chosen || cost_[to] == kNever) return;
        const double fall = logs_[static_cast<std::size_t>(top_)] - logs_[static_cast<std::size_t>(chosen)];
        const double cost = cost_[to] + step_cost(query_, fall, burdens_[to], changed);
        if (cost >= cost_[0]) return;
        cost_[0] = cost;
        next_[0] = to;
    });
}

Path Graph::trace() const {
    Path path;
    path.cost = cost_[0];
    path.test_found = test_found_;
    for (std::uint32_t node = 0; next_[node] != kNoNode; node = next_[node]) {
        const std::uint32_t to = next_[node];
        const Reach reach = each_step(node, least_within_cap(totals_[node]), [](std::uint32_t, int) {});
        const auto amounts = at(to);
        path.steps.push_back(
            {{amounts.begin(), amounts.end()}, reach.over_cap, totals_[to] == reach.nearest});
    }
    return path;
}

std::optional<Path> Graph::search() {
    if (!query_.end) mark_reachable();
    if (stopped() || bottom_ >= top_) return std::nullopt;
    measure_back();
    if (stopped() || cost_[0] == kNever) return std::nullopt;
    return trace();
}

}  // namespace

std::optional<Path> find_path(const ShapeGrid& shape, const PieceTable& pieces, const PathQuery& query,
                              const std::stop_token& stop) {
    Graph graph(shape, pieces, query, stop);
    if (graph.stopped()) return std::nullopt;
    return graph.search();
}

}  // namespace evenfall::planning
