// SPDX-License-Identifier: GPL-3.0-or-later
#include <QPainter>
#include <array>

#include "course/contact_glyphs.h"
#include "course/lanes.h"
#include "theme/theme.h"

namespace evenfall::ui {
namespace {

constexpr double kGlyph = 16, kPitch = 20, kTop = 8;
constexpr std::size_t kRows = 2;

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

/// Each drawing stands at its day, in the first row that is free there; where both are taken it lies over the last one
/// and still has its name and its place in the table.
void ContactLane::arrange() {
    places_.clear();
    std::array<double, kRows> free_from;
    free_from.fill(-1e9);
    for (const LaneItem& item : items()) {
        const double left = axis().x(item.from + 0.5) - kGlyph / 2;
        std::size_t row = 0;
        while (row + 1 < kRows && free_from[row] > left) ++row;
        places_.emplace_back(left, kTop + static_cast<double>(row) * (kGlyph + 8));
        free_from[row] = std::max(free_from[row], left + kPitch);
    }
}

QRectF ContactLane::item_rect(std::size_t index) const {
    if (index >= places_.size()) return {};
    const QPointF place(plot().left() + places_[index].x(), places_[index].y());
    if (place.x() + kGlyph < plot().left() || place.x() > plot().right()) return {};
    return {place, QSizeF(kGlyph, kGlyph)};
}

void ContactLane::paint_lane(QPainter& painter) {
    for (std::size_t i = 0; i < kinds_.size(); ++i)
        if (const QRectF box = item_rect(i); !box.isEmpty())
            draw_contact(painter, box, kinds_[i], tone(Tone::contact), tone(Tone::contact_fill));
    if (selected()) paint_chosen(painter, item_rect(*selected()).adjusted(-4, -4, 4, 4));
}

}  // namespace evenfall::ui
