// SPDX-License-Identifier: GPL-3.0-or-later
#include "trust/list_line.h"

#include <QPainter>

#include "controls/label.h"
#include "theme/theme.h"

namespace evenfall::ui {
namespace {

class Dash : public QWidget {
  public:
    Dash() { setFixedWidth(kSpace2); }

  protected:
    void paintEvent(QPaintEvent*) override {
        QPainter painter(this);
        painter.setPen(QPen(tone(Tone::soft_ink), structure_line()));
        const qreal middle = QFontMetricsF(type(Type::text)).height() / 2;
        painter.drawLine(QPointF(0, middle), QPointF(width(), middle));
    }
};

}  // namespace

QHBoxLayout* list_line(const QString& text) {
    auto* row = new QHBoxLayout;
    row->setSpacing(kSpace2);
    row->addWidget(new Dash);
    row->addWidget((new Label(text))->wrapped(), 1);
    return row;
}

}  // namespace evenfall::ui
