// SPDX-License-Identifier: GPL-3.0-or-later
#include "diary/dose_marks.h"

#include "drawing/hatch.h"
#include "texts/render.h"
#include "theme/theme.h"

namespace evenfall::ui {
namespace {

constexpr double kLine = 20;

void draw_triangle(QPainter& painter, const QPointF& c, double half, int direction) {
    const QPointF corners[] = {{c.x() + direction * half, c.y()},
                               {c.x() - direction * half * 0.8, c.y() - half},
                               {c.x() - direction * half * 0.8, c.y() + half}};
    painter.drawPolygon(corners, 3);
}

}  // namespace

DoseMark mark_of(EntryMatch match) {
    switch (match) {
        case EntryMatch::on_time:
            return DoseMark::on_time;
        case EntryMatch::early:
            return DoseMark::early;
        case EntryMatch::late:
            return DoseMark::late;
        case EntryMatch::extra:
            return DoseMark::extra;
        case EntryMatch::duplicate:
            return DoseMark::duplicate;
        case EntryMatch::slip:
            return DoseMark::slip;
        case EntryMatch::unmatched:
            break;
    }
    return DoseMark::unmatched;
}

const char* mark_text(DoseMark mark) {
    switch (mark) {
        case DoseMark::on_time:
            return "diary-entry-on-time";
        case DoseMark::early:
            return "diary-entry-early";
        case DoseMark::late:
            return "diary-entry-late";
        case DoseMark::extra:
            return "diary-entry-extra";
        case DoseMark::unmatched:
            return "diary-entry-unmatched";
        case DoseMark::duplicate:
            return "diary-entry-duplicate";
        case DoseMark::slip:
            return "diary-entry-slip";
        case DoseMark::missed:
            break;
    }
    return "diary-entry-missed";
}

void draw_mark(QPainter& painter, const QPointF& c, DoseMark mark, double size) {
    const double half = size / 2;
    const QColor ink = tone(Tone::ink), apart = tone(Tone::presses);
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setPen(Qt::NoPen);
    painter.setBrush(apart);
    switch (mark) {
        case DoseMark::on_time:
            painter.setBrush(ink);
            painter.drawEllipse(c, half * 0.85, half * 0.85);
            break;
        case DoseMark::early:
            draw_triangle(painter, c, half, -1);
            break;
        case DoseMark::late:
            draw_triangle(painter, c, half, 1);
            break;
        case DoseMark::extra:
            painter.translate(c);
            painter.rotate(45);
            painter.drawRect(QRectF(-half * 0.8, -half * 0.8, size * 0.8, size * 0.8));
            break;
        case DoseMark::unmatched:
            painter.setBrush(Qt::NoBrush);
            painter.setPen(QPen(ink, 1.6));
            painter.drawEllipse(c, half * 0.75, half * 0.75);
            break;
        case DoseMark::duplicate:
            painter.setBrush(Qt::NoBrush);
            painter.setPen(QPen(tone(Tone::soft_ink), 1.4));
            painter.drawEllipse(c - QPointF(1.6, 0), half * 0.7, half * 0.7);
            painter.drawEllipse(c + QPointF(1.6, 0), half * 0.7, half * 0.7);
            break;
        case DoseMark::slip:
            painter.drawRect(QRectF(c.x() - half * 0.9, c.y() - half * 0.9, size * 0.9, size * 0.9));
            painter.setPen(QPen(tone(Tone::card), 1.6));
            painter.drawLine(c - QPointF(0, half * 0.5), c + QPointF(0, half * 0.1));
            painter.drawPoint(c + QPointF(0, half * 0.5));
            break;
        case DoseMark::missed:
            painter.setPen(QPen(apart, 1.8, Qt::SolidLine, Qt::RoundCap));
            painter.drawLine(c - QPointF(half * 0.7, half * 0.7), c + QPointF(half * 0.7, half * 0.7));
            painter.drawLine(c - QPointF(half * 0.7, -half * 0.7), c + QPointF(half * 0.7, -half * 0.7));
            break;
    }
    painter.restore();
}

MarkLegend::MarkLegend(const Texts& texts, QWidget* parent) : QWidget(parent) {
    for (const DoseMark mark : {DoseMark::on_time, DoseMark::early, DoseMark::late, DoseMark::missed,
                                DoseMark::extra, DoseMark::duplicate, DoseMark::slip, DoseMark::unmatched})
        entries_.emplace_back(mark, to_text(texts.text(mark_text(mark))));
    hatched_ = tr("Unknown, not missed");
    QSizePolicy policy(QSizePolicy::Preferred, QSizePolicy::Preferred);
    policy.setHeightForWidth(true);
    setSizePolicy(policy);
    QStringList words;
    for (const auto& [mark, word] : entries_) words << word;
    setAccessibleName(tr("Shapes in the diary: %1").arg((words << hatched_).join(QStringLiteral(", "))));
}

int MarkLegend::heightForWidth(int width) const {
    return lay_out(width, nullptr);
}

QSize MarkLegend::sizeHint() const {
    return {400, heightForWidth(400)};
}

int MarkLegend::lay_out(int width, QPainter* painter) const {
    const QFontMetricsF metrics(type(Type::note));
    double x = 0, y = 0;
    const auto put = [&](const QString& word, auto draw) {
        const double needed = 20 + metrics.horizontalAdvance(word);
        if (x > 0 && x + needed > width) {
            x = 0;
            y += kLine;
        }
        if (painter) {
            draw(QPointF(x + 8, y + kLine / 2));
            painter->setPen(tone(Tone::soft_ink));
            painter->drawText(QRectF(x + 18, y, needed, kLine), Qt::AlignLeft | Qt::AlignVCenter, word);
        }
        x += needed + kSpace3;
    };
    for (const auto& entry : entries_)
        put(entry.second, [&](const QPointF& at) { draw_mark(*painter, at, entry.first); });
    put(hatched_, [&](const QPointF& at) {
        hatch(*painter, QRectF(at.x() - 7, at.y() - 5, 14, 10), tone(Tone::outlook), 5);
    });
    return static_cast<int>(y + kLine);
}

void MarkLegend::paintEvent(QPaintEvent*) {
    QPainter painter(this);
    painter.setFont(type(Type::note));
    lay_out(width(), &painter);
}

}  // namespace evenfall::ui
