// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QPainter>
#include <QWidget>

#include "rules/texts.h"
#include "stabilization/check.h"

namespace evenfall::ui {

/// How a dose is drawn in the actogram: a shape of its own for each way it stands to what was intended.
enum class DoseMark { on_time, early, late, extra, unmatched, duplicate, slip, missed };

DoseMark mark_of(EntryMatch match);
/// The text id of a mark's word ("diary-entry-late").
const char* mark_text(DoseMark mark);
void draw_mark(QPainter& painter, const QPointF& centre, DoseMark mark, double size = 10);

/// The shapes with their words, in one line that breaks where it has to.
class MarkLegend : public QWidget {
    Q_OBJECT
  public:
    explicit MarkLegend(const Texts& texts, QWidget* parent = nullptr);
    bool hasHeightForWidth() const override { return true; }
    int heightForWidth(int width) const override;
    QSize sizeHint() const override;

  protected:
    void paintEvent(QPaintEvent* event) override;

  private:
    int lay_out(int width, QPainter* painter) const;
    std::vector<std::pair<DoseMark, QString>> entries_;
    QString hatched_;
};

}  // namespace evenfall::ui
