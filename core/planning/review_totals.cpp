// SPDX-License-Identifier: GPL-3.0-or-later
#include "planning/review_totals.h"

#include <algorithm>
#include <map>

#include "planning/percent_text.h"
#include "planning/taper_check.h"
#include "units/dose_text.h"

namespace evenfall::planning {

namespace {

class Totals {
  public:
    Totals(const ReviewInput& input, const std::vector<ReviewedStep>& steps,
           const std::vector<std::string>& agents, const Rules& rules)
        : input_(input), steps_(steps), agents_(agents), rules_(rules) {}

    std::vector<Finding> run(const Formulary& formulary) {
        check_equivalences(formulary);
        for (std::size_t i = 1; i < steps_.size(); ++i) {
            check_rise(i);
            check_shares(i);
            check_interval(i);
            check_several(i);
        }
        check_start();
        return std::move(findings_);
    }

  private:
    void find(std::size_t step, const std::string& rule, Args args) {
        findings_.push_back({{rule, std::move(args), {}}, static_cast<int>(step)});
    }
    Dose daily(std::size_t i, const std::string& agent) const { return steps_[i].daily.at(agent); }
    bool falls(std::size_t i, const std::string& agent) const {
        return daily(i, agent) < daily(i - 1, agent);
    }
    bool rises(std::size_t i, const std::string& agent) const {
        return daily(i, agent) > daily(i - 1, agent);
    }
    bool any_falls(std::size_t i) const {
        return std::ranges::any_of(agents_, [&](const std::string& agent) { return falls(i, agent); });
    }
    bool any_rises(std::size_t i) const {
        return std::ranges::any_of(agents_, [&](const std::string& agent) { return rises(i, agent); });
    }

    void check_equivalences(const Formulary& formulary) {
        if (agents_.size() < 2) return;
        for (const std::string& agent : agents_) {
            const Drug* drug = formulary.find(agent);
            if (!drug || !drug->equivalence) find(0, "no-equivalence", {{"drug", agent}});
        }
    }

    // An agent that goes up without another coming down, or a total of several that goes up.
    void check_rise(std::size_t i) {
        for (const std::string& agent : agents_)
            if (rises(i, agent) && !any_falls(i))
                find(i, "total-rises",
                     {{"drug", agent},
                      {"from", print_dose(daily(i - 1, agent))},
                      {"to", print_dose(daily(i, agent))}});
        const auto &before = steps_[i - 1].diazepam, &now = steps_[i].diazepam;
        if (any_falls(i) && any_rises(i) && before && now && now->usual > before->usual)
            find(i, "total-rises",
                 {{"drug", "diazepam-equivalent"},
                  {"from", print_dose(before->usual)},
                  {"to", print_dose(now->usual)}});
    }

    // The day's amount of an agent stays, but a dose time goes up.
    void check_shares(std::size_t i) {
        for (const std::string& agent : agents_) {
            if (daily(i, agent) != daily(i - 1, agent)) continue;
            std::map<ClockTime, Dose> before;
            for (const DoseTime& dose : dose_times_of(input_.schedule[i - 1].regimen, agent))
                before[dose.at] += dose.amount;
            std::string at;
            for (const DoseTime& dose : dose_times_of(input_.schedule[i].regimen, agent))
                if (dose.amount > before[dose.at]) at += (at.empty() ? "" : ", ") + print_clock(dose.at);
            if (!at.empty()) find(i, "redistributed", {{"drug", agent}, {"at", at}});
        }
    }

    // Only from one cut to the next: how long the first entry stood before is not known.
    void check_interval(std::size_t i) {
        if (i < 2 || !any_falls(i) || any_rises(i) || !any_falls(i - 1)) return;
        const auto days = (steps_[i].starts - steps_[i - 1].starts).count();
        if (days < rules_.whole("step-interval", "least_days"))
            find(i, "step-interval", {{"step_days", std::to_string(days)}});
    }

    void check_several(std::size_t i) {
        std::string names;
        int count = 0;
        for (const std::string& agent : agents_)
            if (falls(i, agent)) {
                names += (names.empty() ? "" : ", ") + agent;
                ++count;
            }
        const auto &before = steps_[i - 1].diazepam, &now = steps_[i].diazepam;
        if (count < 2 || !before || !now || before->usual.is_zero()) return;
        const Share cut = Share::cut(before->usual, now->usual);
        find(i, "two-agents-fall", {{"drugs", names}, {"percent", percents_apart(cut, input_.cap).first}});
    }

    void check_start() {
        if (!input_.today || steps_.size() < 2 || steps_[1].starts >= *input_.today) return;
        find(1, "start-in-past", {{"day", print_day(steps_[1].starts)}, {"today", print_day(*input_.today)}});
    }

    const ReviewInput& input_;
    const std::vector<ReviewedStep>& steps_;
    const std::vector<std::string>& agents_;
    const Rules& rules_;
    std::vector<Finding> findings_;
};

}  // namespace

std::vector<Finding> review_totals(const ReviewInput& input, const std::vector<ReviewedStep>& steps,
                                   const std::vector<std::string>& agents, const Formulary& formulary,
                                   const Rules& rules) {
    return Totals(input, steps, agents, rules).run(formulary);
}

}  // namespace evenfall::planning
