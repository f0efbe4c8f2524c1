// SPDX-License-Identifier: GPL-3.0-or-later
#include "checkin/call_page.h"

#include <QApplication>
#include <QGridLayout>
#include <QHBoxLayout>
#include <QKeyEvent>
#include <QLineEdit>
#include <QPlainTextEdit>
#include <QPushButton>
#include <QScopedValueRollback>
#include <QScrollArea>
#include <QShortcut>
#include <algorithm>
#include <utility>

#include "checkin/call_parts.h"
#include "checkin/danger_card.h"
#include "checkin/danger_questions.h"
#include "checkin/day_strip.h"
#include "checkin/forms_card.h"
#include "checkin/response_card.h"
#include "checkin/whole_card.h"
#include "controls/buttons.h"
#include "controls/card.h"
#include "controls/form.h"
#include "controls/label.h"
#include "controls/typed_field.h"
#include "diary/score_cell.h"
#include "texts/render.h"
#include "theme/theme.h"

namespace evenfall::ui {
namespace {

constexpr int kTypingPause = 700;  // milliseconds

}  // namespace

CallPage::CallPage(Workbench& workbench, QWidget* parent)
    : Page(workbench, parent),
      scroll_(new QScrollArea),
      who_(new Label({}, Type::heading)),
      when_(new Label({}, Type::text, Tone::soft_ink)),
      draft_(new Label({}, Type::strong, Tone::planned)),
      danger_(new DangerCard(workbench)),
      strip_(new DayStrip),
      strip_words_(new Label({}, Type::note, Tone::soft_ink)),
      symptom_grid_(new QGridLayout),
      function_grid_(new QGridLayout),
      count_grid_(new QGridLayout),
      questions_(new DangerQuestions(workbench)),
      open_(new Label({}, Type::note, Tone::presses)),
      own_words_(make_lines(tr("In their own words"), 3)),
      next_(new DayEdit(workbench.texts(), tr("Next contact"))),
      asks_back_(new Card),
      forms_(new FormsCard(workbench)),
      whole_(new WholeCard(workbench)),
      response_(new ResponseCard(workbench)) {
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, kSpace1, 0, 0);
    column->setSpacing(kSpace2);
    column->addWidget(make_head());
    column->addWidget(danger_);
    auto* inside = new QWidget;
    talk_ = new QVBoxLayout(inside);
    talk_->setContentsMargins(0, 0, kSpace2, kSpace4);
    talk_->setSpacing(kSpace3);
    make_talk();
    make_foot();
    scroll_->setFrameShape(QFrame::NoFrame);
    scroll_->setWidgetResizable(true);
    scroll_->setFocusPolicy(Qt::NoFocus);
    scroll_->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    scroll_->setWidget(inside);
    column->addWidget(scroll_, 1);
    setFocusProxy(strip_);
    typing_.setSingleShot(true);
    typing_.setInterval(kTypingPause);
    connect(&typing_, &QTimer::timeout, this, &CallPage::keep);
    connect(danger_, &DangerCard::left, this, [this] {
        if (resume_) return resume_->setFocus();
        questions_->ask_next();
    });
    connect(qApp, &QApplication::focusChanged, this, [this](QWidget*, QWidget* now) {
        if (now && scroll_->widget()->isAncestorOf(now)) scroll_->ensureWidgetVisible(now, 0, kSpace6);
    });
    const auto commit = [this](const QKeySequence& keys) {
        auto* key = new QShortcut(keys, this);
        key->setContext(Qt::WidgetWithChildrenShortcut);
        connect(key, &QShortcut::activated, this, &CallPage::save);
    };
    commit(QKeySequence(Qt::CTRL | Qt::Key_Return));
    commit(QKeySequence(Qt::CTRL | Qt::Key_Enter));
}

void CallPage::touch() {
    if (form_.empty()) form_.begun = workbench().now();
    asked_back_ = false;
    asks_back_->hide();
}

/// What was answered is sealed away at once.
void CallPage::keep() {
    typing_.stop();
    if (shown_.empty() || filling_) return;
    if (form_.empty()) {  // what was taken out again does not come back
        if (!std::exchange(kept_, false)) return;
        const auto dropped = workbench().desk().drop_draft(shown_, kDraft);
        if (!dropped && workbench().show_faults) workbench().show_faults(dropped.faults());
        return;
    }
    kept_ = true;
    const auto put = workbench().desk().put_draft(shown_, kDraft, print_call(form_));
    if (!put && workbench().show_faults) workbench().show_faults(put.faults());
}

