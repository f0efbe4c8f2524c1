// SPDX-License-Identifier: GPL-3.0-or-later
#include "planning/path.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <numeric>
#include <span>

#include "planning/fall_queue.h"
#include "planning/trough.h"

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
        apart_ = std::min(shape.all_fall_beyond(), top_);
        for (std::int32_t total = 0; total <= top_; ++total) {
            logs_.push_back(total > 0 ? std::log(static_cast<double>(total)) : 0);
            least_.push_back(least_within_cap(total));
        }
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

    using Mask = std::uint32_t;  // the dose times that are left
    static_assert(kMostDoseTimes <= 32);

    Mask left(std::uint32_t node) const {
        Mask mask = 0;
        for (std::size_t i = 0; i < times_; ++i) mask |= Mask{amounts_[node * times_ + i] != 0} << i;
        return mask;
    }

    struct Changes {
        int changed = 0;
        std::optional<std::size_t> ended;
    };
    // How many dose times change, or nothing where one rises, or one ends while another changes.
    std::optional<Changes> changes(std::uint32_t from, std::uint32_t to) const {
        const std::int32_t* u = &amounts_[from * times_];
        const std::int32_t* v = &amounts_[to * times_];
        Changes found;
        for (std::size_t i = 0; i < times_; ++i) {
            if (v[i] > u[i]) return std::nullopt;
            found.changed += v[i] != u[i];
            if (v[i] == 0 && u[i] != 0) found.ended = i;
        }
        if (found.ended && found.changed > 1) return std::nullopt;
        return found;
    }

    // What the end of a dose time adds to a step's cost.
    double end_cost(std::uint32_t from, std::uint32_t to, const Changes& changes) const {
        if (!changes.ended || query_.end_weight == 0 || changes.ended == query_.ends_freely) return 0;
        const double lost = trough_share(at(from), query_.hours, query_.half_life_h) -
                            trough_share(at(to), query_.hours, query_.half_life_h);
        return query_.end_weight * std::max(lost, query_.end_least) * totals_[to] / query_.before;
    }

    double cost(std::uint32_t from, std::uint32_t to, const Changes& changes) const {
        const double fall =
            logs_[static_cast<std::size_t>(totals_[from])] - logs_[static_cast<std::size_t>(totals_[to])];
        return cost_[to] + step_cost(query_, fall, burdens_[to], changes.changed) +
               end_cost(from, to, changes);
    }

    // The lowest total that a cut within the cap reaches.
    std::int32_t least_within_cap(std::int32_t total) const {
        __extension__ using Wide = __int128;
        const Wide kept = query_.cap.denominator() - query_.cap.numerator(), all = query_.cap.denominator();
        return static_cast<std::int32_t>((kept * total + all - 1) / all);
    }
    std::int32_t least(std::uint32_t node) const { return least_[static_cast<std::size_t>(totals_[node])]; }

    // Calls use(node, changes) for the steps that may follow, smaller cuts first, down to a cut of `until`:
    // beyond it only until one is found.
    template <class Use>
    Reach each_step(std::uint32_t from, std::int32_t until, const Use& use) const {
        Reach reach;
        for (std::int32_t total = totals_[from] - 1; total >= bottom_; --total) {
            if (reach.nearest > 0 && (total < least(from) || total < until)) break;
            for (std::uint32_t to = first(total); to < last(total); ++to)
                if (const auto found = changes(from, to)) {
                    if (reach.nearest == 0) reach = {total < least(from), total};
                    use(to, *found);
                }
            if (reach.over_cap) break;
        }
        return reach;
    }
    // The lowest total above which pairs are looked at one by one; the regimen now need not keep the shape.
    std::int32_t near(std::uint32_t node) const {
        return node == 0 || apart_ >= totals_[node] ? 0 : totals_[node] - apart_;
    }

    void mark_reachable();
    void measure_back();
    void measure(std::uint32_t node);
    void measure_far(std::uint32_t node);
    void offer_far(std::int32_t total);
    void take(std::uint32_t node, std::uint32_t to, double cost) {
        if (cost >= cost_[node]) return;
        cost_[node] = cost;
        next_[node] = to;
    }
    void measure_test();
    std::vector<std::int32_t> first_totals() const;
    Path trace() const;

    const PathQuery& query_;
    std::size_t times_;
    std::int32_t top_, bottom_ = 1, apart_ = 0;
    std::stop_token stop_;
    std::vector<std::int32_t> amounts_, totals_, least_;
    std::vector<int> burdens_;
    std::vector<std::uint32_t> first_;
    std::vector<double> logs_, cost_;
    std::vector<std::uint32_t> next_;
    std::map<Mask, FallQueue> far_;
    bool test_found_ = true;
};

