// SPDX-License-Identifier: GPL-3.0-or-later
#include "planning/review.h"

#include <algorithm>
#include <set>

#include "planning/percent_text.h"
#include "planning/pieces.h"
#include "planning/review_totals.h"
#include "planning/taper_check.h"
#include "planning/taper_flags.h"
#include "units/dose_text.h"

namespace evenfall {

namespace {

std::vector<std::string> agents_in(const ReviewInput& input) {
    std::set<std::string> names;
    for (const DatedRegimen& entry : input.schedule)
        for (const std::string& agent : agents_of(entry.regimen)) names.insert(agent);
    return {names.begin(), names.end()};
}

std::string joined(const std::vector<std::string>& words) {
    std::string text;
    for (const std::string& each : words) text += (text.empty() ? "" : ", ") + each;
    return text;
}

Faults check(const ReviewInput& input, const std::vector<std::string>& agents) {
    if (input.schedule.empty()) return {{"review-empty", "schedule", {}}};
    Faults faults;
    for (std::size_t i = 1; i < input.schedule.size(); ++i)
        if (input.schedule[i].from <= input.schedule[i - 1].from)
            faults.push_back({"review-order",
                              "schedule[" + std::to_string(i) + "].starts",
                              {{"day", print_day(input.schedule[i].from)}}});
    if (input.cap <= Share::percent(0) || input.cap >= Share::percent(100))
        faults.push_back({"review-cap-range", "plan.cap_percent", {{"percent", print_percent(input.cap)}}});
    if (!input.drug.empty() && std::find(agents.begin(), agents.end(), input.drug) == agents.end())
        faults.push_back(
            {"review-drug-unknown", "plan.drug", {{"drug", input.drug}, {"taken", joined(agents)}}});
    return faults;
}

std::optional<DiazepamRange> as_diazepam_total(const std::map<std::string, Dose>& daily,
                                               const Formulary& formulary) {
    DiazepamRange total;
    for (const auto& [agent, amount] : daily) {
        if (amount.is_zero()) continue;
        const Drug* drug = formulary.find(agent);
        if (!drug || !drug->equivalence) return std::nullopt;
        total = total + as_diazepam(amount, *drug->equivalence);
    }
    return total;
}

// The amount that percentages are taken of: the named agent's, the only agent's, or the total as diazepam.
std::optional<Dose> measured(const ReviewedStep& step, const std::string& drug) {
    if (!drug.empty()) return step.daily.at(drug);
    if (step.daily.size() == 1) return step.daily.begin()->second;
    return step.diazepam ? std::optional(step.diazepam->usual) : std::nullopt;
}

class Reviewer {
  public:
    Reviewer(const ReviewInput& input, const Formulary& formulary, const Rules& rules,
             std::vector<std::string> agents)
        : input_(input), formulary_(formulary), rules_(rules), agents_(std::move(agents)) {}

    Review run() {
        lay_steps();
        for (std::size_t i = 1; i < review_.steps.size(); ++i) {
            check_cuts(i);
            check_dose_times(i);
        }
        check_windows();
        check_equal_amounts();
        check_pieces();
        for (const std::string& agent : agents_) check_days_without(agent);
        for (Finding& each : planning::review_totals(input_, review_.steps, agents_, formulary_, rules_))
            review_.findings.push_back(std::move(each));
        std::stable_sort(review_.findings.begin(), review_.findings.end(),
                         [](const Finding& a, const Finding& b) { return a.step < b.step; });
        return std::move(review_);
    }

  private:
    void lay_steps();
    void check_cuts(std::size_t i);
    void check_cut(std::size_t i, Dose before, Dose now, bool stops);
    void check_dose_times(std::size_t i);
    std::vector<std::pair<DoseTime, Dose>> matched(std::size_t i, const std::string& agent,
                                                   std::vector<DoseTime>& left) const;
    void check_windows();
    void check_equal_amounts();
    void check_pieces();
    void check_days_without(const std::string& agent);
    void find(std::size_t step, const std::string& rule, Args args) {
        review_.findings.push_back({{rule, std::move(args), {}}, static_cast<int>(step)});
    }
    Dose daily(std::size_t i, const std::string& agent) const { return review_.steps[i].daily.at(agent); }
    bool crossing(std::size_t i) const {
        return std::any_of(agents_.begin(), agents_.end(),
                           [&](const std::string& agent) { return daily(i, agent) > daily(i - 1, agent); });
    }

