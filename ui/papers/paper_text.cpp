// SPDX-License-Identifier: GPL-3.0-or-later
#include "papers/paper_text.h"

#include <QFontDatabase>
#include <QFontMetricsF>
#include <QPageSize>
#include <QPainter>
#include <QTextLayout>
#include <algorithm>

#include "papers/kept_words.h"

namespace evenfall::ui {
namespace {

// Text is measured and drawn ten times too large and scaled down, so that its width is the same on every
// device.
constexpr double kScale = 10;
constexpr double kLineHeight =
    1.27;  // of the size of type (USP chapter 17: 25 to 30 % of space between lines)

constexpr double kNarrow = 12;  // sizes of type: in narrower columns lines count more than phrases

QFont font_of(const PaperText::Face& face) {
    QFont font(QString::fromLatin1(kPaperFont));
    font.setPixelSize(static_cast<int>(face.size * kScale + 0.5));
    font.setBold(face.bold);
    font.setStyleStrategy(QFont::StyleStrategy(QFont::PreferOutline | QFont::ForceOutline));
    font.setHintingPreference(QFont::PreferNoHinting);
    return font;
}

/// How many characters of a line stand before a number with hyphens that its end would tear: a code
/// ("F4KX-3GVM"), a telephone number. 0 where nothing is torn or nothing stands before it.
int until_torn_number(const QString& text, int start, int length) {
    const int end = start + length;
    if (end >= text.size() || text.at(end - 1) != u'-' || text.at(end).isSpace()) return 0;
    const auto begin = text.lastIndexOf(u' ', end - 1) + 1;
    if (begin <= start) return 0;
    auto after = text.indexOf(u' ', end);
    if (after < 0) after = text.size();
    const QString word = text.mid(begin, after - begin);
    const bool number = std::ranges::any_of(word, [](QChar letter) { return letter.isDigit(); });
    return number ? static_cast<int>(begin) - start : 0;
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
        large = true;
        margin = 34;
        text = 18;
        small = 12;
        heading = 20;
        part = 23;
        title = 27;
        gap = 7;
    }
    if (!tight) return;
    margin -= large ? 10 : 6;
    gap *= 0.5;
    part = heading + 1;
    title = heading + 3;
}

void PaperStyle::set_close() {
    part = heading = text;
    notice = 0.4;
}

PaperText::PaperText(const QString& text, const Face& face, double width) : colour_(face.colour) {
    const QFont font = font_of(face);
    const auto measure = [metrics = QFontMetricsF(font)](const QString& word) {
        return metrics.horizontalAdvance(word) / kScale;
    };
    const QString words = with_words_kept(text, width, measure);
    layout_ = std::make_shared<QTextLayout>(words, font);
    QTextOption option;
    option.setWrapMode(QTextOption::WrapAtWordBoundaryOrAnywhere);
    option.setTextDirection(Qt::LeftToRight);
    option.setAlignment(Qt::AlignLeft | Qt::AlignAbsolute);
    layout_->setTextOption(option);
    layout_->setCacheEnabled(true);
    break_into_lines(face.size, width);
    if (layout_->lineCount() < 2) return;
    if (width < kNarrow * face.size)
        keep_fewer_lines(with_amounts_kept(text, width, measure), face.size, width);
    const QString set =
        width < kNarrow * face.size ? with_sum_apart(layout_->text(), lines().back()) : layout_->text();
    if (set != layout_->text()) {
        layout_->setText(set);
        break_into_lines(face.size, width);
        return;
    }
    const QStringList now = lines();
    const QString kept = without_lone_word(set, now.at(now.size() - 2), now.back());
    const QStringList words_kept = kept.split(u' ');
    if (kept == set || std::ranges::any_of(words_kept, [&](const QString& word) {
            return word.contains(QChar(0x00A0)) && measure(word) > width;
        }))
        return;
    layout_->setText(kept);
    break_into_lines(face.size, width);
}

/// Words set otherwise, where they take fewer lines so.
void PaperText::keep_fewer_lines(const QString& words, double size, double width) {
    const QString before = layout_->text();
    const int lines = layout_->lineCount();
    if (words == before) return;
    layout_->setText(words);
    break_into_lines(size, width);
    if (layout_->lineCount() < lines) return;
    layout_->setText(before);
    break_into_lines(size, width);
}

void PaperText::break_into_lines(double size, double width) {
    const double step = step_ = size * kLineHeight;
    height_ = natural_width_ = 0;
    layout_->beginLayout();
    for (QTextLine line = layout_->createLine(); line.isValid(); line = layout_->createLine()) {
        line.setLineWidth(std::max(1.0, width * kScale));
        if (const int whole = until_torn_number(layout_->text(), line.textStart(), line.textLength());
            whole > 0)
            line.setNumColumns(whole, std::max(1.0, width * kScale));
        line.setPosition(QPointF(0, height_ * kScale + (step * kScale - line.height()) / 2));
        natural_width_ = std::max(natural_width_, line.naturalTextWidth() / kScale);
        height_ += step;
    }
    layout_->endLayout();
}

PaperText PaperText::part(int first, int count) const {
    PaperText part = *this;
    part.first_ = first_ + first;
    part.count_ = count;
    part.height_ = count * step_;
    return part;
}

QStringList PaperText::lines() const {
    QStringList lines;
    for (int i = first_, end = count_ < 0 ? layout_->lineCount() : first_ + count_; i < end; ++i) {
        const QTextLine line = layout_->lineAt(i);
        lines << layout_->text().mid(line.textStart(), line.textLength());
    }
    return lines;
}

void PaperText::paint(QPainter& painter, const QPointF& top_left) const {
    painter.save();
    painter.translate(top_left);
    painter.scale(1 / kScale, 1 / kScale);
    painter.setPen(colour_);
    const QPointF up(0, -first_ * step_ * kScale);
    if (count_ < 0) layout_->draw(&painter, up);
    for (int i = 0; i < count_; ++i) layout_->lineAt(first_ + i).draw(&painter, up);
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

double longest_phrase(const std::string& text, const PaperText::Face& face) {
    const auto measure = [metrics = QFontMetricsF(font_of(face))](const QString& words) {
        return metrics.horizontalAdvance(words) / kScale;
    };
    double widest = 0;
    for (const QString& phrase :
         with_words_kept(paper_string(text), 1e5, measure).split(u' ', Qt::SkipEmptyParts))
        widest = std::max(widest, measure(phrase));
    return widest;
}

}  // namespace evenfall::ui
