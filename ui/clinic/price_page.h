// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QLineEdit>
#include <QWidget>
#include <string>
#include <vector>

#include "model/product.h"
#include "shell/workbench.h"

class QComboBox;
class QGridLayout;

namespace evenfall::ui {

class FaultPanel;

/// What each product costs the clinic's people, agent by agent, in the clinic's own currency. A blank price
/// is not known: then no cost is shown.
class PricePage : public QWidget {
    Q_OBJECT
  public:
    /// Opens at `drug`, or at the first agent where it is not known.
    PricePage(Workbench& workbench, const QString& drug, QWidget* parent = nullptr);

  signals:
    void drug_chosen(const QString& drug);

  private:
    struct Row {
        Product product;
        std::string in_force;
        QLineEdit* line;
    };
    void show_products();
    void add_row(QGridLayout& grid, const Product& product);
    void save();

    Workbench& workbench_;
    QLineEdit* currency_;
    QComboBox* drug_;
    QWidget* list_ = nullptr;
    std::vector<Row> rows_;
    FaultPanel* faults_;
};

}  // namespace evenfall::ui