    const ReviewInput& input_;
    const Formulary& formulary_;
    const Rules& rules_;
    std::vector<std::string> agents_;
    Review review_;
};

void Reviewer::lay_steps() {
    for (std::size_t i = 0; i < input_.schedule.size(); ++i) {
        ReviewedStep step{static_cast<int>(i), input_.schedule[i].from, {}, {}, {}, {}, {}};
        const bool last = i + 1 == input_.schedule.size();
        const std::optional<Day> next = last ? input_.until : std::optional(input_.schedule[i + 1].from);
        if (next && *next > step.starts) step.days = static_cast<int>((*next - step.starts).count());
        for (const std::string& agent : agents_)
            step.daily[agent] = daily_amount(input_.schedule[i].regimen, agent);
        step.diazepam = as_diazepam_total(step.daily, formulary_);
        if (i > 0) {
            const auto first = measured(review_.steps.front(), input_.drug);
            const auto before = measured(review_.steps.back(), input_.drug);
            const auto now = measured(step, input_.drug);
            if (before && now && !before->is_zero()) step.percent_of_last = Share::cut(*before, *now);
            if (first && before && now && !first->is_zero())
                step.percent_of_first = Share::of((*before - *now).ng(), first->ng());
        }
        review_.steps.push_back(std::move(step));
    }
}

void Reviewer::check_cut(std::size_t i, Dose before, Dose now, bool stops) {
    if (before <= now || Share::cut(before, now) <= input_.cap) return;
    const auto [percent, cap] = planning::percents_apart(Share::cut(before, now), input_.cap);
    find(i, "cut-over-cap", {{"percent", percent}, {"cap", cap}});
    review_.keeps_the_cap = review_.keeps_the_cap && stops;
}

void Reviewer::check_cuts(std::size_t i) {
    const bool crosses = crossing(i);
    for (const std::string& agent : agents_) {
        if (!input_.drug.empty() && agent != input_.drug) continue;
        const bool never_again =
            std::all_of(review_.steps.begin() + static_cast<std::ptrdiff_t>(i), review_.steps.end(),
                        [&](const ReviewedStep& s) { return s.daily.at(agent).is_zero(); });
        const bool stops = !daily(i - 1, agent).is_zero() && never_again;
        if (stops && !crosses) find(i, "stop", {{"drug", agent}, {"dose", print_dose(daily(i - 1, agent))}});
        if (!crosses) check_cut(i, daily(i - 1, agent), daily(i, agent), stops);
    }
    const auto& before = review_.steps[i - 1].diazepam;
    const auto& now = review_.steps[i].diazepam;
    if (agents_.size() > 1 && before && now && (crosses || input_.drug.empty()))
        check_cut(i, before->usual, now->usual, now->usual.is_zero());
}

// What each dose time of an agent was before: the dose at the same hour, else, for one that was moved, the
// next in order of those that are left.
std::vector<std::pair<DoseTime, Dose>> Reviewer::matched(std::size_t i, const std::string& agent,
                                                         std::vector<DoseTime>& left) const {
    left = planning::dose_times_of(input_.schedule[i - 1].regimen, agent);
    std::vector<std::pair<DoseTime, Dose>> matched;
    std::vector<DoseTime> moved;
    for (const DoseTime& dose : planning::dose_times_of(input_.schedule[i].regimen, agent)) {
        const auto same =
            std::find_if(left.begin(), left.end(), [&](const DoseTime& each) { return each.at == dose.at; });
        if (same == left.end()) {
            moved.push_back(dose);
            continue;
        }
        matched.emplace_back(dose, same->amount);
        left.erase(same);
    }
    for (const DoseTime& dose : moved) {
        matched.emplace_back(dose, left.empty() ? Dose() : left.front().amount);
        if (!left.empty()) left.erase(left.begin());
    }
    return matched;
}

void Reviewer::check_dose_times(std::size_t i) {
    for (const std::string& agent : agents_) {
        if (daily(i, agent) >= daily(i - 1, agent) || daily(i, agent).is_zero()) continue;
        std::vector<DoseTime> dropped;
        std::vector<ClockTime> now;
        for (const auto& [dose, before] : matched(i, agent, dropped)) {
            now.push_back(dose.at);
            if (dose.amount > before)
                find(i, "dose-time-rises",
                     {{"drug", agent},
                      {"at", print_clock(dose.at)},
                      {"from", print_dose(before)},
                      {"to", print_dose(dose.amount)}});
        }
        if (crossing(i)) continue;
        std::sort(now.begin(), now.end());
        for (const DoseTime& dose : dropped)
            find(i, "dose-time-dropped",
                 {{"at", print_clock(dose.at)},
                  {"gap_h", planning::in_hours(planning::longest_gap_minutes(now))}});
    }
}

void Reviewer::check_windows() {
    std::vector<Day> starts;
    std::vector<Dose> amounts;
    for (const ReviewedStep& step : review_.steps) {
        const auto amount = measured(step, input_.drug);
        if (!amount) return;
        if (step.number > 0) starts.push_back(step.starts);
        amounts.push_back(*amount);
    }
    const int days = rules_.whole("fall-over-two-weeks", "days");
    const std::vector<Share> falls = planning::window_falls(starts, amounts, days);
    for (std::size_t i = 0; i < falls.size(); ++i)
        if (const Share limit = rules_.percent("fall-over-two-weeks", "percent"); falls[i] > limit)
            find(i + 1, "fall-over-two-weeks",
                 {{"percent", planning::percents_apart(falls[i], limit).first},
                  {"days", std::to_string(days)}});
}

// Three or more equal falls in a row, each the same share of the first amount and a growing share of the
// last: all falls of the schedule, or a run that ends over the cap.
void Reviewer::check_equal_amounts() {
    std::vector<std::size_t> falls;
    for (std::size_t i = 1; i < review_.steps.size(); ++i) {
        const ReviewedStep& step = review_.steps[i];
        if (step.percent_of_first && *step.percent_of_first > Share()) falls.push_back(i);
    }
    const auto share = [&](std::size_t k) { return *review_.steps[falls[k]].percent_of_first; };
    constexpr std::size_t kLeastFalls = 3;
    for (std::size_t first = 0, next = 0; first < falls.size(); first = next) {
        while (next < falls.size() && share(next) == share(first)) ++next;
        if (next - first < kLeastFalls) continue;
        const Share last = review_.steps[falls[next - 1]].percent_of_last.value_or(Share());
        if (next - first == falls.size() || last > input_.cap)
            find(falls[first], "percent-of-first",
                 {{"percent", print_percent(share(first))}, {"last_percent", print_percent(last)}});
    }
}

void Reviewer::check_pieces() {
    if (input_.products.empty()) return;
    const PieceWeights weights = PieceWeights::from(rules_);
    for (std::size_t i = 0; i < input_.schedule.size(); ++i)
        for (const DoseTime& dose : input_.schedule[i].regimen.doses) {
            Dose beyond = dose.amount;
            for (const Product& product : input_.products)
                beyond = std::max(beyond, dose.amount + product.strength);
            const PieceTable table(input_.products, dose.drug, weights, beyond);
            if (table.products().empty() || table.makes(dose.amount)) continue;
            const auto [below, above] = table.nearest(dose.amount);
            const std::string nearest = below ? print_dose(*below) : above ? print_dose(*above) : "";
            find(i, "not-makeable",
                 {{"drug", dose.drug},
                  {"at", print_clock(dose.at)},
                  {"amount", print_dose(dose.amount)},
                  {"nearest", nearest}});
        }
}

// Days without the agent between days with it.
void Reviewer::check_days_without(const std::string& agent) {
    bool taken = false;
    for (std::size_t i = 0; i < review_.steps.size(); ++i) {
        if (!daily(i, agent).is_zero()) {
            taken = true;
            continue;
        }
        std::size_t next = i;
        while (next < review_.steps.size() && daily(next, agent).is_zero()) ++next;
        if (taken && next < review_.steps.size()) {
            const auto days = (review_.steps[next].starts - review_.steps[i].starts).count();
            find(i, "skipped-day",
                 {{"drug", agent},
                  {"days", std::to_string(days)},
                  {"day", print_day(review_.steps[i].starts)}});
        }
        i = next;
        taken = true;
    }
}

}  // namespace

Result<Review> review_schedule(const ReviewInput& input, const Formulary& formulary, const Rules& rules) {
    std::vector<std::string> agents = agents_in(input);
    Faults faults = check(input, agents);
    if (!faults.empty()) return faults;
    return Reviewer(input, formulary, rules, std::move(agents)).run();
}

}  // namespace evenfall
