// SPDX-License-Identifier: GPL-3.0-or-later
#include "plan/step_words.h"

#include <QCoreApplication>
#include <algorithm>
#include <map>

#include "course/day_words.h"

namespace evenfall::ui {
namespace {

struct Say {
    Q_DECLARE_TR_FUNCTIONS(StepWords)
};

QString each_agent(const Step& step) {
    std::map<std::string, Dose> daily;
    for (const PlannedDose& dose : step.doses) daily[dose.drug] += dose.amount;
    QStringList words;
    for (const auto& [drug, amount] : daily)
        words << Say::tr("%1 of %2").arg(amount_text(amount), to_text(drug));
    return words.join(QStringLiteral(" + "));
}

}  // namespace

bool is_stage(const Step& step) {
    return std::ranges::any_of(step.flags, [](const Flag& flag) { return flag.rule == "crossover-review"; });
}

bool is_over_cap(const Step& step) {
    return std::ranges::any_of(step.flags, [](const Flag& flag) { return flag.rule == "cut-over-cap"; });
}

QString step_amounts(const Plan&, const Step& step) {
    if (step.daily.is_zero()) return Say::tr("OFF");
    return is_stage(step) ? each_agent(step) : daily_text(step.daily);
}

QString taken_text(const Plan& plan, const Step& step) {
    if (is_stage(step)) return Say::tr("%1 a day").arg(each_agent(step));
    return Say::tr("%1 of %2").arg(daily_text(step.daily), to_text(plan.request.drug));
}

QString share_text(const Plan& plan, std::size_t index) {
    const Step& step = plan.steps[index];
    if (is_stage(step)) return {};
    if (step.percent_of_last < Share()) return Say::tr("more than the last dose");
    return Say::tr("%1 % of the last dose").arg(to_text(print_percent(step.percent_of_last)));
}

}  // namespace evenfall::ui
