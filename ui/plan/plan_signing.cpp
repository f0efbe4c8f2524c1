// SPDX-License-Identifier: GPL-3.0-or-later
#include "plan/plan_signing.h"

#include <QCoreApplication>
#include <algorithm>

#include "course/day_words.h"
#include "drawing/pieces.h"
#include "plan/step_words.h"

namespace evenfall::ui {
namespace {

struct Say {
    Q_DECLARE_TR_FUNCTIONS(PlanSigning)
};

std::size_t place(int index) {
    return static_cast<std::size_t>(index);
}

}  // namespace

SignLine sign_line(const Plan& plan, std::size_t index) {
    const Step& step = plan.steps[index];
    SignLine line;
    line.heading = Say::tr("From %1: %2").arg(full_day(step.starts), step_amounts(plan, step));
    if (!is_stage(step) && step.percent_of_last > Share())
        line.heading += Say::tr(", %1 % less than before").arg(to_text(print_percent(step.percent_of_last)));
    for (const PlannedDose& dose : step.doses) {
        const QString amount =
            Say::tr("%1: %2 of %3").arg(text_of(dose.at), amount_text(dose.amount), to_text(dose.drug));
        line.details << (dose.pieces.empty() ? Say::tr("%1, unchanged").arg(amount)
                                             : Say::tr("%1 = %2").arg(amount, pieces_text(dose.pieces)));
    }
    if (step.days) line.details << Say::tr("%1 days").arg(*step.days);
    return line;
}

int count_to_sign(const Plan& plan, int from) {
    int count = 0;
    for (std::size_t i = place(from); i < plan.steps.size(); ++i)
        count += plan.steps[i].status == StepStatus::committed;
    return count;
}

SignRequest steps_to_sign(const Plan& plan, int from, bool replaces, const QString& commit) {
    const int count = count_to_sign(plan, from);
    const Step& first = plan.steps[place(from)];
    const Step& last = plan.steps[place(from + count) - 1];
    const bool stage = is_stage(last);
    SignRequest request;
    request.commit = commit;
    request.question =
        stage ? Say::tr("Sign %1 of the crossover to %2?")
                    .arg(count == 1 ? Say::tr("a stage") : Say::tr("%1 stages").arg(count),
                         to_text(plan.request.drug))
        : count == 1 ? Say::tr("Sign the step to %1 a day?").arg(amount_text(last.daily))
                     : Say::tr("Sign the %1 steps to %2 a day?").arg(count).arg(amount_text(last.daily));
    request.consequence =
        Say::tr(
            "From %1 the person takes %2. A signed step cannot be unsigned; it can be replaced by a new "
            "plan. The outlook after it is not agreed.")
            .arg(full_day(first.starts), taken_text(plan, first));
    if (replaces)
        request.consequence +=
            QLatin1Char(' ') + Say::tr("The plan in force is replaced; its papers no longer hold.");
    for (int i = from; i < from + count; ++i) request.lines.push_back(sign_line(plan, place(i)));
    return request;
}

SignRequest off_to_agree(const Plan& plan, const QString& commit) {
    const Step& last = plan.steps[plan.steps.size() - 2];
    SignRequest request;
    request.commit = commit;
    request.question = Say::tr("Agree OFF on %1, from %2 a day?")
                           .arg(full_day(plan.steps.back().starts), amount_text(last.daily));
    request.consequence = Say::tr(
        "This is 100 % of the last dose and the largest step of all. Six months of calls follow: "
        "tolerance is lost, and an old dose can kill.");
    request.lines.push_back({Say::tr("From %1: nothing of %2 is taken")
                                 .arg(full_day(plan.steps.back().starts), to_text(plan.request.drug)),
                             {}});
    return request;
}

SignRequest back_up_to_sign(const Plan& plan, int index) {
    const Step& step = plan.steps[place(index)];
    SignRequest request;
    request.commit = Say::tr("Sign going back up");
    request.question =
        Say::tr("Go back up to %1 a day from %2?").arg(amount_text(step.daily), full_day(step.starts));
    request.consequence = Say::tr(
        "The step is lost, and it may not bring relief. The plan in force is replaced; its papers no "
        "longer hold. The outlook after it is not agreed.");
    request.lines.push_back(sign_line(plan, place(index)));
    return request;
}

}  // namespace evenfall::ui
