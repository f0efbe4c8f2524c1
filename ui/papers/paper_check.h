// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QWidget>

#include "papers/code_search.h"
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

    /// Where a code is typed or a mark is scanned.
    QLineEdit* field() const { return field_; }
    /// What is said of the paper in hand; empty while no whole code stands in the field.
    QString answer() const;
    /// Whether other people's records are still being looked through.
    bool busy() const { return search_.busy(); }
    /// The schedules that went out, a line each, the latest first.
    QStringList went_out() const;

  signals:
    /// Something is said of the paper in hand, in this widget.
    void answered(QWidget* words);

  private:
    /// `finished`: what stands in the field is all that is coming.
    void look_up(bool finished);
    QString told(const papers::MarkText& paper);
    QString told_of_others(const papers::MarkText& paper);
    void show_answer(const QString& words);

    Workbench& workbench_;
    CodeSearch search_;
    QLineEdit* field_;
    Label* answer_;
    Label* list_title_;
    QVBoxLayout* list_;
};

}  // namespace evenfall::ui
