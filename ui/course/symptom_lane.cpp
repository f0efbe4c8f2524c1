// SPDX-License-Identifier: GPL-3.0-or-later
#include <QPainter>

#include "course/day_words.h"
#include "course/lanes.h"
#include "theme/numerals.h"
#include "theme/theme.h"

namespace evenfall::ui {
namespace {

constexpr double kTop = 8;
constexpr double kLeastCell = 15;  // wide enough for "10" in the small type

int days_that_fit(double pixels_per_day) {
    for (const int candidate : {1, 7, 14, 28})
        if (candidate * pixels_per_day >= kLeastCell) return candidate;
    return 28 * 3;
}

}  // namespace

SymptomLane::SymptomLane(const TimeAxis& axis, QWidget* parent)
    : Lane(tr("Symptoms"), tr("0 to 10"), axis, parent) {
    setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
}

QSize SymptomLane::sizeHint() const {
    return {600, static_cast<int>(2 * kTop) + kRowHeight * std::max(1, static_cast<int>(rows_.size()))};
}

void SymptomLane::show_scene(const CourseScene& scene) {
    rows_ = scene.symptoms;
    if (rows_.size() > kMostRows) rows_.resize(kMostRows);
    regroup();
    updateGeometry();
}

void SymptomLane::axis_moved() {
    if (days_that_fit(axis().pixels_per_day()) != days_per_cell_) regroup();
    Lane::axis_moved();
}

void SymptomLane::regroup() {
    days_per_cell_ = days_that_fit(axis().pixels_per_day());
    cells_.clear();
    std::vector<LaneItem> all;
    for (std::size_t row = 0; row < rows_.size(); ++row) {
        for (const SymptomCell& cell : symptom_cells(rows_[row], days_per_cell_))
            cells_.push_back({row, cell});
        const auto items = symptom_items(rows_[row], days_per_cell_);
        all.insert(all.end(), items.begin(), items.end());
    }
    set_items(std::move(all));
}

QRectF SymptomLane::item_rect(std::size_t index) const {
    const QRectF all = columns(items()[index].from, items()[index].to);
    const double y = kTop + static_cast<double>(cells_[index].row) * kRowHeight;
    return {all.left() + 1, y + 1, std::max(0.0, all.width() - 2), kRowHeight - 2};
}

void SymptomLane::paint_lane(QPainter& painter) {
    painter.setFont(type(Type::note));
    painter.setRenderHint(QPainter::Antialiasing);
    if (rows_.empty()) {
        painter.setPen(tone(Tone::soft_ink));
        const QString nothing = tr("No symptoms noted yet.");
        const double left =
            beside_today(plot().left() + 10, painter.fontMetrics().horizontalAdvance(nothing));
        painter.drawText(plot().adjusted(left - plot().left(), 0, -10, 0), Qt::AlignLeft | Qt::AlignVCenter,
                         nothing);
    }
    for (std::size_t i = 0; i < cells_.size(); ++i) {
        if (!axis().sees(items()[i].from, items()[i].to)) continue;
        const QRectF box = item_rect(i);
        painter.setPen(Qt::NoPen);
        painter.setBrush(symptom_shade(cells_[i].value.mean));
        painter.drawRoundedRect(box, 2, 2);
        if (box.width() < kLeastCell - 3) continue;  // cut off by the edge of the plot
        painter.setPen(symptom_numeral(cells_[i].value.mean));
        draw_tabular(painter, box, Qt::AlignCenter, QString::number(cells_[i].value.mean));
    }
    if (selected()) paint_chosen(painter, item_rect(*selected()).adjusted(-1, -1, 1, 1));
}

void SymptomLane::paint_gutter(QPainter& painter) {
    if (rows_.empty()) return Lane::paint_gutter(painter);
    painter.setFont(type(Type::note));
    painter.setPen(tone(Tone::ink));
    for (std::size_t row = 0; row < rows_.size(); ++row) {
        const QRectF box(0, kTop + static_cast<double>(row) * kRowHeight, kGutter - 10, kRowHeight);
        const QString name = QFontMetrics(painter.font())
                                 .elidedText(capitalised(rows_[row].item), Qt::ElideRight, kGutter - 10);
        painter.drawText(box, Qt::AlignLeft | Qt::AlignVCenter, name);
    }
}

}  // namespace evenfall::ui
