// SPDX-License-Identifier: GPL-3.0-or-later
#include "plan/product_list.h"

#include <QCheckBox>
#include <QComboBox>
#include <QHBoxLayout>
#include <QSignalBlocker>
#include <algorithm>

#include "controls/label.h"
#include "texts/render.h"
#include "theme/theme.h"

namespace evenfall::ui {
namespace {

/// "0.5 mg tablet": the drug stands above the list.
QString short_name(const Product& product) {
    const QString whole = to_text(product_name(product));
    return whole.mid(whole.indexOf(QLatin1Char(' ')) + 1);
}

/// What the smallest step of a liquid's measure holds, where that is a whole amount.
QString step_words(const Product& product) {
    const QString measure = to_text(print_volume(product.measure));
    const auto amount = amount_in(product.measure, product.strength);
    return amount ? ProductList::tr("measured in steps of %1 = %2").arg(measure, text_of(*amount))
                  : ProductList::tr("measured in steps of %1").arg(measure);
}

bool can_be_cut(Form form) {
    return form == Form::tablet || form == Form::orally_disintegrating_tablet ||
           form == Form::sublingual_tablet;
}

}  // namespace

bool same_unit(const Product& a, const Product& b) {
    return a.drug == b.drug && a.form == b.form && a.strength == b.strength;
}

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
    auto* group = new QWidget;
    auto* layout = new QVBoxLayout(group);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->setSpacing(0);
    Row row{product, new QCheckBox(short_name(product)), new QComboBox};
    row.use->setChecked(use);
    row.use->setMinimumHeight(kTarget);
    row.use->setAccessibleName(tr("Use %1").arg(short_name(product)));
    row.use->setToolTip(to_text(product_name(product)));
    row.cuts->addItems({tr("whole only"), tr("down to halves"), tr("down to quarters")});
    row.cuts->setCurrentIndex(static_cast<int>(product.cuts));
    row.cuts->setAccessibleName(tr("Finest piece of %1").arg(short_name(product)));
    row.cuts->setMinimumHeight(kTarget);
    row.cuts->setVisible(use && can_be_cut(product.form));
    auto* indented = new QHBoxLayout;
    indented->setContentsMargins(kSpace6 + 2, 0, 0, kSpace1);
    indented->addWidget(row.cuts);
    layout->addWidget(row.use);
    if (is_liquid(product.form)) {
        auto* steps = (new Label(step_words(product), Type::note, Tone::soft_ink))->wrapped();
        steps->setContentsMargins(kSpace6 + 2, 0, 0, 0);
        layout->addWidget(steps);
    }
    layout->addLayout(indented);
    column_->addWidget(group);
    connect(row.use, &QCheckBox::toggled, row.cuts, [cuts = row.cuts, form = product.form](bool used) {
        cuts->setVisible(used && can_be_cut(form));
    });
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
        if (std::ranges::none_of(rows_, [&](const Row& row) { return same_unit(row.product, product); }))
            add_row(product, true);
    for (Row& row : rows_) {
        const auto found =
            std::ranges::find_if(products, [&](const Product& each) { return same_unit(each, row.product); });
        row.use->setChecked(found != products.end());
        if (found != products.end()) row.cuts->setCurrentIndex(static_cast<int>(found->cuts));
    }
}

}  // namespace evenfall::ui
