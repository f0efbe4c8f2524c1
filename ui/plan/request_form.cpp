// SPDX-License-Identifier: GPL-3.0-or-later
#include <QCheckBox>
#include <QComboBox>
#include <algorithm>

#include "controls/label.h"
#include "controls/typed_field.h"
#include "plan/product_list.h"
#include "plan/request_panel.h"
#include "texts/render.h"

// What stands in the fields of a request, as typed and as a request, and what is wrong with it.

namespace evenfall::ui {

PlanForm RequestPanel::form() const {
    return {drug(),
            products_->checked(),
            start_->typed(),
            target_->typed(),
            cap_->typed(),
            days_->typed(),
            steps_->typed(),
            end_amount_->typed(),
            last_dose_->typed(),
            pace_->currentIndex(),
            shape_->currentIndex(),
            first_dose_->currentIndex(),
            end_->currentIndex(),
            test_->isChecked(),
            keep_->isChecked(),
            {},
            {}};
}

void RequestPanel::set_form(const PlanForm& form) {
    filling_ = true;
    if (drug_->findText(form.drug) < 0) drug_->addItem(form.drug);
    drug_->setCurrentText(form.drug);
    products_->set_checked(form.products);
    const std::pair<TypedField*, const QString*> fields[] = {
        {start_, &form.start},        {target_, &form.target}, {cap_, &form.cap},
        {days_, &form.days},          {steps_, &form.steps},   {end_amount_, &form.end_amount},
        {last_dose_, &form.last_dose}};
    for (const auto& [field, text] : fields)
        if (field->typed() != *text) field->set_typed(*text);
    pace_->setCurrentIndex(form.pace);
    shape_->setCurrentIndex(form.shape);
    first_dose_->setCurrentIndex(form.first_dose);
    end_->setCurrentIndex(form.end);
    test_->setChecked(form.test_reduction);
    keep_->setChecked(form.keep_signed);
    show_what_applies();
    filling_ = false;
}

std::optional<PlanRequest> RequestPanel::request() const {
    PlanRequest request;
    const bool to_off = end_->currentIndex() == 0;
    const auto start = start_->day();
    const auto target = target_->share(), cap = cap_->share();
    const auto days = days_->number(), steps = steps_->number();
    const TypedField* end = to_off ? static_cast<const TypedField*>(last_dose_) : end_amount_;
    if (!start || !target || !cap || !days || !steps || end->is_refused()) return std::nullopt;
    request.drug = to_utf8(drug());
    request.start = *start;
    request.target = *target;
    request.cap = *cap;
    request.days_per_step = *days;
    request.commit_steps = *steps;
    request.pace = static_cast<Pace>(pace_->currentIndex());
    request.shape = static_cast<Shape>(shape_->currentIndex());
    request.test_reduction = test_->isChecked();
    if (request.shape == Shape::dose_time_first)
        for (const DoseTime& dose : base_.now.doses)
            if (dose.drug == request.drug && text_of(dose.at) == first_dose_->currentText())
                request.first_dose_time = dose.at;
    if (to_off)
        request.last_dose = last_dose_->dose();
    else if (!(request.end_amount = end_amount_->dose()))
        return std::nullopt;
    return request;
}

std::vector<Fault> RequestPanel::show_faults(const Faults& faults) {
    std::vector<Fault> elsewhere;
    for (const auto& [place, field] : by_place_) field->show_fault({});
    products_fault_->hide();
    for (const Fault& fault : faults) {
        const QString sentence = to_text(texts_.text(fault.id, fault.args));
        const auto field =
            std::ranges::find(by_place_, fault.place, &std::pair<std::string, TypedField*>::first);
        if (field != by_place_.end()) {
            field->second->show_fault(sentence);
        } else if (fault.place == "products" || fault.place.starts_with("regimen")) {
            // What cannot be made is cured by products, so it is said under them.
            products_fault_->setText(products_fault_->isHidden()
                                         ? sentence
                                         : products_fault_->text() + QLatin1Char('\n') + sentence);
            products_fault_->show();
        } else {
            elsewhere.push_back(fault);
        }
    }
    return elsewhere;
}

}  // namespace evenfall::ui
