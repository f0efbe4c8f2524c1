// SPDX-License-Identifier: GPL-3.0-or-later
#include <QGridLayout>
#include <QVBoxLayout>
#include <algorithm>

#include "controls/form.h"
#include "controls/typed_field.h"
#include "course/day_words.h"
#include "plan/adjust_dialog.h"
#include "plan/product_list.h"
#include "shell/workbench.h"
#include "texts/render.h"

// The fields of each act.

namespace evenfall::ui {
namespace {

constexpr int kMostDays = 365;

}  // namespace

template <class Field>
Field* AdjustDialog::add(const QString& name, Field* field, const QString& note) {
    // Two fields stand beside each other.
    auto* cell = new QVBoxLayout;
    add_field(*cell, name, field, note);
    cell->addStretch();
    const int count = fields_->count();
    fields_->addLayout(cell, count / 2, count % 2);
    field->set_required(true);
    connect(field, &TypedField::edited, this, &AdjustDialog::changed);
    return field;
}

void AdjustDialog::make_fields() {
    const Texts& texts = workbench_.texts();
    switch (act_) {
        case PlanAct::slower:
            days_ = add(tr("Days per step"),
                        new WholeEdit(texts, tr("Length of a step"), 1, kMostDays, tr("days")),
                        tr("Now %1.").arg(ground_.form.days));
            share_ = add(tr("Target"), new PercentEdit(texts, tr("Target, share of the current dose")),
                         tr("Now %1 % of the current dose.").arg(ground_.form.target));
            days_->set_typed(ground_.form.days);
            share_->set_typed(ground_.form.target);
            break;
        case PlanAct::smaller_next:
            share_ = add(tr("Next cut"), new PercentEdit(texts, tr("Next cut, share of the current dose")),
                         tr("The target is %1 % of the current dose.").arg(ground_.form.target));
            break;
        case PlanAct::move_next:
            day_ = add(tr("Next reduction on"), new DayEdit(texts, tr("Next reduction on")),
                       tr("Now %1.").arg(full_day(ground_.job.request.start)));
            day_->set_day(ground_.job.request.start);
            break;
        case PlanAct::products:
            add_products();
            break;
        case PlanAct::lower_end:
            end_ =
                add(tr("Dose a day"), new DoseEdit(texts, tr("Maintenance dose a day")),
                    tr("Today %1 of %2.")
                        .arg(daily_text(daily_amount(ground_.base.now, ground_.job.request.drug)), drug()));
            break;
        default:
            add_doses();
            break;
    }
}

void AdjustDialog::add_products() {
    products_ = new ProductList;
    std::vector<Product> offered;
    for (const Product& candidate :
         candidate_products(workbench_.desk().formulary(), ground_.job.request.drug))
        if (std::ranges::none_of(offered, [&](const Product& each) { return same_unit(each, candidate); }))
            offered.push_back(candidate);
    products_->offer(offered, ground_.form.products);
    add_field(*inside_, tr("Products on hand, finest piece"), products_);
    connect(products_, &ProductList::edited, this, &AdjustDialog::changed);
}

void AdjustDialog::add_doses() {
    const Texts& texts = workbench_.texts();
    days_ = add(tr("Days without it"), new WholeEdit(texts, tr("Days without it"), 0, kMostDays, tr("days")),
                tr("Whole days on which no %1 was taken; 0 where it was only changed.").arg(drug()));
    day_ = add(tr("Taken as below since"), new DayEdit(texts, tr("Taken as below since")));
    day_->set_day(ground_.base.today);
    for (const DoseTime& dose : ground_.base.now.doses) {
        if (dose.drug != ground_.job.request.drug) continue;
        auto* edit = new DoseEdit(texts, tr("Dose at %1").arg(text_of(dose.at)));
        edit->set_dose(dose.amount);
        doses_.push_back({dose, add(tr("%1 at %2").arg(to_text(dose.drug), text_of(dose.at)), edit)});
    }
}

}  // namespace evenfall::ui
