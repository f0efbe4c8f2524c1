// SPDX-License-Identifier: GPL-3.0-or-later
#include "papers/paper_text.h"

#include <QFontDatabase>
#include <QPageSize>
#include <QPainter>
#include <QRegularExpression>
#include <QTextLayout>
#include <algorithm>

namespace evenfall::ui {
namespace {

// Text is measured and drawn ten times too large and scaled down, so that its width is the same on every
// device.
constexpr double kScale = 10;
constexpr double kLineHeight =
    1.27;  // of the size of type (USP chapter 17: 25 to 30 % of space between lines)

QFont font_of(const PaperText::Face& face) {
    QFont font(QString::fromLatin1(kPaperFont));
    font.setPixelSize(static_cast<int>(face.size * kScale + 0.5));
    font.setBold(face.bold);
    font.setStyleStrategy(QFont::StyleStrategy(QFont::PreferOutline | QFont::ForceOutline));
    font.setHintingPreference(QFont::PreferNoHinting);
    return font;
}

/// A number and its unit are never parted by the end of a line.
QString with_units_kept(QString text) {
    static const QRegularExpression kUnit(
        QStringLiteral("(?<=\\d) (?=(mg|mL|%)(?![A-Za-z]))|(?<==) (?=\\d)"));
    return text.replace(kUnit, QString(QChar(0x00A0)));
}

}  // namespace

bool paper_font_available() {
    return QFontDatabase::families().contains(QString::fromLatin1(kPaperFont));
}

PaperStyle::PaperStyle(const PaperOptions& options, bool for_record, bool is_tight) : tight(is_tight) {
    page =
        QPageSize::size(options.size == PaperSize::a4 ? QPageSize::A4 : QPageSize::Letter, QPageSize::Point);
    if (for_record && !options.large_print) {
        margin = 32;
        text = 8.5;
        small = 8;
        heading = 10;
        title = 15;
        gap = 3;
    }
    if (options.large_print) {
        margin = 34;
        text = 18;
        small = 12;
        heading = 20;
        part = 23;
        title = 27;
        gap = 7;
    }
    if (!tight) return;
    margin -= 6;
    gap *= 0.5;
    part = heading + 1;
    title = heading + 3;
}

PaperText::PaperText(const QString& text, const Face& face, double width) : colour_(face.colour) {
    layout_ = std::make_shared<QTextLayout>(with_units_kept(text), font_of(face));
    QTextOption option;
    option.setWrapMode(QTextOption::WrapAtWordBoundaryOrAnywhere);
    option.setTextDirection(Qt::LeftToRight);
    option.setAlignment(Qt::AlignLeft | Qt::AlignAbsolute);
    layout_->setTextOption(option);
    layout_->setCacheEnabled(true);
    const double step = face.size * kLineHeight;
    layout_->beginLayout();
    for (QTextLine line = layout_->createLine(); line.isValid(); line = layout_->createLine()) {
        line.setLineWidth(std::max(1.0, width * kScale));
        line.setPosition(QPointF(0, height_ * kScale + (step * kScale - line.height()) / 2));
        natural_width_ = std::max(natural_width_, line.naturalTextWidth() / kScale);
        height_ += step;
    }
    layout_->endLayout();
}

void PaperText::paint(QPainter& painter, const QPointF& top_left) const {
    painter.save();
    painter.translate(top_left);
    painter.scale(1 / kScale, 1 / kScale);
    painter.setPen(colour_);
    layout_->draw(&painter, QPointF(0, 0));
    painter.restore();
}

double longest_word(const std::string& text, const PaperText::Face& face) {
    double widest = 0;
    for (const QString& word : with_units_kept(paper_string(text)).split(u' ', Qt::SkipEmptyParts))
        widest = std::max(widest, PaperText(word, face, 1e5).natural_width());
    return widest;
}

QString paper_string(const std::string& utf8) {
    return QString::fromUtf8(utf8.data(), static_cast<qsizetype>(utf8.size()));
}

}  // namespace evenfall::ui
