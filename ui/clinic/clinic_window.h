// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QLineEdit>
#include <QListWidget>
#include <QScrollArea>
#include <QWidget>

#include "shell/workbench.h"

namespace evenfall::ui {

/// The clinic's own settings: its name and numbers, what a fill covers, its prices, and its own values for
/// rules, which take a reason. Each change stands in the clinic's record; a nurse reads and changes nothing.
class ClinicWindow : public QWidget {
    Q_OBJECT
  public:
    explicit ClinicWindow(Workbench& workbench, QWidget* parent = nullptr);
    /// Goes to a rule by its id.
    void show_rule(const std::string& id);
    void show_prices();

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
    QString price_drug_;  ///< whose prices were shown last
    QScrollArea* page_;
};

}  // namespace evenfall::ui
