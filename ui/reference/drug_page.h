// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QWidget>

#include "formulary/drug.h"
#include "shell/workbench.h"

class QVBoxLayout;

namespace evenfall::ui {

class Card;

/// Everything known of one agent, in cards. Every value stands with its source; a value from memory says so.
class DrugPage : public QWidget {
    Q_OBJECT
  public:
    DrugPage(Workbench& workbench, Drug drug, QWidget* parent = nullptr);

  private:
    Card* add_card(const QString& title, const QString& note = {});
    void add_products();
    void add_product_row(Card& card, const ListedProduct& listed);
    void add_equivalence();
    void add_kinetics();
    void add_interactions();
    void add_facts();
    void withdraw(const Product& product);
    /// A value with its source beneath.
    void add_value(Card& card, const QString& label, const QString& value, const Provenance& from);
    QString source_words(const Provenance& from) const;

    Workbench& workbench_;
    Drug drug_;
    QVBoxLayout* column_;
};

}  // namespace evenfall::ui