void CallPage::refresh() {
    const PatientRecord* record = workbench().record();
    if (!record) return;
    if (shown_ != workbench().patient()) {
        if (typing_.isActive()) keep();
        shown_ = workbench().patient();
        take_up();
        scroll_->ensureVisible(0, 0);
    }
    asks_ = asks_of(*record, workbench().course(), workbench().desk().rules(), form_.begun);
    show_head();
    danger_->refresh();
    show_asks();
    forms_->refresh();
    whole_->refresh();
    response_->refresh();
}

/// A yes is in the record before the next key: it stands first in every list that holds it.
void CallPage::answer_danger(const QString& question, const QString& answer) {
    touch();
    const std::string asked = to_utf8(question);
    resume_ = QApplication::focusWidget();
    if (answer.isEmpty())
        form_.answers.erase(asked);
    else
        form_.answers[asked] = to_utf8(answer);
    const auto written = form_.dangers_written.find(asked);
    if (answer == QStringLiteral("yes") && written == form_.dangers_written.end()) {
        if (workbench().carry_out({CheckIn{form_.begun, {{asked, "yes"}}, {}}}))
            form_.dangers_written[asked] = workbench().record()->check_ins.back().id;
    } else if (answer != QStringLiteral("yes") && written != form_.dangers_written.end()) {
        const EventId entry = written->second;
        form_.dangers_written.erase(written);
        workbench().carry_out({EntryAmended{entry, to_utf8(tr("Answered otherwise during the same call."))}});
    }
    keep();
    tell_open();
    if (answer == QStringLiteral("yes") && danger_->isVisible()) danger_->ask();
}

void CallPage::no_answer() {
    const PatientRecord* record = workbench().record();
    if (!record) return;
    workbench().carry_out(
        {ContactAttempted{workbench().now(), record->person ? record->person->value.phone : "", ""}});
}

void CallPage::begin_anew() {
    std::vector<Change> taken_back;
    for (const auto& [question, entry] : form_.dangers_written)
        taken_back.emplace_back(EntryAmended{entry, to_utf8(tr("The call was begun anew."))});
    const auto dropped = workbench().desk().drop_draft(shown_, kDraft);
    if (!dropped && workbench().show_faults) workbench().show_faults(dropped.faults());
    shown_.clear();
    if (taken_back.empty() || !workbench().carry_out(std::move(taken_back))) refresh();
}

/// The first press asks back where something does not fit or was not asked; the second saves it as it is.
void CallPage::save() {
    const PatientRecord* record = workbench().record();
    if (!record || form_.empty()) return;
    if (typing_.isActive()) keep();
    auto changes = changes_of(form_, asks_);
    if (!changes) {
        if (workbench().show_faults) workbench().show_faults(changes.faults());
        return;
    }
    const auto flags = to_be_asked(form_, asks_, *record, workbench().course(), workbench().desk().ground());
    const int open = static_cast<int>(unanswered(form_, asks_).size());
    if (!asked_back_ && (open > 0 || !flags.empty())) {
        asked_back_ = true;
        show_asked_back(*asks_back_, workbench(), flags, open);
        scroll_->ensureWidgetVisible(asks_back_);
        return;
    }
    const PatientId saved_for = shown_;
    if (!workbench().carry_out(std::move(*changes))) return;
    const auto dropped = workbench().desk().drop_draft(saved_for, kDraft);
    if (!dropped && workbench().show_faults) workbench().show_faults(dropped.faults());
    shown_.clear();
    refresh();
    draft_->setText(tr("The call is saved."));
    draft_->show();
    strip_->setFocus();
}

void CallPage::show_part(const QString& part) {
    refresh();
    if (part == QStringLiteral("danger") && danger_->isVisible()) return danger_->ask();
    if (part == QStringLiteral("response")) return scroll_->ensureWidgetVisible(response_);
    if (part == QStringLiteral("whole")) return scroll_->ensureWidgetVisible(whole_);
    if (part == QStringLiteral("forms")) return scroll_->ensureWidgetVisible(forms_);
    strip_->setFocus();
}

/// The talk begins with the days: a tab that was opened by its key takes the next key.
void CallPage::showEvent(QShowEvent* event) {
    Page::showEvent(event);
    if (!event->spontaneous()) strip_->setFocus();
}

void CallPage::keyPressEvent(QKeyEvent* event) {
    const bool plain = !(event->modifiers() & (Qt::ControlModifier | Qt::AltModifier | Qt::MetaModifier));
    if (plain && event->key() == Qt::Key_A) return no_answer();
    if (plain && event->key() == Qt::Key_P) return strip_->all_as_planned();
    Page::keyPressEvent(event);
}

}  // namespace evenfall::ui
