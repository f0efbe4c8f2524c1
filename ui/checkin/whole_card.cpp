// SPDX-License-Identifier: GPL-3.0-or-later
#include "checkin/whole_card.h"

#include <QComboBox>
#include <QHBoxLayout>
#include <QPushButton>
#include <QStackedWidget>

#include "controls/buttons.h"
#include "controls/form.h"
#include "controls/label.h"
#include "shell/workbench.h"
#include "texts/render.h"

namespace evenfall::ui {

WholeCard::WholeCard(Workbench& workbench, QWidget* parent)
    : Card(parent),
      workbench_(workbench),
      which_(make_choice(tr("What to write down"), {})),
      stack_(new QStackedWidget),
      known_(new Label({}, Type::note, Tone::soft_ink)),
      forms_(small_forms(workbench)) {
    setAccessibleName(tr("The whole picture"));
    body()->addWidget(
        new SectionHeader(tr("The whole picture"), tr("Without catching anyone out: a test is explained "
                                                      "beforehand, and what happened is asked, not held "
                                                      "against the person.")));
    body()->addWidget(known_->wrapped());
    auto* row = new QHBoxLayout;
    row->addWidget(which_);
    row->addStretch();
    auto* keep = make_button(tr("Write it down"));
    connect(keep, &QPushButton::clicked, this, &WholeCard::save);
    row->addWidget(keep);
    body()->addLayout(row);
    for (const SmallForm& form : forms_) {
        which_->addItem(form.title);
        stack_->addWidget(form.fields);
    }
    body()->addWidget(stack_);
    connect(which_, &QComboBox::currentIndexChanged, stack_, &QStackedWidget::setCurrentIndex);
}

void WholeCard::refresh() {
    const PatientRecord* record = workbench_.record();
    if (!record) return;
    known_->setText(whole_words(*record, workbench_.today()));
    known_->setVisible(!known_->text().isEmpty());
    if (shown_ == record->id) return;
    shown_ = record->id;
    which_->setCurrentIndex(0);
    for (const SmallForm& form : forms_)
        if (form.fill) form.fill();
}

void WholeCard::save() {
    const SmallForm& form = forms_[static_cast<std::size_t>(stack_->currentIndex())];
    auto change = form.collect();
    if (!change || !workbench_.carry_out({std::move(*change)})) return;
    if (form.fill) form.fill();
    emit written({form.fields, which_});
}

QString whole_words(const PatientRecord& record, Day today) {
    QStringList lines;
    const auto day = [today](Day on) { return text_with_weekday(on, today); };
    if (record.team)
        lines << QObject::tr("Clinician: %1. Nurse: %2.")
                     .arg(to_text(record.team->value.clinician), to_text(record.team->value.nurse));
    if (!record.monitoring.empty()) {
        const MonitoringChecked& last = record.monitoring.back().value;
        lines
            << QObject::tr("Monitoring database looked at on %1: %2").arg(day(last.on), to_text(last.found));
    }
    if (!record.drug_tests.empty()) {
        const DrugTestNoted& test = record.drug_tests.back().value;
        QStringList said;
        if (test.explained_on) said << QObject::tr("explained on %1").arg(day(*test.explained_on));
        if (test.ordered_on) said << QObject::tr("ordered on %1").arg(day(*test.ordered_on));
        if (test.result_on)
            said << QObject::tr("result on %1, %2: %3")
                        .arg(day(*test.result_on), to_text(word(test.agrees)), to_text(test.result));
        lines << QObject::tr("Drug test: %1").arg(said.join(QStringLiteral(", ")));
    }
    if (!record.life_events.empty()) {
        const LifeEvent& event = record.life_events.back().value;
        lines << QObject::tr("%1 from %2 %3")
                     .arg(sentence_word(event.what), day(event.from), to_text(event.note));
    }
    return lines.join(u'\n');
}

}  // namespace evenfall::ui
