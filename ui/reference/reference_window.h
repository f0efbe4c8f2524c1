// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QListWidget>
#include <QScrollArea>
#include <QWidget>

#include "formulary/drug.h"
#include "shell/workbench.h"

namespace evenfall::ui {

/// What is known of each agent, every value with its source; the clinic's own products are added and
/// withdrawn here.
class ReferenceWindow : public QWidget {
    Q_OBJECT
  public:
    explicit ReferenceWindow(Workbench& workbench, QWidget* parent = nullptr);
    void show_drug(const std::string& name);

  protected:
    void keyPressEvent(QKeyEvent* event) override;
    void paintEvent(QPaintEvent* event) override;

  private:
    void refresh();
    std::string chosen() const;

    Workbench& workbench_;
    QListWidget* drugs_;
    QScrollArea* page_;
};

}  // namespace evenfall::ui
