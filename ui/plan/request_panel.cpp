// SPDX-License-Identifier: GPL-3.0-or-later
#include "plan/request_panel.h"

#include <QCheckBox>
#include <QComboBox>
#include <QHBoxLayout>
#include <QVBoxLayout>
#include <algorithm>

#include "controls/form.h"
#include "controls/label.h"
#include "controls/typed_field.h"
#include "formulary/formulary.h"
#include "plan/product_list.h"
#include "texts/render.h"

namespace evenfall::ui {
namespace {

/// Two columns of fields beside each other.
std::pair<QVBoxLayout*, QVBoxLayout*> side_by_side(QVBoxLayout& column) {
    auto* row = new QHBoxLayout;
    auto* left = new QVBoxLayout;
    auto* right = new QVBoxLayout;
    row->setSpacing(kSpace3);
    row->addLayout(left, 1);
    row->addLayout(right, 1);
    column.addLayout(row);
    return {left, right};
}

}  // namespace

RequestPanel::RequestPanel(const Texts& texts, QWidget* parent)
    : QWidget(parent),
      texts_(texts),
      drug_(make_choice(tr("Agent to reduce"), {})),
      products_(new ProductList),
      products_fault_((new Label({}, Type::note, Tone::danger))->wrapped()),
      start_(new DayEdit(texts, tr("Next reduction on"))),
      target_(new PercentEdit(texts, tr("Target, share of the current dose"))),
      cap_(new PercentEdit(texts, tr("Cap, share of the current dose"))),
      days_(new WholeEdit(texts, tr("Length of a step"), 1, 365, tr("days"))),
      pace_(make_choice(tr("Pace"), {tr("even fall"), tr("fixed interval")})),
      shape_(make_choice(tr("Shape"), {tr("even"), tr("larger at night"), tr("a dose time first")})),
      first_dose_(make_choice(tr("Dose time reduced first"), {})),
      end_(make_choice(tr("Ends at"), {tr("OFF"), tr("a maintenance dose")})),
      end_amount_(new DoseEdit(texts, tr("Maintenance dose a day"))),
      last_dose_(new DoseEdit(texts, tr("Last dose a day before OFF"))),
      test_(new QCheckBox(tr("Begin with a test reduction"))),
      keep_(new QCheckBox(tr("Keep signed steps to come"))),
      steps_(new WholeEdit(texts, tr("Steps to sign"), 1, 12, tr("steps"))) {
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(2, 2, kSpace3, 0);
    column->setSpacing(kSpace3);
    make_fields(*column);
    column->addStretch();
    by_place_ = {{"plan.start", start_},           {"plan.starts", start_},
                 {"plan.target_percent", target_}, {"plan.cap_percent", cap_},
                 {"plan.days_per_step", days_},    {"plan.commit_steps", steps_},
                 {"plan.end", end_amount_},        {"plan.last_dose_mg", last_dose_}};
}

template <class Field>
void RequestPanel::add(QVBoxLayout& column, const QString& name, Field* field, const QString& key,
                       const QString& note) {
    add_field(column, name, field, note);
    connect(field, &TypedField::edited, this, [this, key] {
        if (!filling_) emit edited(key);
    });
}

void RequestPanel::watch(QComboBox* box, const QString& key) {
    box->setMinimumHeight(kTarget);
    box->setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
    box->setMinimumContentsLength(8);
    connect(box, &QComboBox::currentIndexChanged, this, [this, key] {
        show_what_applies();
        if (!filling_) emit edited(key);
    });
}

void RequestPanel::make_fields(QVBoxLayout& column) {
    add_field(column, tr("Agent to reduce"), drug_);
    watch(drug_, QStringLiteral("drug"));
    connect(drug_, &QComboBox::currentIndexChanged, this, &RequestPanel::drug_changed);
    add_field(column, tr("Products on hand, finest piece"), products_);
    column.addWidget(products_fault_);
    products_fault_->hide();
    connect(products_, &ProductList::edited, this, [this] {
        if (!filling_) emit edited(QStringLiteral("products"));
    });
    add(column, tr("Next reduction on"), start_, QStringLiteral("start"));
    const auto [target_side, cap_side] = side_by_side(column);
    add(*target_side, tr("Target"), target_, QStringLiteral("target"));
    add(*cap_side, tr("Cap"), cap_, QStringLiteral("cap"));
    column.addWidget(
        (new Label(tr("Each a share of the current dose."), Type::note, Tone::soft_ink))->wrapped());
    const auto [days_side, steps_side] = side_by_side(column);
    add(*days_side, tr("Days per step"), days_, QStringLiteral("days"));
    add(*steps_side, tr("Steps to sign"), steps_, QStringLiteral("steps"));
    const auto [pace_side, shape_side] = side_by_side(column);
    add_field(*pace_side, tr("Pace"), pace_);
    add_field(*shape_side, tr("Shape"), shape_);
    watch(pace_, QStringLiteral("pace"));
    watch(shape_, QStringLiteral("shape"));
    column.addWidget(first_dose_);
    watch(first_dose_, QStringLiteral("first-dose"));
    add_field(column, tr("Ends at"), end_);
    watch(end_, QStringLiteral("end"));
    add(column, tr("Dose a day"), end_amount_, QStringLiteral("end-amount"));
    add(column, tr("Last dose a day before OFF"), last_dose_, QStringLiteral("last-dose"),
        tr("Left blank: the least that the products make."));
    for (QCheckBox* box : {test_, keep_}) {
        box->setMinimumHeight(kTarget);
        column.addWidget(box);
        connect(box, &QCheckBox::toggled, this, [this, box] {
            if (!filling_) emit edited(box == test_ ? QStringLiteral("test") : QStringLiteral("keep"));
        });
    }
    for (TypedField* field :
         {static_cast<TypedField*>(start_), static_cast<TypedField*>(target_), static_cast<TypedField*>(cap_),
          static_cast<TypedField*>(days_), static_cast<TypedField*>(steps_)})
        field->set_required(true);
}

QString RequestPanel::drug() const {
    return drug_->currentText();
}

/// Offers the products of the agent that are chosen, and the dose times that could go first.
void RequestPanel::drug_changed() {
    const std::string name = to_utf8(drug());
    std::vector<Product> offered, chosen;
    for (const Product& product : base_.chosen)
        if (product.drug == name) chosen.push_back(product);
    if (formulary_)
        for (const Product& candidate : candidate_products(*formulary_, name))
            if (std::ranges::none_of(offered,
                                     [&](const Product& each) { return same_unit(each, candidate); }))
                offered.push_back(candidate);
    products_->offer(offered, chosen);
    const bool was_filling = std::exchange(filling_, true);
    first_dose_->clear();
    for (const DoseTime& dose : base_.now.doses)
        if (dose.drug == name) first_dose_->addItem(text_of(dose.at));
    filling_ = was_filling;
}

/// Hides the fields that do not apply.
void RequestPanel::show_what_applies() {
    const auto show_row = [](QWidget* field, bool shown) {
        field->setVisible(shown);
        const auto labels = field->parentWidget()->findChildren<QLabel*>();
        for (QLabel* label : labels)
            if (label->buddy() == field) label->setVisible(shown);
    };
    first_dose_->setVisible(shape_->currentIndex() == static_cast<int>(Shape::dose_time_first));
    if (!end_amount_->parentWidget()) return;
    show_row(end_amount_, end_->currentIndex() == 1);
    show_row(last_dose_, end_->currentIndex() == 0);
}

void RequestPanel::begin(const PlanBase& base, const Formulary& formulary) {
    filling_ = true;
    base_ = base;
    formulary_ = &formulary;
    drug_->clear();
    for (const std::string& agent : base.agents) drug_->addItem(to_text(agent));
    drug_->setEnabled(base.agents.size() > 1);
    const PlanRequest request = base.in_force ? base.in_force->request : PlanRequest();
    if (!request.drug.empty()) drug_->setCurrentText(to_text(request.drug));
    drug_changed();
    if (base.in_force) products_->set_checked(base.in_force->products);
    target_->set_percent(to_text(print_percent(request.target)));
    cap_->set_percent(to_text(print_percent(request.cap)));
    days_->set_number(request.days_per_step);
    steps_->set_number(request.commit_steps > 0 ? request.commit_steps : 2);
    pace_->setCurrentIndex(static_cast<int>(request.pace));
    shape_->setCurrentIndex(static_cast<int>(request.shape));
    if (request.first_dose_time) first_dose_->setCurrentText(text_of(*request.first_dose_time));
    end_->setCurrentIndex(request.end_amount ? 1 : 0);
    end_amount_->set_dose(request.end_amount);
    last_dose_->set_dose(request.last_dose);
    test_->setChecked(request.test_reduction);
    test_->setVisible(base.agreed == 0);
    keep_->setChecked(true);
    keep_->setVisible(base.agreed > base.begun);
    Day next = first_free_day(base, keep());
    // After the last stage of a crossover the new regimen stands for a while before it is cut.
    if (base.in_force && crossover_stages(*base.in_force) == keep())
        next = std::max(next, first_cut_after_crossover(*base.in_force).value_or(next));
    start_->set_day(next);
    show_what_applies();
    filling_ = false;
}

void RequestPanel::cross_to(const std::string& drug, const std::vector<Product>& products, Day first_cut) {
    filling_ = true;
    if (drug_->findText(to_text(drug)) < 0) drug_->addItem(to_text(drug));
    drug_->setCurrentText(to_text(drug));
    drug_->setEnabled(drug_->count() > 1);
    drug_changed();
    std::vector<Product> own;
    for (const Product& product : products)
        if (product.drug == drug) own.push_back(product);
    products_->set_checked(own);
    start_->set_day(first_cut);
    show_what_applies();
    filling_ = false;
}

void RequestPanel::add_product(const Product& product) {
    std::vector<Product> products = products_->checked();
    std::erase_if(products, [&](const Product& each) { return same_unit(each, product); });
    products.push_back(product);
    products_->set_checked(products);
    emit edited(QStringLiteral("products"));
}

void RequestPanel::set_start(Day day) {
    start_->set_day(day);
    emit edited(QStringLiteral("start"));
}

QString RequestPanel::asks() const {
    return tr("%1 % every %2 days").arg(target_->typed(), days_->typed());
}

std::vector<Product> RequestPanel::products() const {
    return products_->checked();
}

int RequestPanel::keep() const {
    if (!base_.in_force || to_text(base_.in_force->request.drug) != drug()) return 0;
    return keep_->isChecked() ? base_.agreed : base_.begun;
}

void RequestPanel::say_at(const std::string& place, const QString& sentence) {
    const auto field = std::ranges::find(by_place_, place, &std::pair<std::string, TypedField*>::first);
    if (field != by_place_.end()) field->second->show_fault(sentence);
}

}  // namespace evenfall::ui