// Raises the bottom to the least total that the regimen now can come down to.
void Graph::mark_reachable() {
    std::vector<bool> reached(nodes(), false), goes_far(nodes(), false);
    std::map<Mask, std::int32_t> far_least;  // how far down the lowest total so far reaches, by what is left
    reached[0] = true;
    std::int32_t lowest = top_, offered = top_;
    for (std::uint32_t node = 0; node < nodes() && !stopped(); ++node) {
        for (; offered > totals_[node] + apart_; --offered)
            for (std::uint32_t from = first(offered); from < last(offered); ++from)
                if (goes_far[from]) far_least[left(from)] = least(from);
        const auto far = far_least.find(left(node));
        reached[node] = reached[node] || (far != far_least.end() && far->second <= totals_[node]);
        if (!reached[node]) continue;
        lowest = totals_[node];
        goes_far[node] = near(node) > 0 && !each_step(node, near(node), [&](std::uint32_t to, auto) {
                                                reached[to] = true;
                                            }).over_cap;
        if (near(node) == 0) each_step(node, 0, [&](std::uint32_t to, auto) { reached[to] = true; });
    }
    bottom_ = lowest;
    const std::uint32_t kept = lowest > 1 ? first(lowest - 1) : nodes();
    totals_.resize(kept);
    burdens_.resize(kept);
    amounts_.resize(kept * times_);
}

void Graph::measure(std::uint32_t node) {
    const Reach reach = each_step(node, near(node), [&](std::uint32_t to, const Changes& changes) {
        if (cost_[to] < kNever) take(node, to, cost(node, to, changes));
    });
    if (!reach.over_cap && near(node) > least(node)) measure_far(node);
}

// Every dose time that is left goes down, whichever regimen is fallen to: the best total is enough.
void Graph::measure_far(std::uint32_t node) {
    const auto queue = far_.find(left(node));
    const auto best = queue == far_.end() ? std::nullopt : queue->second.best(totals_[node]);
    if (!best) return;
    for (std::uint32_t to = first(*best); to < last(*best); ++to)
        if (cost_[to] < kNever && left(to) == left(node)) take(node, to, cost(node, to, *changes(node, to)));
}

// The regimens of a total can be fallen to from every total that is far enough above it.
void Graph::offer_far(std::int32_t total) {
    std::map<Mask, double> values;
    for (std::uint32_t to = first(total); to < last(total); ++to) {
        if (cost_[to] == kNever) continue;
        const double value = cost_[to] + query_.burden_weight * burdens_[to];
        const auto [at, is_new] = values.emplace(left(to), value);
        if (!is_new) at->second = std::min(at->second, value);
    }
    const double target_fall = -std::log1p(-query_.target.value());
    for (const auto& [mask, value] : values)
        far_.try_emplace(mask, logs_, least_, target_fall)
            .first->second.offer(total, value, total + apart_ + 1);
}

void Graph::measure_back() {
    cost_.assign(nodes(), kNever);
    next_.assign(nodes(), kNoNode);
    std::int32_t offered = bottom_;
    for (std::uint32_t node = nodes(); node-- > 1 && !stopped();) {
        for (; offered < totals_[node] - apart_; ++offered) offer_far(offered);
        if (totals_[node] == bottom_)
            cost_[node] = 0;
        else
            measure(node);
    }
    if (query_.test_least)
        measure_test();
    else
        measure(0);
}

// The totals that a first step may go to, from which the way down goes on, larger ones first.
std::vector<std::int32_t> Graph::first_totals() const {
    std::vector<std::int32_t> totals;
    each_step(0, 0, [&](std::uint32_t to, auto) {
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
    each_step(0, 0, [&](std::uint32_t to, const Changes& changes) {
        if (totals_[to] == chosen && cost_[to] < kNever) take(0, to, cost(0, to, changes));
    });
}

Path Graph::trace() const {
    Path path;
    path.cost = cost_[0];
    path.test_found = test_found_;
    for (std::uint32_t node = 0; next_[node] != kNoNode; node = next_[node]) {
        const std::uint32_t to = next_[node];
        const Reach reach = each_step(node, totals_[node], [](std::uint32_t, auto) {});
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
