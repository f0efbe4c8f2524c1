// SPDX-License-Identifier: GPL-3.0-or-later
#include "shell/caseload_delegate.h"

#include <QPainter>
#include <algorithm>

#include "controls/why.h"
#include "texts/render.h"
#include "theme/numerals.h"
#include "theme/paint_parts.h"
#include "theme/theme.h"

namespace evenfall::ui {
namespace {

constexpr int kSparkWidth = 52;
constexpr int kSparkHeight = 20;

int line_height(Type size) {
    return QFontMetrics(type(size)).height();
}

/// A number stands where someone is called today.
bool is_to_be_called(const CaseloadLine& line) {
    return !line.reasons.empty() && line.standing == CareStanding::in_care &&
           line.reasons.front().urgency <= Urgency::today;
}

Weight weight_of(const CaseloadLine& line) {
    const Urgency urgency = line.reasons.empty() ? Urgency::steady : line.reasons.front().urgency;
    if (urgency == Urgency::red_flag) return Weight::danger;
    return urgency == Urgency::today || urgency == Urgency::this_week ? Weight::presses : Weight::note;
}

void draw_line(QPainter& painter, const QRectF& where, Type size, Tone colour, const QString& text) {
    painter.setFont(type(size));
    painter.setPen(tone(colour));
    painter.drawText(where, Qt::AlignLeft | Qt::AlignVCenter,
                     painter.fontMetrics().elidedText(text, Qt::ElideRight, static_cast<int>(where.width())));
}

}  // namespace

CaseloadDelegate::CaseloadDelegate(Workbench& workbench, QObject* parent)
    : QStyledItemDelegate(parent), workbench_(workbench) {
}

QSize CaseloadDelegate::sizeHint(const QStyleOptionViewItem& option, const QModelIndex& index) const {
    const bool heading = index.data(CaseloadModel::kIsHeading).toBool();
    if (heading) return {option.rect.width(), line_height(Type::note) + 20};
    const auto* model = qobject_cast<const CaseloadModel*>(index.model());
    const CaseloadLine* line = model ? model->line(index) : nullptr;
    const int lines = line && is_to_be_called(*line) ? 2 : 1;
    return {option.rect.width(), line_height(Type::strong) + lines * line_height(Type::note) + 13};
}

void CaseloadDelegate::paint(QPainter* painter, const QStyleOptionViewItem& option,
                             const QModelIndex& index) const {
    painter->save();
    painter->setRenderHint(QPainter::Antialiasing);
    const auto* model = qobject_cast<const CaseloadModel*>(index.model());
    if (const CaseloadLine* line = model ? model->line(index) : nullptr)
        paint_person(*painter, option, *line);
    else
        paint_heading(*painter, option.rect, index);
    painter->restore();
}

void CaseloadDelegate::paint_heading(QPainter& painter, const QRectF& where, const QModelIndex& index) const {
    QFont font = type(Type::note);
    font.setWeight(QFont::DemiBold);
    painter.setFont(font);
    painter.setPen(tone(Tone::soft_ink));
    const QRectF room = where.adjusted(12, 8, -12, 0);
    painter.drawText(room, Qt::AlignLeft | Qt::AlignVCenter, index.data().toString());
    draw_tabular(painter, room, Qt::AlignRight | Qt::AlignVCenter,
                 index.data(CaseloadModel::kCount).toString());
}

void CaseloadDelegate::paint_person(QPainter& painter, const QStyleOptionViewItem& option,
                                    const CaseloadLine& line) const {
    const QRectF where = QRectF(option.rect).adjusted(0, 1, 0, -1);
    const bool chosen = option.state.testFlag(QStyle::State_Selected);
    if (chosen)
        draw_box(painter, where, tone(Tone::selected), tone(Tone::planned),
                 theme_in_force() == ThemeKind::contrast ? 2 : 0, kRadius);
    else if (option.state.testFlag(QStyle::State_MouseOver))
        draw_box(painter, where, tone(Tone::sunken), {}, 0, kRadius);
    if (option.state.testFlag(QStyle::State_HasFocus)) draw_focus_ring(painter, where);

    const Weight weight = weight_of(line);
    draw_weight(painter, QRectF(where.left() + 11, where.top() + 7, 15, 15), weight);
    const qreal left = where.left() + 34;
    const qreal right = where.right() - 12;
    const qreal first = line_height(Type::strong);
    const QString reason = line.reasons.empty() ? QString() : workbench_.caption(line.reasons.front().flag);
    draw_line(painter, {left, where.top() + 5, right - left, first}, Type::strong, Tone::ink,
              to_text(line.name));
    draw_line(painter,
              {left, where.top() + 5 + first, where.right() - 12 - left,
               static_cast<qreal>(line_height(Type::note))},
              Type::note, weight == Weight::danger ? Tone::danger : Tone::soft_ink, reason);
    const qreal note = line_height(Type::note);
    if (is_to_be_called(line))
        draw_line(painter, {left, where.top() + 5 + first + note, right - left, note}, Type::note, Tone::ink,
                  line.phone.empty() ? tr("no number recorded") : to_text(line.phone));
    // The name comes before the drawing: who it is stands whole.
    painter.setFont(type(Type::strong));
    const qreal name = painter.fontMetrics().horizontalAdvance(to_text(line.name));
    if (left + name + kSpace2 <= where.right() - kSparkWidth - 12)
        draw_spark(painter,
                   {where.right() - kSparkWidth - 12, where.top() + 6, kSparkWidth, kSparkHeight - 4},
                   line.spark);
}

void draw_spark(QPainter& painter, const QRectF& where, const std::vector<SparkPoint>& points) {
    if (points.size() < 2 || points.back().day <= 0) return;
    const double most = std::ranges::max(points, {}, &SparkPoint::mg).mg;
    if (most <= 0) return;
    QPolygonF line;
    for (const SparkPoint& point : points)
        line << QPointF(where.left() + where.width() * point.day / points.back().day,
                        where.bottom() - where.height() * point.mg / most);
    painter.setPen(QPen(tone(Tone::planned), data_line() - 0.4, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin));
    painter.setBrush(Qt::NoBrush);
    painter.drawPolyline(line);
}

}  // namespace evenfall::ui
