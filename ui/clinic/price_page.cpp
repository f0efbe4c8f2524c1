// SPDX-License-Identifier: GPL-3.0-or-later
#include "clinic/price_page.h"

#include <QComboBox>
#include <QGridLayout>
#include <QPushButton>
#include <QVBoxLayout>
#include <algorithm>

#include "casework/in_force.h"
#include "clinic/clinic_change.h"
#include "controls/buttons.h"
#include "controls/card.h"
#include "controls/form.h"
#include "controls/label.h"
#include "controls/messages.h"
#include "texts/render.h"
#include "theme/theme.h"

namespace evenfall::ui {
namespace {

constexpr int kPriceWidth = 120;
constexpr int kCurrencyWidth = 200;

/// The products of an agent that are paid for apart: cuts and measures do not tell them apart.
std::vector<Product> priced_products(const Drug& drug) {
    std::vector<Product> products;
    for (const ListedProduct& listed : drug.products) {
        const Product& product = listed.product;
        if (std::ranges::none_of(products, [&](const Product& each) {
                return each.form == product.form && each.strength == product.strength;
            }))
            products.push_back(product);
    }
    return products;
}

QString unit_words(const Product& product) {
    return is_liquid(product.form) ? PricePage::tr("for one mL") : PricePage::tr("for one");
}

}  // namespace

PricePage::PricePage(Workbench& workbench, const QString& drug, QWidget* parent)
    : QWidget(parent),
      workbench_(workbench),
      currency_(make_line(tr("Currency"))),
      drug_(make_choice(tr("Agent"), {})),
      faults_(new FaultPanel) {
    const ClinicRecord& clinic = workbench_.desk().clinic_record();
    if (clinic.currency) currency_->setText(to_text(clinic.currency->value.currency));
    currency_->setMaximumWidth(kCurrencyWidth);
    for (const auto& [name, known] : workbench_.desk().formulary().drugs)
        if (!known.products.empty()) drug_->addItem(to_text(name));
    drug_->setCurrentIndex(std::max(0, drug_->findText(drug)));

    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 0, kSpace3, 0);
    auto* card = new Card;
    column->addWidget(card);
    column->addStretch();
    card->body()->addWidget(new SectionHeader(
        tr("Prices"),
        tr("Where prices are entered, plans are compared by cost too, and each fill says what it costs. Left "
           "blank, a price is not known. Nothing else depends on them.")));
    add_field(*card->body(), tr("Currency"), currency_, tr("Written after every sum as it stands here."));
    add_field(*card->body(), tr("Agent"), drug_);
    list_ = new QWidget;
    card->body()->addWidget(list_);
    card->body()->addWidget(faults_);
    auto* keep = make_button(tr("Save the prices"), ButtonKind::primary);
    card->body()->addWidget(keep, 0, Qt::AlignLeft);
    set_reason_disabled(keep, why_not_changed_here(workbench_));
    connect(keep, &QPushButton::clicked, this, &PricePage::save);
    connect(currency_, &QLineEdit::returnPressed, this, &PricePage::save);
    connect(drug_, &QComboBox::currentTextChanged, this, [this](const QString& chosen) {
        emit drug_chosen(chosen);
        show_products();
    });
    show_products();
}

void PricePage::show_products() {
    rows_.clear();
    qDeleteAll(list_->findChildren<QWidget*>(Qt::FindDirectChildrenOnly));
    delete list_->layout();
    auto* grid = new QGridLayout(list_);
    grid->setContentsMargins(0, 0, 0, 0);
    grid->setHorizontalSpacing(kSpace3);
    grid->setVerticalSpacing(kSpace2);
    grid->setColumnStretch(3, 1);
    if (const Drug* drug = workbench_.desk().formulary().find(to_utf8(drug_->currentText())))
        for (const Product& product : priced_products(*drug)) add_row(*grid, product);
}

void PricePage::add_row(QGridLayout& grid, const Product& product) {
    const QString name = to_text(product_name(product));
    QLineEdit* line = make_line(is_liquid(product.form) ? tr("Price of one millilitre, %1").arg(name)
                                                        : tr("Price of one, %1").arg(name));
    line->setFixedWidth(kPriceWidth);
    const auto price = find_price(prices_in_force(workbench_.desk().clinic_record()), product);
    const std::string shown = price ? print_price(*price) : std::string();
    line->setText(to_text(shown));
    connect(line, &QLineEdit::returnPressed, this, &PricePage::save);
    const int row = static_cast<int>(rows_.size());
    grid.addWidget(new Label(name), row, 0);
    grid.addWidget(line, row, 1);
    grid.addWidget(new Label(unit_words(product), Type::note, Tone::soft_ink), row, 2);
    rows_.push_back({product, shown, line});
}

/// All of it, or nothing: a price that cannot be read is marked and keeps the others unwritten.
void PricePage::save() {
    faults_->clear();
    std::vector<Change> changes;
    const ClinicRecord& clinic = workbench_.desk().clinic_record();
    const std::string currency = to_utf8(currency_->text().trimmed());
    if (currency != (clinic.currency ? clinic.currency->value.currency : std::string()))
        changes.push_back(CurrencySet{currency});
    QLineEdit* wrong = nullptr;
    for (const Row& row : rows_) {
        const std::string typed = to_utf8(row.line->text().trimmed());
        const bool refused = !typed.empty() && !parse_price(typed, "price");
        set_wrong(row.line, refused);
        if (refused && !wrong) wrong = row.line;
        if (typed != row.in_force) changes.push_back(PriceSet{row.product, typed});
    }
    if (changes.empty()) return;
    if (!write_for_clinic(workbench_, std::move(changes), *faults_) && wrong) wrong->setFocus();
}

}  // namespace evenfall::ui
