// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <cmath>
#include <cstdio>

#include "response/assess.h"
#include "units/letters.h"

namespace evenfall::response {
namespace {

using std::chrono::days;

std::string points(double value) {
    char text[32];
    std::snprintf(text, sizeof text, "%.1f", std::abs(value) < 0.05 ? 0.0 : value);
    return text;
}

/// Applies the decision table to what was found.
class Table {
  public:
    Table(const Context& context, const std::vector<StepTaken>& steps, const RedFlags& red,
          ResponseView& view)
        : context_(context), rules_(context.rules), steps_(steps), red_(red), view_(view) {}

    void apply() {
        for (const Flag& flag : red_.unanswered) add(Act::contact_again, ResponseUrgency::today, flag);
        if (red_.any())
            danger();
        else
            course();
        if (red_.ask_prescriber || marked_) lay_out_options();
        std::ranges::stable_sort(view_.suggestions, [](const Suggestion& a, const Suggestion& b) {
            return std::pair(a.urgency, a.act) < std::pair(b.urgency, b.act);
        });
    }

  private:
    /// Adds a reason; one act stands once, with its most urgent reason's urgency.
    void add(Act act, ResponseUrgency urgency, const Flag& because) {
        auto found = std::ranges::find(view_.suggestions, act, &Suggestion::act);
        if (found == view_.suggestions.end()) {
            view_.suggestions.push_back({act, urgency, {because}});
            return;
        }
        found->urgency = std::min(found->urgency, urgency);
        if (std::ranges::find(found->because, because) == found->because.end())
            found->because.push_back(because);
    }

    /// A red flag outranks everything: nothing is said about a next cut beside it.
    void danger() {
        for (const Flag& flag : red_.emergencies) add(Act::emergency, ResponseUrgency::emergency, flag);
        for (const Flag& flag : red_.same_day) add(Act::call_today, ResponseUrgency::today, flag);
        add(Act::hold, ResponseUrgency::today,
            {red_.emergencies.empty() ? "decide-same-day" : "decide-emergency", {}, {}});
    }

    void course() {
        bool no_cut = false;
        if (const auto off = doses_off(context_)) {
            add(Act::hold, ResponseUrgency::next_visit, *off);
            add(Act::contact_again, ResponseUrgency::next_visit, *off);
            no_cut = true;
        }
        for (const Flag& worse : scales_worse(context_)) {
            add(Act::hold, ResponseUrgency::next_visit, worse);
            no_cut = true;
        }
        if (view_.steps.empty())
            return add(Act::contact_again, ResponseUrgency::routine, {"response-no-step", {}, {}});
        last_ = &view_.steps.back();
        if (steps_.back().until <= context_.today())
            return add(Act::contact_again, ResponseUrgency::next_visit,
                       {"decide-changed-since", step_args(), {}});
        if (last_->off) return after_off();
        if (!last_->rise) return too_little();
        look_at_spacing();
        if (!last_->settled)
            unsettled();
        else if (!no_cut)
            settled();
    }

    Args step_args() const {
        return {{"number", std::to_string(last_->number)},
                {"days", std::to_string(last_->days)},
                {"rise", points(last_->rise ? last_->rise->latest : 0)},
                {"limit", points(last_->rise ? clear_limit(*last_->rise, rules_) : 0)}};
    }

    void after_off() {
        add(Act::contact_again, ResponseUrgency::routine, {"decide-after-off", {}, {}});
        if (!last_->rise || last_->settled) return;
        if (is_marked()) return call_today();
        const bool long_after = last_->days > rules_.whole("decide-protracted", "days");
        add(Act::contact_again, ResponseUrgency::next_visit,
            {long_after ? "decide-protracted" : "decide-wait", step_args(), {}});
    }

    void too_little() {
        const bool early = last_->days <= last_->lag_days + rules_.whole("response-window", "least_days");
        if (early)
            add(Act::contact_again, ResponseUrgency::routine, {"decide-too-early", judged_from(), {}});
        else
            add(Act::contact_again, ResponseUrgency::next_visit, {"response-few", step_args(), {}});
    }

    Args judged_from() const {
        Args args = step_args();
        args["on"] = print_day(last_->starts + days(wait()));
        return args;
    }

    void look_at_spacing() {
        for (const Flag& flag : last_->says)
            if (flag.rule == "between-dose-shown")
                add(Act::look_at_spacing, ResponseUrgency::next_visit, flag);
    }

    bool is_marked() const {
        return last_->rise->latest >= rules_.number("decide-marked", "rise") ||
               last_->rise->before + last_->rise->latest >= rules_.number("decide-marked", "level");
    }

