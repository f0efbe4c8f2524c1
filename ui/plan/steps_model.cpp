// SPDX-License-Identifier: GPL-3.0-or-later
#include "plan/steps_model.h"

#include "course/day_words.h"
#include "drawing/pieces.h"
#include "plan/plan_job.h"
#include "plan/step_words.h"
#include "texts/render.h"

namespace evenfall::ui {

StepsModel::StepsModel(std::function<QString(const Flag&)> sentence, QObject* parent)
    : QAbstractTableModel(parent), sentence_(std::move(sentence)) {
}

void StepsModel::set_plan(const Plan& plan, Standing standing) {
    beginResetModel();
    plan_ = plan;
    stages_ = crossover_stages(plan);
    standing_ = std::move(standing);
    endResetModel();
}

void StepsModel::clear() {
    set_plan({});
}

int StepsModel::rowCount(const QModelIndex& parent) const {
    return parent.isValid() ? 0 : static_cast<int>(plan_.steps.size());
}

int StepsModel::columnCount(const QModelIndex& parent) const {
    return parent.isValid() ? 0 : column_count;
}

QString StepsModel::dates_text(const Step& step) {
    return full_day(step.starts);
}

QString StepsModel::length_text(const Step& step) {
    if (step.daily.is_zero()) return tr("agreed on its own");
    return step.days ? tr("%1 days").arg(*step.days) : tr("until further notice");
}

QString StepsModel::daily_text_of(const Step& step) {
    return step.daily.is_zero() ? tr("OFF") : amount_text(step.daily);
}

QString StepsModel::status_text(int row) const {
    const QString status = is_in_force(row)  ? tr("in force")
                           : is_signed(row)  ? tr("signed")
                           : is_to_sign(row) ? tr("to sign")
                                             : tr("outlook");
    return standing_.by_hand.contains(row) ? tr("%1, by hand").arg(status) : status;
}

QString StepsModel::number_text(int row) const {
    return row < stages_ ? tr("Stage %1 of %2").arg(row + 1).arg(stages_)
                         : tr("Step %1").arg(row - stages_ + 1);
}

QString StepsModel::dose_text(const PlannedDose& dose) const {
    const QString amount = amount_text(dose.amount);
    if (dose.pieces.empty()) return tr("%1 of %2, unchanged").arg(amount, to_text(dose.drug));
    if (stages_ == 0) return pieces_text(dose.pieces);
    return tr("%1: %2").arg(to_text(dose.drug), pieces_text(dose.pieces));
}

QString StepsModel::pieces_cell(const Step& step) const {
    QStringList lines;
    for (const PlannedDose& dose : step.doses) {
        QString line = tr("%1: %2").arg(text_of(dose.at), dose_text(dose));
        if (!dose.pieces.empty()) line = tr("%1 = %2").arg(line, amount_text(dose.amount));
        lines << line;
    }
    return lines.isEmpty() ? tr("nothing") : lines.join(QLatin1Char('\n'));
}

QString StepsModel::daily_cell(int row) const {
    const QString share = share_text(plan_, static_cast<std::size_t>(row));
    const QString amounts = step_amounts(plan_, step(row));
    return share.isEmpty() ? amounts : tr("%1, %2").arg(amounts, share);
}

QString StepsModel::flags_cell(const Step& step) const {
    QStringList lines;
    for (const Flag& flag : step.flags) lines << sentence_(flag);
    return lines.join(QLatin1Char('\n'));
}

QVariant StepsModel::data(const QModelIndex& index, int role) const {
    if (!index.isValid()) return {};
    const Step& shown = step(index.row());
    if (role == Qt::ToolTipRole && index.column() != flags_column) return {};
    if (role != Qt::DisplayRole && role != Qt::AccessibleTextRole && role != Qt::ToolTipRole) return {};
    switch (index.column()) {
        case step_column: {
            const QString step = tr("%1, %2, %3, %4")
                                     .arg(number_text(index.row()), dates_text(shown), length_text(shown),
                                          status_text(index.row()));
            return role == Qt::AccessibleTextRole && !apart_.daily
                       ? tr("%1, %2").arg(step, daily_cell(index.row()))
                       : step;
        }
        case daily_column:
            return daily_cell(index.row());
        case pieces_column:
            return role == Qt::AccessibleTextRole && !apart_.rules && !shown.flags.empty()
                       ? pieces_cell(shown) + QLatin1Char('\n') + flags_cell(shown)
                       : pieces_cell(shown);
        case flags_column:
            return flags_cell(shown);
        default:
            return {};
    }
}

QVariant StepsModel::headerData(int section, Qt::Orientation orientation, int role) const {
    if (orientation != Qt::Horizontal || role != Qt::DisplayRole) return {};
    switch (section) {
        case step_column:
            return tr("Step");
        case daily_column:
            return tr("A day");
        case pieces_column:
            return tr("Pieces");
        case flags_column:
            return tr("Rules");
        default:
            return {};
    }
}

QString summary_text(const Plan& plan) {
    const PlanSummary summary = summarise(plan);
    if (summary.steps + summary.stages == 0) return StepsModel::tr("No reduction.");
    const QString length = summary.days % 7 == 0 ? StepsModel::tr("%1 weeks").arg(summary.days / 7)
                                                 : StepsModel::tr("%1 days").arg(summary.days);
    const QString end = summary.ends_off ? StepsModel::tr("OFF on %1, from %2 a day")
                                               .arg(full_day(*summary.ends_on), amount_text(summary.last))
                                         : StepsModel::tr("ends at %1 a day on %2")
                                               .arg(amount_text(summary.last), full_day(*summary.ends_on));
    QString steps =
        summary.steps == 1 ? StepsModel::tr("One step") : StepsModel::tr("%1 steps").arg(summary.steps);
    if (summary.stages > 0)
        steps = StepsModel::tr("Crossover to %1 in %2 stages, then %3 steps,")
                    .arg(to_text(plan.request.drug))
                    .arg(summary.stages)
                    .arg(summary.steps);
    return StepsModel::tr("%1 in %2 · largest cut %3 % · %4")
        .arg(steps, length, to_text(print_percent(summary.largest_cut)), end);
}

}  // namespace evenfall::ui
