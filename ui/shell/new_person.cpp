// SPDX-License-Identifier: GPL-3.0-or-later
#include "shell/new_person.h"

#include <QComboBox>
#include <QLineEdit>

#include "controls/form.h"
#include "controls/language_choice.h"
#include "controls/typed_field.h"
#include "shell/workbench.h"
#include "texts/render.h"

namespace evenfall::ui {

NewPersonDialog::NewPersonDialog(Workbench& workbench, QWidget* parent)
    : QuietDialog(tr("New person"), tr("The reference is the clinic's own number. It stands on every paper."),
                  parent),
      workbench_(workbench),
      name_(make_line(tr("Name"))),
      reference_(make_line(tr("Reference"))),
      born_(new DayEdit(workbench.texts(), tr("Date of birth"))),
      language_(make_language_choice(tr("Language of the papers"))),
      faults_(new FaultPanel) {
    add_field(*body(), tr("Name"), name_);
    add_field(*body(), tr("Reference"), reference_);
    add_field(*body(), tr("Date of birth"), born_);
    add_field(*body(), tr("Language of the papers"), language_);
    body()->addWidget(faults_);
    set_buttons(tr("Add this person"), tr("Leave"));
    name_->setFocus();
}

void NewPersonDialog::accept() {
    if (!born_->check()) return born_->setFocus();
    Person person;
    person.name = to_utf8(name_->text().trimmed());
    person.reference = to_utf8(reference_->text().trimmed());
    person.born = born_->day();
    person.language = chosen_language(*language_);
    const auto added = workbench_.desk().add_person(person, workbench_.today());
    if (!added) return show_faults(added.faults());
    workbench_.select(*added);
    emit workbench_.record_changed(*added);
    emit workbench_.saved();
    QuietDialog::accept();
}

void NewPersonDialog::show_faults(const Faults& faults) {
    std::vector<std::pair<QString, QString>> lines;
    set_wrong(name_, false);
    set_wrong(reference_, false);
    for (const Fault& fault : faults) {
        const QString sentence = to_text(workbench_.texts().text(fault.id, fault.args));
        if (fault.place == "born")
            born_->show_fault(sentence);
        else
            set_wrong(fault.place == "name" ? name_ : reference_, true);
        lines.emplace_back(to_text(fault.place), sentence);
    }
    faults_->show_faults(lines);
    adjustSize();
}

}  // namespace evenfall::ui
