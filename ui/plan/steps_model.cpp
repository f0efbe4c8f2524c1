// SPDX-License-Identifier: GPL-3.0-or-later
#include "plan/steps_model.h"

#include "course/day_words.h"
#include "drawing/pieces.h"
#include "plan/plan_base.h"
#include "texts/render.h"

namespace evenfall::ui {

StepsModel::StepsModel(std::function<QString(const Flag&)> sentence, QObject* parent)
    : QAbstractTableModel(parent), sentence_(std::move(sentence)) {
}

void StepsModel::set_plan(const Plan& plan, int signed_steps) {
    beginResetModel();
    plan_ = plan;
    signed_ = signed_steps;
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
    if (row < signed_) return tr("signed");
    return step(row).status == StepStatus::committed ? tr("to sign") : tr("outlook");
}

QString StepsModel::pieces_cell(const Step& step) const {
    QStringList lines;
    for (const PlannedDose& dose : step.doses) {
        const QString amount = amount_text(dose.amount);
        if (dose.drug != plan_.request.drug)
            lines << tr("%1: %2 of %3, unchanged").arg(text_of(dose.at), amount, to_text(dose.drug));
        else
            lines << tr("%1: %2 = %3").arg(text_of(dose.at), pieces_text(dose.pieces), amount);
    }
    return lines.isEmpty() ? tr("nothing") : lines.join(QLatin1Char('\n'));
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
        case step_column:
            return tr("Step %1, %2, %3, %4")
                .arg(shown.number)
                .arg(dates_text(shown), length_text(shown), status_text(index.row()));
        case daily_column:
            return tr("%1, %2 % of the last dose")
                .arg(shown.daily.is_zero() ? daily_text_of(shown) : daily_text(shown.daily),
                     to_text(print_percent(shown.percent_of_last)));
        case pieces_column:
            return pieces_cell(shown);
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
    if (summary.steps == 0) return StepsModel::tr("No reduction.");
    const QString length = summary.days % 7 == 0 ? StepsModel::tr("%1 weeks").arg(summary.days / 7)
                                                 : StepsModel::tr("%1 days").arg(summary.days);
    const QString end = summary.ends_off ? StepsModel::tr("OFF on %1, from %2 a day")
                                               .arg(full_day(*summary.ends_on), amount_text(summary.last))
                                         : StepsModel::tr("ends at %1 a day on %2")
                                               .arg(amount_text(summary.last), full_day(*summary.ends_on));
    const QString steps =
        summary.steps == 1 ? StepsModel::tr("One step") : StepsModel::tr("%1 steps").arg(summary.steps);
    return StepsModel::tr("%1 in %2 · largest cut %3 % · %4")
        .arg(steps, length, to_text(print_percent(summary.largest_cut)), end);
}

}  // namespace evenfall::ui
