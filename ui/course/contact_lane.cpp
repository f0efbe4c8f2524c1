// SPDX-License-Identifier: GPL-3.0-or-later
#include <QPainter>
#include <array>

#include "course/contact_glyphs.h"
#include "course/lanes.h"
#include "theme/theme.h"

namespace evenfall::ui {
namespace {

constexpr double kGlyph = 15, kPitch = 19, kTop = 6;
constexpr double kBadge = 12;  // "+1" beside a drawing
constexpr std::size_t kRows = 3;

}  // namespace

ContactLane::ContactLane(const TimeAxis& axis, QWidget* parent) : Lane(tr("Contact"), {}, axis, parent) {
    setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
}

void ContactLane::show_scene(const CourseScene& scene) {
    kinds_.clear();
    for (const ContactMark& mark : scene.course.contacts) kinds_.push_back(mark.kind);
    set_items(contact_items(scene));
    arrange();
}

void ContactLane::axis_moved() {
    arrange();
    Lane::axis_moved();
}

/// Each drawing stands at its day, in the first row that is free there. Where all rows are taken it goes
/// under the last one, which says how many lie under it; it keeps its name and its line in the table.
void ContactLane::arrange() {
    places_.clear();
    std::array<double, kRows> free_from;
    free_from.fill(-1e9);
    std::size_t last_drawn = 0, last_row = 0;
    for (const LaneItem& item : items()) {
        const double left = axis().x(item.from + 0.5) - kGlyph / 2;
        std::size_t row = 0;
        while (row < kRows && free_from[row] > left) ++row;
        if (row == kRows) {
            ++places_[last_drawn].more;
            places_.push_back({places_[last_drawn].at, false, 0});
            free_from[last_row] = std::max(free_from[last_row], places_[last_drawn].at.x() + kPitch + kBadge);
            continue;
        }
        last_drawn = places_.size();
        last_row = row;
        places_.push_back({QPointF(left, kTop + static_cast<double>(row) * (kGlyph + 6)), true, 0});
        free_from[row] = left + kPitch;
    }
}

QRectF ContactLane::item_rect(std::size_t index) const {
    if (index >= places_.size()) return {};
    const QPointF place(plot().left() + places_[index].at.x(), places_[index].at.y());
    if (place.x() + kGlyph < plot().left() || place.x() > plot().right()) return {};
    return {place, QSizeF(kGlyph, kGlyph)};
}

void ContactLane::paint_lane(QPainter& painter) {
    for (std::size_t i = 0; i < kinds_.size(); ++i) {
        const QRectF box = item_rect(i);
        if (box.isEmpty() || !places_[i].drawn) continue;
        draw_contact(painter, box, kinds_[i], tone(Tone::contact), tone(Tone::contact_fill));
        if (places_[i].more == 0) continue;
        QFont small = type(Type::note);
        small.setPointSizeF(small.pointSizeF() * 0.8);
        painter.setFont(small);
        painter.setPen(tone(Tone::contact));
        const QString more = QStringLiteral("+%1").arg(places_[i].more);
        const QRectF badge(box.right(), box.bottom() - 10, QFontMetricsF(small).horizontalAdvance(more) + 4,
                           11);
        painter.fillRect(badge, tone(Tone::card));
        painter.drawText(badge, Qt::AlignCenter, more);
    }
    if (selected()) paint_chosen(painter, item_rect(*selected()).adjusted(-4, -4, 4, 4));
}

}  // namespace evenfall::ui