    void call_today() {
        marked_ = true;
        Args args = step_args();
        args["level"] = points(last_->rise->before + last_->rise->latest);
        add(Act::call_today, ResponseUrgency::today, {"decide-marked", args, {}});
    }

    void slower(const Flag& because) {
        add(Act::smaller_cut, ResponseUrgency::next_visit, because);
        add(Act::later_cut, ResponseUrgency::next_visit, because);
    }

    void unsettled() {
        const int interval =
            std::max(context_.input.days_per_step, rules_.whole("step-interval", "least_days"));
        const Flag wait{"decide-wait", step_args(), {}};
        if (is_marked()) {
            call_today();
            add(Act::hold, ResponseUrgency::today, view_.suggestions.back().because.back());
            return slower({"decide-slower", step_args(), {}});
        }
        if (last_->told_apart == ToldApart::recurrence)
            return add(Act::hold, ResponseUrgency::next_visit, {"decide-recurrence", step_args(), {}});
        if (last_->days < interval) return add(Act::contact_again, ResponseUrgency::next_visit, wait);
        const Flag hold{"decide-hold", step_args(), {}};
        add(Act::hold, ResponseUrgency::next_visit, hold);
        if (last_->days >= interval + 2 * rules_.whole("decide-two-holds", "days_per_hold"))
            slower({"decide-two-holds", step_args(), {}});
    }

    int wait() const { return wait_of(context_, steps_.back()); }

    void settled() {
        if (last_->days < wait())
            return add(Act::contact_again, ResponseUrgency::routine, {"decide-too-early", judged_from(), {}});
        add(Act::eligible_for_review, ResponseUrgency::routine, {"decide-eligible", step_args(), {}});
        unasked();
        if (last_->clear) return slower({"decide-slower", step_args(), {}});
        from_sensitivity();
    }

    /// The questions that no call of the last days has put.
    void unasked() {
        const LocalTime from = context_.input.as_of - days(rules_.whole("gate-red-flag", "days"));
        Flag flag{"decide-unasked", {}, {}};
        for (const auto& [id, rule] : rules_.all()) {
            if (rule.group != "red-flag" || !id.starts_with("red-flag-")) continue;
            if (!asked_since(id, from)) flag.entries.push_back(id);
        }
        if (flag.entries.empty()) return;
        flag.args["count"] = std::to_string(flag.entries.size());
        add(Act::contact_again, ResponseUrgency::next_visit, flag);
    }

    bool asked_since(const std::string& id, LocalTime from) const {
        for (const CheckIn& call : context_.input.checkins)
            if (call.at >= from && call.at <= context_.input.as_of)
                for (const auto& [question, answer] : call.answers)
                    if ("red-flag-" + with_dashes(question) == id && (answer == "no" || answer == "yes"))
                        return true;
        return false;
    }

    /// A good test or a good course permits more within the cap, as a poor one asks for less.
    void from_sensitivity() {
        const Sensitivity& learnt = view_.sensitivity;
        const Share planned = std::min(context_.input.target, context_.input.cap);
        if (learnt.estimate) {
            const double fall = std::log(1 / (1 - planned.value())) / std::log(1 / 0.9);
            const bool too_much =
                learnt.estimate->middle * fall > rules_.number("sensitivity", "tolerable_points");
            if (*learnt.proposed_target > planned)
                add(Act::larger_cut, ResponseUrgency::routine, learnt.says.front());
            else if (too_much && *learnt.proposed_target < planned)
                add(Act::smaller_cut, ResponseUrgency::next_visit, learnt.says.front());
            return;
        }
        if (last_->cut < planned)
            add(Act::larger_cut, ResponseUrgency::routine,
                {"decide-good-test",
                 {{"number", std::to_string(last_->number)},
                  {"cut", print_percent(last_->cut)},
                  {"target", print_percent(planned)}},
                 {}});
    }

    /// The ways open to a prescriber, each with what it costs.
    void lay_out_options() {
        for (const char* option : {"option-specialist", "option-hold", "option-spacing", "option-slower",
                                   "option-treat", "option-previous-dose"})
            view_.decision.push_back({option, {}, {}});
    }

    const Context& context_;
    const Rules& rules_;
    const std::vector<StepTaken>& steps_;
    const RedFlags& red_;
    ResponseView& view_;
    const StepResponse* last_ = nullptr;
    bool marked_ = false;
};

}  // namespace

void suggest(const Context& context, const std::vector<StepTaken>& steps, const RedFlags& red,
             ResponseView& view) {
    Table(context, steps, red, view).apply();
}

}  // namespace evenfall::response
