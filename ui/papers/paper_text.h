// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QColor>
#include <QPointF>
#include <QString>
#include <QStringList>
#include <memory>

#include "papers/paper_style.h"

class QPainter;
class QTextLayout;

namespace evenfall::ui {

/// A text set into a column: plain characters only, broken between words that need not stay together, and
/// inside a word where it is longer than the column. A last line is not one short word where that can be
/// helped. Points throughout; the painter's unit must be a point.
class PaperText {
  public:
    /// How a text is set; sizes in points.
    struct Face {
        double size = 11;
        bool bold = false;
        QColor colour = kPaperInk;
    };

    /// Sets a text into a column of this width.
    PaperText(const QString& text, const Face& face, double width);
    double height() const { return height_; }
    double natural_width() const { return natural_width_; }  ///< of the widest line
    /// The text as it is broken.
    QStringList lines() const;
    /// So many of its lines from one on, for a text that is parted between pages.
    PaperText part(int first, int count) const;
    void paint(QPainter& painter, const QPointF& top_left) const;

  private:
    void break_into_lines(double size, double width);
    void keep_fewer_lines(const QString& words, double size, double width);

    std::shared_ptr<QTextLayout> layout_;
    int first_ = 0;   ///< of the layout's lines
    int count_ = -1;  ///< of them; -1: to the last
    double step_ = 0;
    QColor colour_;
    double height_ = 0;
    double natural_width_ = 0;
};

/// A text of a paper as Qt sets it; bytes that are no UTF-8 become U+FFFD.
QString paper_string(const std::string& utf8);

/// The width of a text's longest word.
double longest_word(const std::string& text, const PaperText::Face& face);
/// The same of words that are kept together, such as a date, where there is room for them (kept_words.h).
double longest_phrase(const std::string& text, const PaperText::Face& face);

}  // namespace evenfall::ui
