// SPDX-License-Identifier: GPL-3.0-or-later
#include <QEvent>
#include <QPainter>
#include <QPainterPath>

#include "course/day_words.h"
#include "course/lanes.h"
#include "course/log_dose_chart.h"
#include "theme/theme.h"

namespace evenfall::ui {
namespace {

DoseChartData chart_data(const Course& course, Day today) {
    DoseChartData all;
    for (const Stretch& stretch : course.stretches) {
        const bool outlook = stretch.kind == Stretch::Kind::outlook || stretch.kind == Stretch::Kind::off;
        all.treads.push_back({axis_day(stretch.from), shown_end(stretch, today), stretch.daily, outlook});
    }
    for (const TakenDay& taken : course.taken) all.taken.push_back({axis_day(taken.day) + 0.5, taken.total});
    return all;
}

}  // namespace

DoseLane::DoseLane(const TimeAxis& axis, QWidget* parent)
    : Lane(tr("Dose"), tr("mg a day,\nlog scale"), axis, parent), chart_(new LogDoseChart(this)) {
    setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Expanding);
    setMinimumHeight(150);
}

void DoseLane::show_scene(const CourseScene& scene) {
    stretches_ = scene.course.stretches;
    item_amounts_.clear();
    if (scene.course.taken.empty())
        for (const Stretch& stretch : stretches_) item_amounts_.push_back(stretch.daily);
    else
        for (const TakenDay& taken : scene.course.taken) item_amounts_.push_back(taken.total);
    set_note(scene.as_diazepam ? tr("as diazepam,\nmg a day,\nlog scale") : tr("mg a day,\nlog scale"));
    set_items(dose_items(scene));
    chart_->show_data(chart_data(scene.course, scene.today));
    axis_moved();
}

void DoseLane::axis_moved() {
    chart_->set_days(axis().visible());
    Lane::axis_moved();
}

void DoseLane::lay_chart() {
    chart_->setGeometry(rect());
    chart_->set_plot(plot());
    chart_->restyle();
}

void DoseLane::resizeEvent(QResizeEvent* event) {
    Lane::resizeEvent(event);
    lay_chart();
}

void DoseLane::changeEvent(QEvent* event) {
    if (event->type() == QEvent::PaletteChange || event->type() == QEvent::FontChange) lay_chart();
    Lane::changeEvent(event);
}

QRectF DoseLane::item_rect(std::size_t index) const {
    const QRectF all = columns(items()[index].from, items()[index].to);
    const double y = chart_->y(chart_->scale().place(item_amounts_[index]));
    if (all.width() <= 0) return {};
    const double widened = std::max(all.width(), 6.0);
    return {all.center().x() - widened / 2, y - 7, widened, 14};
}

/// The shelf for nothing at all, and the break above it; the stairs lie over it.
void DoseLane::paint_lane(QPainter& painter) {
    chart_->paint_lines(painter);
    const LogScale& scale = chart_->scale();
    const double top = chart_->y(scale.shelf_top());
    const QRectF shelf(plot().left(), top, plot().width(), plot().bottom() - top);
    painter.fillRect(shelf, tone(Tone::sunken));
    painter.setPen(QPen(tone(Tone::soft_ink), structure_line()));
    const double y = (top + chart_->y(scale.bottom())) / 2;
    QPainterPath axis_break(QPointF(plot().left() + 6, y));
    for (int i = 1; i <= 4; ++i) axis_break.lineTo(plot().left() + 6 + 6 * i, y + (i % 2 ? -4 : 4));
    painter.setRenderHint(QPainter::Antialiasing);
    painter.drawPath(axis_break);
    painter.setPen(tone(Tone::soft_ink));
    painter.setFont(type(Type::note));
    QString words = tr("OFF: nothing is taken");
    for (const Stretch& stretch : stretches_)
        if (stretch.kind == Stretch::Kind::off)
            words = tr("OFF on %1, later; agreed on its own").arg(full_day(stretch.from));
    // Right of today no dot can lie on the shelf.
    const double width = QFontMetricsF(painter.font()).horizontalAdvance(words) + 2;
    const double left = beside_today(std::max(plot().left() + 8, today_x() + 8), width);
    painter.drawText(QRectF(left, shelf.top(), width, shelf.height()), Qt::AlignLeft | Qt::AlignVCenter,
                     words);
    if (selected()) paint_chosen(painter, item_rect(*selected()).adjusted(-2, -1, 2, 1));
}

void DoseLane::paint_gutter(QPainter& painter) {
    Lane::paint_gutter(painter);
    chart_->paint_labels(painter);
}

}  // namespace evenfall::ui
