// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "controls/messages.h"
#include "model/product.h"

class QComboBox;

namespace evenfall::ui {

class DoseEdit;
class VolumeEdit;

/// A product that the clinic can get and that the shipped formulary does not have.
class ProductDialog : public QuietDialog {
    Q_OBJECT
  public:
    ProductDialog(Workbench& workbench, std::string drug, QWidget* parent = nullptr);
    void accept() override;

  private:
    void fit_form();
    Workbench& workbench_;
    std::string drug_;
    QComboBox* form_;
    DoseEdit* strength_;
    QComboBox* cuts_;
    VolumeEdit* measure_;
    QLineEdit* reason_;
    FaultPanel* faults_;
};

/// Asks, and writes into the clinic's record.
void add_product(Workbench& workbench, const std::string& drug, QWidget* parent);
void withdraw_product(Workbench& workbench, const Product& product, QWidget* parent);

}  // namespace evenfall::ui
