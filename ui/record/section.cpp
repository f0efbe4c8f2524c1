// SPDX-License-Identifier: GPL-3.0-or-later
#include "record/section.h"

#include <QAbstractButton>
#include <QApplication>
#include <QComboBox>
#include <QHBoxLayout>
#include <QLineEdit>
#include <QPlainTextEdit>
#include <QPointer>
#include <QPushButton>

#include "controls/buttons.h"
#include "controls/card.h"
#include "controls/form.h"
#include "controls/label.h"
#include "controls/messages.h"
#include "controls/typed_field.h"
#include "texts/render.h"

namespace evenfall::ui {

RecordSection::RecordSection(Workbench& workbench, const QString& title, const QString& lead, QWidget* parent)
    : QWidget(parent),
      workbench_(workbench),
      header_(new SectionHeader(title, lead)),
      body_(new QVBoxLayout),
      faults_(new FaultPanel),
      save_(make_button(tr("Save"), ButtonKind::primary)),
      state_(new Label({}, Type::note, Tone::soft_ink)) {
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 0, kSpace2, kSpace4);
    auto* card = new Card;
    column->addWidget(card);
    column->addStretch();
    card->body()->setSpacing(kSpace3);
    card->body()->addWidget(header_);
    body_->setSpacing(kSpace3);
    card->body()->addLayout(body_);
    card->body()->addWidget(faults_);
    auto* foot = new QHBoxLayout;
    save_->setAccessibleName(tr("Save: %1").arg(title));
    foot->addWidget(save_);
    foot->addSpacing(kSpace2);
    foot->addWidget(state_, 1);
    card->body()->addLayout(foot);
    connect(save_, &QPushButton::clicked, this, &RecordSection::save);
}

void RecordSection::read(const PatientRecord& record) {
    reading_ = true;
    load(record);
    faults_->clear();
    dirty_ = false;
    reading_ = false;
}

bool RecordSection::save() {
    if (!save_->isEnabled()) return false;
    auto changes = collect();
    if (!changes) return false;
    faults_->clear();
    // Faults of this entry belong beside its fields, not at the head of the window.
    const auto outer =
        std::exchange(workbench_.show_faults, [this](const Faults& faults) { show_faults(faults); });
    const bool was_dirty = std::exchange(dirty_, false);
    const QPointer<QWidget> focus = QApplication::focusWidget();
    const bool was_here = focus && isAncestorOf(focus);
    const bool written = workbench_.carry_out(std::move(*changes));
    workbench_.show_faults = outer;
    if (!written) dirty_ = was_dirty;
    // Rows that were read again let go of the focus, which must not wander off to another part of the window.
    if (written && was_here) (focus && focus->isVisible() ? focus.data() : save_)->setFocus();
    return written;
}

void RecordSection::show_faults(const Faults& faults) {
    std::vector<std::pair<QString, QString>> lines;
    for (const Fault& fault : faults) {
        const QString sentence = to_text(texts().text(fault.id, fault.args));
        lines.emplace_back(to_text(fault.place), sentence);
        QWidget* field = field_at(to_text(fault.place));
        if (auto* typed = qobject_cast<TypedField*>(field))
            typed->show_fault(sentence);
        else if (field)
            set_wrong(field, true);
    }
    faults_->show_faults(lines, [this](const QString& place) {
        if (QWidget* field = field_at(place)) field->setFocus();
    });
    if (QWidget* first = field_at(lines.front().first)) first->setFocus();
}

void RecordSection::hide_save() {
    save_->hide();
    state_->hide();
}

void RecordSection::watch(QWidget* field) {
    const auto changed = [this, field] {
        set_wrong(field, false);
        mark_dirty();
    };
    if (auto* typed = qobject_cast<TypedField*>(field)) {
        connect(typed, &TypedField::edited, this, &RecordSection::mark_dirty);
        connect(typed->edit(), &QLineEdit::returnPressed, this, &RecordSection::save);
    } else if (auto* line = qobject_cast<QLineEdit*>(field)) {
        connect(line, &QLineEdit::textChanged, this, changed);
        connect(line, &QLineEdit::returnPressed, this, &RecordSection::save);
    } else if (auto* lines = qobject_cast<QPlainTextEdit*>(field)) {
        connect(lines, &QPlainTextEdit::textChanged, this, changed);
    } else if (auto* choice = qobject_cast<QComboBox*>(field)) {
        connect(choice, &QComboBox::currentIndexChanged, this, changed);
    } else if (auto* button = qobject_cast<QAbstractButton*>(field)) {
        connect(button, &QAbstractButton::toggled, this, changed);
    }
}

void RecordSection::mark_dirty() {
    if (reading_) return;
    state_->setText(tr("Not saved yet"));
    if (std::exchange(dirty_, true)) return;
    emit dirtied();
}

void RecordSection::tell_entry(const Stamp* stamp) {
    state_->setText(
        stamp ? tr("Saved %1 by %2").arg(text_of_minute(stamp->at), workbench_.worker_name(stamp->author))
              : tr("Nothing recorded yet"));
}

void RecordSection::forbid(const QString& reason) {
    set_reason_disabled(save_, reason);
    if (!reason.isEmpty()) state_->setText(reason);
}

}  // namespace evenfall::ui
