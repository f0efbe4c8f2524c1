// SPDX-License-Identifier: GPL-3.0-or-later
#include <QPainter>
#include <cmath>

#include "controls/why.h"
#include "course/day_words.h"
#include "drawing/hatch.h"
#include "drawing/pieces.h"
#include "plan/step_words.h"
#include "plan/steps_table.h"
#include "texts/render.h"
#include "theme/numerals.h"
#include "theme/theme.h"

namespace evenfall::ui {
namespace {

constexpr double kEdge = 6;  // the strip at the left that tells signed from outlook
constexpr double kPad = 8;
constexpr double kClock = 46;    // room for "08:00"
constexpr double kBeside = 130;  // words stand beside the drawing where they have so much room
constexpr double kFlagGap = 6;
const PieceLayout kLayout{15, 3, 4, 150};

double text_height(const QFont& font, const QString& text, double width) {
    return QFontMetricsF(font)
        .boundingRect(QRectF(0, 0, width, 1e6), Qt::AlignLeft | Qt::TextWordWrap, text)
        .height();
}

/// A number and its unit are never parted by a line break.
QString kept_together(QString words) {
    return words.replace(QLatin1String(" mg"), QStringLiteral("\u00a0mg"))
        .replace(QLatin1String(" mL"), QStringLiteral("\u00a0mL"));
}

}  // namespace

StepsDelegate::StepsDelegate(const StepsModel& model, QObject* parent)
    : QStyledItemDelegate(parent), model_(model) {
}

/// Draws the pieces of each dose time under each other and returns the height; without a painter it measures.
double StepsDelegate::paint_pieces_at(QPainter* painter, const QRectF& box, const Step& step) const {
    const QFont font = type(Type::note);
    if (step.doses.empty()) {
        if (painter) {
            painter->setFont(font);
            painter->setPen(tone(Tone::soft_ink));
            painter->drawText(box, Qt::AlignLeft | Qt::AlignTop, tr("nothing is taken"));
        }
        return QFontMetricsF(font).height();
    }
    const PieceInk ink{tone(Tone::ink), tone(Tone::soft_ink), tone(Tone::card)};
    double y = box.top();
    for (const PlannedDose& dose : step.doses) {
        const QSizeF drawn = pieces_size(dose.pieces, kLayout);
        const QString words = kept_together(model_.dose_text(dose));
        const double words_left =
            box.left() + kClock + (drawn.isEmpty() ? 0 : std::max(drawn.width(), 54.0) + kPad);
        const bool beside = box.right() - words_left >= kBeside;
        const QRectF words_box(beside ? words_left : box.left() + kClock, beside ? y : y + drawn.height() + 2,
                               box.right() - (beside ? words_left : box.left() + kClock), 1e5);
        const double words_height = text_height(font, words, words_box.width());
        if (painter) {
            painter->setFont(font);
            painter->setPen(tone(Tone::soft_ink));
            draw_tabular(*painter, QRectF(box.left(), y, kClock, kLayout.unit),
                         Qt::AlignLeft | Qt::AlignVCenter, text_of(dose.at));
            paint_pieces(*painter, QPointF(box.left() + kClock, y), dose.pieces, kLayout, ink);
            painter->setFont(font);
            painter->setPen(tone(Tone::ink));
            painter->drawText(QRectF(words_box.topLeft(), QSizeF(words_box.width(), words_height + 2)),
                              Qt::AlignLeft | Qt::AlignTop | Qt::TextWordWrap, words);
        }
        y += beside ? std::max({drawn.height(), words_height, kLayout.unit})
                    : drawn.height() + 2 + words_height;
        y += 5;
    }
    return y - box.top() - 5;
}

QSize StepsDelegate::sizeHint(const QStyleOptionViewItem& option, const QModelIndex& index) const {
    const double width = option.rect.width() > 0 ? option.rect.width() : 200;
    if (index.column() == StepsModel::pieces_column) {
        double height =
            paint_pieces_at(nullptr, QRectF(0, 0, width - 2 * kPad, 1e6), model_.step(index.row()));
        if (!model_.flags(index.row()).empty())
            height += kFlagGap + text_height(type(Type::note), flag_words(index.row()), width - 2 * kPad) +
                      (model_.apart().rules ? 0 : QFontMetricsF(type(Type::text)).height() + 2);
        return {static_cast<int>(width), static_cast<int>(std::ceil(height + 2 * kPad))};
    }
    double lines = QFontMetricsF(type(Type::strong)).height() + 3 * QFontMetricsF(type(Type::note)).height();
    if (index.column() == StepsModel::step_column && !model_.apart().daily)
        lines += paint_daily(nullptr, QRectF(0, 0, width - 2 * kPad - kEdge, 1e6), index.row());
    return {static_cast<int>(width), static_cast<int>(std::ceil(lines + 2 * kPad))};
}

void StepsDelegate::paint_ground(QPainter& painter, const QStyleOptionViewItem& option,
                                 const QModelIndex& index) const {
    const QRectF box = option.rect;
    const int row = index.row();
    const bool selected = option.state & QStyle::State_Selected;
    painter.fillRect(box, tone(selected                  ? Tone::selected
                               : model_.is_in_force(row) ? Tone::planned_fill
                                                         : Tone::card));
    if (index.column() == StepsModel::step_column) paint_edge(painter, box, row);
    painter.setPen(QPen(tone(Tone::line), 0));
    painter.drawLine(box.bottomLeft(), box.bottomRight());
    const bool last_signed =
        model_.is_signed(row) && row + 1 < model_.rowCount() && !model_.is_signed(row + 1);
    if (last_signed)
        painter.fillRect(QRectF(box.left(), box.bottom() - 1, box.width(), 2), tone(Tone::planned));
}

/// The strip at the left edge: full where a step is signed, an empty frame where it waits for a signature,
/// hatched where nothing is agreed.
void StepsDelegate::paint_edge(QPainter& painter, const QRectF& box, int row) const {
    const QRectF strip(box.left(), box.top() + 1, kEdge, box.height() - 2);
    if (model_.is_signed(row)) return painter.fillRect(strip, tone(Tone::planned));
    if (!model_.is_to_sign(row)) return hatch(painter, strip, tone(Tone::outlook), 5);
    painter.setPen(QPen(tone(Tone::planned), 1.5));
    painter.drawRect(strip.adjusted(0.75, 0.75, -0.75, -0.75));
}

void StepsDelegate::paint_step(QPainter& painter, const QRectF& box, int row) const {
    const Step& step = model_.step(row);
    painter.setFont(type(Type::strong));
    painter.setPen(tone(Tone::ink));
    double y = QFontMetricsF(type(Type::strong)).height();
    painter.drawText(box, Qt::AlignLeft | Qt::AlignTop, model_.number_text(row));
    if (!model_.apart().daily) y += paint_daily(&painter, box.adjusted(0, y + 2, -kPad, 0), row);
    painter.setFont(type(Type::note));
    painter.setPen(tone(model_.is_to_sign(row) ? Tone::presses : Tone::soft_ink));
    const double note = QFontMetricsF(painter.font()).height();
    painter.drawText(box.adjusted(0, y, 0, 0), Qt::AlignLeft | Qt::AlignTop, model_.status_text(row));
    painter.setPen(tone(Tone::soft_ink));
    painter.drawText(box.adjusted(0, y + note, 0, 0), Qt::AlignLeft | Qt::AlignTop,
                     StepsModel::dates_text(step) + QLatin1Char('\n') + StepsModel::length_text(step));
}

/// Draws the day's amount and returns the height; without a painter it measures.
double StepsDelegate::paint_daily(QPainter* painter, const QRectF& box, int row) const {
    const Step& step = model_.step(row);
    const bool firm = model_.is_signed(row) || model_.is_to_sign(row);
    const QColor ink = tone(firm ? Tone::ink : Tone::soft_ink);
    if (is_stage(step)) {
        QString words = step_amounts(model_.plan(), step);
        words = kept_together(words.replace(QStringLiteral(" + "), QStringLiteral("\n")));
        if (painter) {
            painter->setFont(type(Type::strong));
            painter->setPen(ink);
            painter->drawText(box.adjusted(0, 0, kPad, 0), Qt::AlignLeft | Qt::AlignTop | Qt::TextWordWrap,
                              words);
        }
        return text_height(type(Type::strong), words, box.width() + kPad) + 2;
    }
    const double line = QFontMetricsF(type(Type::heading)).height();
    const double note = QFontMetricsF(type(Type::note)).height();
    const double height = line + (is_over_cap(step) ? 2 : 1) * note;
    if (!painter) return height;
    painter->setFont(type(Type::heading));
    painter->setPen(ink);
    draw_tabular(*painter, box.adjusted(0, -3, kPad, 0), Qt::AlignLeft | Qt::AlignTop,
                 StepsModel::daily_text_of(step));
    painter->setFont(type(Type::note));
    painter->setPen(tone(Tone::soft_ink));
    const QString share = step.percent_of_last < Share()
                              ? tr("goes back up")
                              : tr("%1 of the last").arg(text_of(step.percent_of_last));
    draw_tabular(*painter, box.adjusted(0, line - 2, kPad, 0), Qt::AlignLeft | Qt::AlignTop, share);
    if (is_over_cap(step)) {
        painter->setPen(tone(Tone::presses));
        painter->drawText(box.adjusted(0, line + note - 2, kPad, 0), Qt::AlignLeft | Qt::AlignTop,
                          tr("over the cap"));
    }
    return height;
}

QString StepsDelegate::flag_words(int row) const {
    return kept_together(model_.index(row, StepsModel::flags_column).data().toString());
}

/// The rules that a step met, whole, beneath its pieces.
void StepsDelegate::paint_flag_words(QPainter& painter, const QRectF& box, int row, double under) const {
    if (model_.flags(row).empty()) return;
    painter.setFont(type(Type::note));
    painter.setPen(tone(Tone::presses));
    painter.drawText(box.adjusted(0, under + kFlagGap, 0, kPad),
                     Qt::AlignLeft | Qt::AlignTop | Qt::TextWordWrap, flag_words(row));
    if (model_.apart().rules) return;
    const double words = text_height(painter.font(), flag_words(row), box.width());
    paint_why(painter, box.adjusted(0, under + kFlagGap + words + 2, 0, kPad), row);
}

void StepsDelegate::paint_why(QPainter& painter, const QRectF& box, int row) const {
    if (model_.flags(row).empty()) return;
    draw_weight(painter, QRectF(box.left(), box.top() + 1, 14, 14), Weight::presses);
    painter.setFont(type(Type::text));
    painter.setPen(tone(Tone::planned));
    painter.drawText(box.adjusted(18, -1, kPad, 0), Qt::AlignLeft | Qt::AlignTop, tr("Why?"));
}

void StepsDelegate::paint(QPainter* painter, const QStyleOptionViewItem& option,
                          const QModelIndex& index) const {
    painter->save();
    paint_ground(*painter, option, index);
    const Step& step = model_.step(index.row());
    QRectF box = QRectF(option.rect).adjusted(kPad, kPad, -kPad, -kPad);
    switch (index.column()) {
        case StepsModel::step_column:
            paint_step(*painter, box.adjusted(kEdge, 0, kPad, 0), index.row());
            break;
        case StepsModel::daily_column:
            paint_daily(painter, box, index.row());
            break;
        case StepsModel::pieces_column:
            paint_flag_words(*painter, box, index.row(), paint_pieces_at(painter, box, step));
            break;
        case StepsModel::flags_column:
            paint_why(*painter, box, index.row());
            break;
        default:
            break;
    }
    painter->restore();
}

}  // namespace evenfall::ui
