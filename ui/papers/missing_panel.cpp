// SPDX-License-Identifier: GPL-3.0-or-later
#include "papers/missing_panel.h"

#include <QLineEdit>
#include <algorithm>

#include "controls/buttons.h"
#include "controls/form.h"
#include "controls/label.h"
#include "theme/theme.h"

namespace evenfall::ui {
namespace {

constexpr int kWidest = 560;  // pixels; a longer line of text is hard to follow

bool is_number(const Fault& fault) {
    return fault.id == "paper-number-missing";
}

bool is_too_long(const Fault& fault) {
    return fault.id.ends_with("-long");
}

/// What is missing or too much, with the place where it was typed.
QString told(const Fault& fault, const Texts& texts) {
    const std::string place = "paper-place-" + fault.place;
    if (fault.id != "paper-text-long" || !texts.has(place))
        return QString::fromStdString(texts.text(fault.id, fault.args));
    Args args = fault.args;
    args["where"] = texts.text(place);
    return QString::fromStdString(texts.text("paper-text-long-at", args));
}

std::string text_of(const QLineEdit* line) {
    return line->text().trimmed().toStdString();
}

}  // namespace

MissingPanel::MissingPanel(QWidget* parent)
    : Card(parent), heading_(new Label({}, Type::heading)), lines_(new QVBoxLayout) {
    setMaximumWidth(kWidest);
    body()->addWidget(heading_->wrapped());
    lines_->setSpacing(kSpace2);
    body()->addLayout(lines_);
    plan_ = make_button(tr("Go to the plan"), ButtonKind::primary);
    connect(plan_, &QPushButton::clicked, this, [this] {
        if (open_plan) open_plan();
    });
    body()->addWidget(plan_, 0, Qt::AlignLeft);
    numbers_ = make_numbers();
    body()->addWidget(numbers_);
}

QWidget* MissingPanel::make_numbers() {
    auto* numbers = new QWidget;
    auto* column = new QVBoxLayout(numbers);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(kSpace3);
    auto* lead =
        new Label(tr("The clinic's numbers. Patients call them; they are printed exactly as they stand "
                     "here, and none is ever made up."));
    column->addWidget(lead->wrapped());
    const auto add = [&](const QString& name) {
        QLineEdit* line = make_line(name);
        add_field(*column, name, line);
        return line;
    };
    name_ = add(tr("Name of the clinic"));
    emergency_ = add(tr("Emergency number"));
    crisis_ = add(tr("Crisis number, thoughts of suicide"));
    phone_ = add(tr("Telephone in office hours"));
    after_hours_ = add(tr("Telephone at all other hours"));
    save_ = make_button(tr("Save the numbers"), ButtonKind::primary);
    column->addWidget(save_, 0, Qt::AlignLeft);
    connect(save_, &QPushButton::clicked, this, [this] {
        if (save_numbers) save_numbers(typed());
    });
    return numbers;
}

void MissingPanel::show_missing(const Faults& faults, const Texts& texts, const Clinic& clinic) {
    clinic_ = clinic;
    while (QLayoutItem* item = lines_->takeAt(0)) {
        delete item->widget();
        delete item;
    }
    const bool numbers = std::ranges::any_of(faults, is_number);
    const auto others = std::ranges::count_if(faults, [](const Fault& fault) { return !is_number(fault); });
    const bool several = numbers || others > 1;
    const auto tells_off = [](const Fault& fault) { return fault.id == "paper-off"; };
    if (std::ranges::all_of(faults, tells_off))
        heading_->setText(tr("Nothing to print here"));
    else if (std::ranges::all_of(faults, is_too_long))
        heading_->setText(several ? tr("These are too long for this paper")
                                  : tr("This is too long for this paper"));
    else
        heading_->setText(several ? tr("These are missing for this paper")
                                  : tr("This is missing for this paper"));
    for (const Fault& fault : faults)
        if (!is_number(fault)) lines_->addWidget((new Label(told(fault, texts)))->wrapped());
    plan_->setVisible(std::ranges::any_of(faults, [](const Fault& fault) {
        return fault.id.starts_with("paper-no-plan") || fault.id == "paper-review-due" ||
               fault.id == "paper-pieces-missing";
    }));
    numbers_->setVisible(numbers);
    const std::pair<QLineEdit*, const std::string*> fields[] = {{emergency_, &clinic.emergency_number},
                                                                {crisis_, &clinic.crisis_number},
                                                                {phone_, &clinic.phone},
                                                                {after_hours_, &clinic.after_hours},
                                                                {name_, &clinic.name}};
    for (const auto& [field, value] : fields) field->setText(QString::fromStdString(*value));
}

Clinic MissingPanel::typed() const {
    Clinic changed = clinic_;
    changed.name = text_of(name_);
    changed.phone = text_of(phone_);
    changed.after_hours = text_of(after_hours_);
    changed.emergency_number = text_of(emergency_);
    changed.crisis_number = text_of(crisis_);
    return changed;
}

}  // namespace evenfall::ui
