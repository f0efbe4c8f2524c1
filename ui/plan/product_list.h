// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QWidget>
#include <vector>

#include "model/product.h"

class QCheckBox;
class QComboBox;
class QVBoxLayout;

namespace evenfall::ui {

/// Whether two products are the same but for the cuts made of them.
bool same_unit(const Product& a, const Product& b);

/// Products as a list to check, each with the finest piece that may be made of it.
class ProductList : public QWidget {
    Q_OBJECT

  public:
    explicit ProductList(QWidget* parent = nullptr);

    /// Offers products; those in `checked` are checked with the cuts that they have there.
    void offer(const std::vector<Product>& offered, const std::vector<Product>& checked);
    std::vector<Product> checked() const;
    /// Checks these and no others; one that is not offered is added.
    void set_checked(const std::vector<Product>& products);

  signals:
    void edited();

  private:
    struct Row {
        Product product;
        QCheckBox* use;
        QComboBox* cuts;
    };
    void add_row(const Product& product, bool use);
    QVBoxLayout* column_;
    std::vector<Row> rows_;
};

}  // namespace evenfall::ui
