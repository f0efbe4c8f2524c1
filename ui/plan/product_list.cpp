// SPDX-License-Identifier: GPL-3.0-or-later
#include "plan/product_list.h"

#include <QCheckBox>
#include <QComboBox>
#include <QHBoxLayout>
#include <QSignalBlocker>
#include <algorithm>

#include "texts/render.h"
#include "theme/theme.h"

namespace evenfall::ui {
namespace {

bool same_unit(const Product& a, const Product& b) {
    return a.drug == b.drug && a.form == b.form && a.strength == b.strength;
}

/// "0.5 mg tablet": the drug stands above the list.
QString short_name(const Product& product) {
    const QString whole = to_text(product_name(product));
    return whole.mid(whole.indexOf(QLatin1Char(' ')) + 1);
}

bool can_be_cut(Form form) {
    return form == Form::tablet || form == Form::orally_disintegrating_tablet || form == Form::sublingual_tablet;
}

}  // namespace

ProductList::ProductList(QWidget* parent) : QWidget(parent), column_(new QVBoxLayout(this)) {
    column_->setContentsMargins(0, 0, 0, 0);
    column_->setSpacing(0);
    setAccessibleName(tr("Products on hand"));
}

void ProductList::offer(const std::vector<Product>& offered, const std::vector<Product>& checked) {
    for (const Row& row : rows_) delete row.use->parentWidget();
    rows_.clear();
    for (const Product& product : offered) add_row(product, false);
    set_checked(checked);
}

void ProductList::add_row(const Product& product, bool use) {
    auto* line = new QWidget;
    auto* layout = new QHBoxLayout(line);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->setSpacing(kSpace2);
    Row row{product, new QCheckBox(short_name(product)), new QComboBox};
    row.use->setChecked(use);
    row.use->setMinimumHeight(kTarget);
    row.use->setAccessibleName(tr("Use %1").arg(short_name(product)));
    row.use->setToolTip(to_text(product_name(product)));
    for (const Cuts cuts : {Cuts::whole, Cuts::halves, Cuts::quarters}) row.cuts->addItem(to_text(word(cuts)));
    row.cuts->setCurrentIndex(static_cast<int>(product.cuts));
    row.cuts->setAccessibleName(tr("Finest piece of %1").arg(short_name(product)));
    row.cuts->setEnabled(use);
    row.cuts->setVisible(can_be_cut(product.form));
    layout->addWidget(row.use, 1);
    layout->addWidget(row.cuts);
    column_->addWidget(line);
    connect(row.use, &QCheckBox::toggled, row.cuts, &QComboBox::setEnabled);
    connect(row.use, &QCheckBox::toggled, this, &ProductList::edited);
    connect(row.cuts, &QComboBox::currentIndexChanged, this, &ProductList::edited);
    rows_.push_back(row);
}

std::vector<Product> ProductList::checked() const {
    std::vector<Product> products;
    for (const Row& row : rows_) {
        if (!row.use->isChecked()) continue;
        products.push_back(row.product);
        if (can_be_cut(row.product.form)) products.back().cuts = static_cast<Cuts>(row.cuts->currentIndex());
    }
    return products;
}

void ProductList::set_checked(const std::vector<Product>& products) {
    const QSignalBlocker quiet(this);
    for (const Product& product : products)
        if (std::ranges::none_of(rows_, [&](const Row& row) { return same_unit(row.product, product); })) add_row(product, true);
    for (Row& row : rows_) {
        const auto found = std::ranges::find_if(products, [&](const Product& each) { return same_unit(each, row.product); });
        row.use->setChecked(found != products.end());
        if (found != products.end()) row.cuts->setCurrentIndex(static_cast<int>(found->cuts));
    }
}

}  // namespace evenfall::ui
