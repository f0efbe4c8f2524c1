// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QLineEdit>
#include <QListWidget>
#include <QScrollArea>
#include <QWidget>

#include "shell/workbench.h"

namespace evenfall::ui {

/// The clinic's own settings: its name and numbers, what a fill covers, and its own values for rules. Each
/// change takes a reason and stands in the clinic's record; a nurse reads and changes nothing.
class ClinicWindow : public QWidget {
    Q_OBJECT
  public:
    explicit ClinicWindow(Workbench& workbench, QWidget* parent = nullptr);
    /// Goes to a rule by its id.
    void show_rule(const std::string& id);

  protected:
    void keyPressEvent(QKeyEvent* event) override;
    void paintEvent(QPaintEvent* event) override;

  private:
    void list_rules();
    void filter(const QString& words);
    void refresh();

    Workbench& workbench_;
    QLineEdit* search_;
    QListWidget* list_;
    QScrollArea* page_;
};

}  // namespace evenfall::ui
