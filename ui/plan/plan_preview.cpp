// SPDX-License-Identifier: GPL-3.0-or-later
#include "plan/plan_preview.h"

#include <QEvent>
#include <QPainter>
#include <algorithm>

#include "course/day_words.h"
#include "planning/by_hand.h"
#include "theme/theme.h"

namespace evenfall::ui {
namespace {

using std::chrono::days;

constexpr int kHeight = 148;
constexpr double kGutter = 46, kKey = 22, kDates = 20;
constexpr int kTail = 14;  // days drawn of a last step without an end

/// The day's amount as it is drawn: of the plan's agent, or of all agents as diazepam.
Dose drawn(const std::vector<PlannedDose>& doses, const Plan& plan, const Formulary& formulary,
           bool as_diazepam) {
    Dose total;
    for (const PlannedDose& dose : doses) {
        if (!as_diazepam && dose.drug == plan.request.drug) total += dose.amount;
        const Drug* drug = as_diazepam ? formulary.find(dose.drug) : nullptr;
        if (drug && drug->equivalence) total += evenfall::as_diazepam(dose.amount, *drug->equivalence).usual;
    }
    return total;
}

std::vector<PlannedDose> planned(const Regimen& regimen) {
    std::vector<PlannedDose> doses;
    for (const DoseTime& dose : regimen.doses) doses.push_back({dose.at, dose.drug, dose.amount, {}});
    return doses;
}

void add_treads(DoseChartData& data, const Plan& plan, const Formulary& formulary, bool as_diazepam,
                bool dashed) {
    if (plan.steps.empty()) return;
    const Day first = plan.steps.front().starts;
    data.treads.push_back({axis_day(first - days(kTail)), axis_day(first),
                           drawn(planned(plan.start), plan, formulary, as_diazepam), dashed});
    for (std::size_t i = 0; i < plan.steps.size(); ++i) {
        const Step& step = plan.steps[i];
        const Day end = i + 1 < plan.steps.size() ? plan.steps[i + 1].starts
                                                  : step.starts + days(step.days.value_or(kTail));
        data.treads.push_back(
            {axis_day(step.starts), axis_day(end), drawn(step.doses, plan, formulary, as_diazepam), dashed});
    }
}

}  // namespace

PlanPreview::PlanPreview(QWidget* parent) : QWidget(parent), chart_(new LogDoseChart(this)) {
    setMinimumHeight(kHeight);
    setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
    setAccessibleName(tr("Dose over time: the plan in force and the one on the table"));
    setMouseTracking(true);
}

QSize PlanPreview::sizeHint() const {
    return {400, kHeight};
}

void PlanPreview::show_plans(const std::optional<Plan>& in_force, const std::optional<Plan>& shown,
                             const Formulary& formulary, Day today) {
    const auto crosses = [](const std::optional<Plan>& plan) { return plan && crossover_stages(*plan) > 0; };
    const bool two_agents = in_force && shown && in_force->request.drug != shown->request.drug;
    as_diazepam_ = crosses(in_force) || crosses(shown) || two_agents;
    has_force_ = in_force.has_value();
    drag_.reset();
    drawn_ = {};
    if (in_force) add_treads(drawn_, *in_force, formulary, as_diazepam_, false);
    first_shown_ = drawn_.treads.size() + 1;  // after the dose before the plan
    if (shown) add_treads(drawn_, *shown, formulary, as_diazepam_, true);
    first_ = today_ = axis_day(today);
    last_ = first_ + 1;
    for (const Tread& tread : drawn_.treads) {
        first_ = std::min(first_, tread.from);
        last_ = std::max(last_, tread.to);
    }
    if (until_) last_ = std::clamp(axis_day(*until_), first_ + 1, last_);
    first_day_ = today + days(static_cast<int>(first_ - today_));
    last_day_ = today + days(static_cast<int>(last_ - today_));
    chart_->show_data(drawn_);
    chart_->setVisible(!drawn_.treads.empty());
    lay_out();
    update();
}

QRectF PlanPreview::plot() const {
    return QRectF(rect()).adjusted(kGutter, kKey, -4, -kDates);
}

double PlanPreview::pixels_per_day() const {
    return plot().width() / (last_ - first_);
}

double PlanPreview::x(double day) const {
    return plot().left() + pixels_per_day() * (day - first_);
}

void PlanPreview::lay_out() {
    chart_->setGeometry(rect());
    chart_->set_plot(plot());
    chart_->set_days({first_, last_});
    chart_->restyle();
}

void PlanPreview::resizeEvent(QResizeEvent*) {
    lay_out();
}

void PlanPreview::changeEvent(QEvent* event) {
    if (event->type() == QEvent::PaletteChange || event->type() == QEvent::FontChange) lay_out();
    QWidget::changeEvent(event);
}

void PlanPreview::paintEvent(QPaintEvent*) {
    QPainter painter(this);
    painter.fillRect(rect(), tone(Tone::card));
    if (chart_->isHidden()) return;
    chart_->paint_lines(painter);
    chart_->paint_labels(painter);
    const QRectF all = plot();
    painter.setPen(QPen(tone(Tone::soft_ink), structure_line()));
    painter.drawLine(QPointF(x(today_), all.top()), QPointF(x(today_), all.bottom()));
    painter.setFont(type(Type::note));
    painter.setPen(tone(Tone::soft_ink));
    const QRectF dates(all.left(), all.bottom() + 2, all.width(), kDates);
    painter.drawText(dates, Qt::AlignLeft | Qt::AlignVCenter, full_day(first_day_));
    painter.drawText(dates, Qt::AlignRight | Qt::AlignVCenter, full_day(last_day_));
    paint_key(painter);
    paint_marks(painter);
}

void PlanPreview::paint_key(QPainter& painter) const {
    const QString unit =
        as_diazepam_ ? tr("as diazepam (usual), mg a day, log scale") : tr("mg a day, log scale");
    QString key = QStringLiteral("– –  ") + (dashed_.isEmpty() ? tr("on the table, not signed") : dashed_);
    if (has_force_)
        key = QStringLiteral("——  ") + (whole_.isEmpty() ? tr("plan in force") : whole_) +
              QStringLiteral("      ") + key;
    const QFontMetrics metrics(painter.font());
    const QRectF top(4, 0, width() - 8, kKey);
    if (metrics.horizontalAdvance(unit) + metrics.horizontalAdvance(key) + kSpace6 < width())
        painter.drawText(top, Qt::AlignLeft | Qt::AlignVCenter, unit);
    painter.drawText(top, Qt::AlignRight | Qt::AlignVCenter, key);
}

}  // namespace evenfall::ui
