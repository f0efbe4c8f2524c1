// SPDX-License-Identifier: GPL-3.0-or-later
#include "response/response.h"

#include <algorithm>
#include <cmath>

#include "response/assess.h"

namespace evenfall {
namespace {

using namespace response;

StepResponse begin_response(const Context& context, const StepTaken& step) {
    StepResponse result;
    result.number = step.number;
    result.starts = step.after.from;
    result.days = static_cast<int>((std::min(step.until, context.today()) - step.after.from).count());
    result.cut = step.cut;
    result.off = step.after.regimen.doses.empty();
    result.lag_days = lag_of(context, step);
    return result;
}

void judge(const Context& context, const Windows& windows, const ItemDays& days, StepResponse& result) {
    result.rise = rise_of(days, windows, context.rules);
    if (!result.rise) {
        result.says.push_back({"response-few", {{"number", std::to_string(result.number)}}, {}});
        return;
    }
    const double limit = clear_limit(*result.rise, context.rules);
    result.settled = result.rise->latest < limit;
    result.clear = !result.settled || result.rise->rise >= limit;
}

/// The steps that teach: judged on days of their own, with a cut that has a logarithm.
std::vector<SensitivityPoint> lessons(const std::vector<StepResponse>& steps) {
    std::vector<SensitivityPoint> points;
    for (const StepResponse& step : steps) {
        if (!step.rise || !step.apart || step.off || step.cut <= Share{} || step.cut >= Share::percent(100))
            continue;
        points.push_back({-std::log(1 - step.cut.value()), step.rise->rise, step.cut});
    }
    return points;
}

}  // namespace

std::vector<StepResponse> judge_steps(const ResponseInput& input, const Formulary& formulary,
                                      const Rules& rules) {
    const Context context{input, formulary, rules};
    const ItemDays days = item_days(input.diary.ratings, input.as_of, rules);
    std::vector<StepResponse> judged;
    std::optional<Day> earlier_after_ends;
    for (const StepTaken& step : steps_taken(context)) {
        StepResponse each = begin_response(context, step);
        const Windows windows = windows_of(context, step, earlier_after_ends, each.apart);
        judge(context, windows, days, each);
        earlier_after_ends = windows.after.to;
        judged.push_back(std::move(each));
    }
    return judged;
}

ResponseView assess_response(const ResponseInput& input, const Formulary& formulary, const Rules& rules) {
    const Context context{input, formulary, rules};
    const ItemDays days = item_days(input.diary.ratings, input.as_of, rules);
    const auto steps = steps_taken(context);
    ResponseView view;
    view.baseline = baseline_of(context, days, steps, view.baseline_found);
    const ItemDays early = item_days(early_ratings(context), input.as_of, rules);
    std::optional<Day> earlier_after_ends;
    for (const StepTaken& step : steps) {
        StepResponse each = begin_response(context, step);
        const Windows windows = windows_of(context, step, earlier_after_ends, each.apart);
        judge(context, windows, days, each);
        tell_apart(context, step, windows, view.baseline, early, each);
        earlier_after_ends = windows.after.to;
        view.steps.push_back(std::move(each));
    }
    view.sensitivity = learn_sensitivity(lessons(view.steps), input.cap, rules);
    const RedFlags red = red_flags_of(context);
    view.red_flags = red.emergencies;
    view.red_flags.insert(view.red_flags.end(), red.same_day.begin(), red.same_day.end());
    suggest(context, steps, red, view);
    return view;
}

}  // namespace evenfall
