// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QWidget>

#include "papers/standing.h"
#include "shell/workbench.h"

class QLineEdit;
class QVBoxLayout;

namespace evenfall::ui {

class Label;

/// Tells whether a paper in hand is the current one, by its code or a scan of its mark, and lists the
/// schedules that went out with how each stands.
class PaperCheck : public QWidget {
    Q_OBJECT

  public:
    explicit PaperCheck(Workbench& workbench, QWidget* parent = nullptr);
    /// Reads the selected person's papers again.
    void refresh();

    QLineEdit* field() const { return field_; }
    QString answer() const;
    QStringList went_out() const;

  private:
    void look_up(bool finished);
    QString told(const papers::MarkText& paper);
    QString told_of_others(const papers::MarkText& paper);

    Workbench& workbench_;
    QLineEdit* field_;
    Label* answer_;
    Label* list_title_;
    QVBoxLayout* list_;
};

}  // namespace evenfall::ui
