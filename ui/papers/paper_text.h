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
    struct Face {
        double size = 11;
        bool bold = false;
        QColor colour = kPaperInk;
    };

    PaperText(const QString& text, const Face& face, double width);
    double height() const { return height_; }
    double natural_width() const { return natural_width_; }  ///< of the widest line
    QStringList lines() const;
    void paint(QPainter& painter, const QPointF& top_left) const;

  private:
    void break_into_lines(double size, double width);
    void keep_fewer_lines(const QString& words, double size, double width);

    std::shared_ptr<QTextLayout> layout_;
    QColor colour_;
    double height_ = 0;
    double natural_width_ = 0;
};

QString paper_string(const std::string& utf8);

/// The width of a text's longest word.
double longest_word(const std::string& text, const PaperText::Face& face);
/// The same of words that are kept together, such as a date, where there is room for them (kept_words.h).
double longest_phrase(const std::string& text, const PaperText::Face& face);

}  // namespace evenfall::ui
