// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QColor>
#include <QPointF>
#include <QString>
#include <memory>

#include "papers/paper_style.h"

class QPainter;
class QTextLayout;

namespace evenfall::ui {

/// A text set into a column: plain characters only, broken between words, and inside a word where it is
/// longer than the column. Points throughout; the painter's unit must be a point.
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
    void paint(QPainter& painter, const QPointF& top_left) const;

  private:
    std::shared_ptr<QTextLayout> layout_;
    QColor colour_;
    double height_ = 0;
    double natural_width_ = 0;
};

QString paper_string(const std::string& utf8);

/// The width of a text's longest word.
double longest_word(const std::string& text, const PaperText::Face& face);

}  // namespace evenfall::ui
