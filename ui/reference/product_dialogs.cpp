// SPDX-License-Identifier: GPL-3.0-or-later
#include "reference/product_dialogs.h"

#include <QComboBox>
#include <QLineEdit>
#include <QPushButton>

#include "controls/buttons.h"
#include "controls/form.h"
#include "controls/typed_field.h"
#include "shell/workbench.h"
#include "texts/render.h"

namespace evenfall::ui {
namespace {

template <Worded E>
QStringList words_of() {
    QStringList all;
    for (const auto& each : Words<E>::table) all << sentence_word(each.first);
    return all;
}

/// Runs a change of the clinic's and gives back its faults instead of showing them at the window's head.
Faults faults_of(Workbench& workbench, Change change) {
    Faults found;
    const auto outer =
        std::exchange(workbench.show_faults, [&found](const Faults& faults) { found = faults; });
    std::vector<Change> changes;
    changes.push_back(std::move(change));
    workbench.carry_out_for_clinic(std::move(changes));
    workbench.show_faults = outer;
    return found;
}

std::vector<std::pair<QString, QString>> lines_of(const Workbench& workbench, const Faults& faults) {
    std::vector<std::pair<QString, QString>> lines;
    for (const Fault& fault : faults)
        lines.emplace_back(to_text(fault.place), to_text(workbench.texts().text(fault.id, fault.args)));
    return lines;
}

}  // namespace

ProductDialog::ProductDialog(Workbench& workbench, std::string drug, QWidget* parent)
    : QuietDialog(tr("Add a product of %1").arg(to_text(drug)),
                  tr("It is offered in plans from now on, for everyone in this clinic."), parent),
      workbench_(workbench),
      drug_(std::move(drug)),
      form_(make_choice(tr("Form"), words_of<Form>())),
      strength_(new DoseEdit(workbench.texts(), tr("Strength"))),
      cuts_(make_choice(tr("May be cut"), words_of<Cuts>())),
      measure_(new VolumeEdit(workbench.texts(), tr("Smallest step of the measuring device"))),
      reason_(make_line(tr("Why"))),
      faults_(new FaultPanel) {
    strength_->set_required(true);
    add_field(*body(), tr("Form"), form_);
    add_field(*body(), tr("Strength"), strength_, tr("In one unit; for a liquid, in one millilitre."));
    add_field(*body(), tr("May be cut"), cuts_);
    add_field(*body(), tr("Smallest step of the measuring device"), measure_, tr("For a liquid."));
    add_field(*body(), tr("Why"), reason_);
    body()->addWidget(faults_);
    set_buttons(tr("Add this product"), tr("Leave"));
    connect(form_, &QComboBox::currentIndexChanged, this, &ProductDialog::fit_form);
    fit_form();
    form_->setFocus();
}

void ProductDialog::fit_form() {
    const Form form = Words<Form>::table[static_cast<std::size_t>(form_->currentIndex())].first;
    measure_->setEnabled(is_liquid(form));
    const bool cut = form == Form::tablet;
    if (!cut) cuts_->setCurrentIndex(0);
    set_reason_disabled(cuts_, cut ? QString() : tr("Only plain tablets are cut."));
}

void ProductDialog::accept() {
    const bool right = strength_->check() & measure_->check();
    if (!right) return strength_->is_refused() ? strength_->setFocus() : measure_->setFocus();
    Product product;
    product.drug = drug_;
    product.form = Words<Form>::table[static_cast<std::size_t>(form_->currentIndex())].first;
    product.strength = *strength_->dose();
    product.cuts = Words<Cuts>::table[static_cast<std::size_t>(cuts_->currentIndex())].first;
    if (is_liquid(product.form)) product.measure = measure_->volume().value_or(Volume());
    const Faults faults = faults_of(workbench_, ProductListed{product, to_utf8(reason_->text().trimmed())});
    if (faults.empty()) return QuietDialog::accept();
    faults_->show_faults(lines_of(workbench_, faults));
}

void add_product(Workbench& workbench, const std::string& drug, QWidget* parent) {
    ProductDialog(workbench, drug, parent).exec();
}

void withdraw_product(Workbench& workbench, const Product& product, QWidget* parent) {
    QuietDialog dialog(QObject::tr("Withdraw %1?").arg(to_text(product_name(product))),
                       QObject::tr("It is no longer offered in plans. Plans that use it stay as they are."),
                       parent);
    QLineEdit* reason = make_line(QObject::tr("Why"));
    add_field(*dialog.body(), QObject::tr("Why"), reason);
    dialog.set_buttons(QObject::tr("Withdraw it"), QObject::tr("Leave it"));
    if (dialog.exec() != QDialog::Accepted) return;
    const Faults faults = faults_of(workbench, ProductWithdrawn{product, to_utf8(reason->text().trimmed())});
    if (!faults.empty() && workbench.show_faults) workbench.show_faults(faults);
}

}  // namespace evenfall::ui
