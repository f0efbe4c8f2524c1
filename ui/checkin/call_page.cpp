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

#include "checkin/call_parts.h"
#include "checkin/danger_card.h"
#include "checkin/danger_questions.h"
#include "checkin/day_strip.h"
#include "checkin/forms_card.h"
#include "checkin/older_call.h"
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
      older_(new OlderCallCard),
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
      response_(new ResponseCard(workbench)),
      beside_({danger_, forms_, whole_}) {
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, kSpace1, 0, 0);
    column->setSpacing(kSpace2);
    column->addWidget(make_head());
    column->addWidget(older_);
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
    connect_cards();
    const auto commit = [this](const QKeySequence& keys) {
        auto* key = new QShortcut(keys, this);
        key->setContext(Qt::WidgetWithChildrenShortcut);
        connect(key, &QShortcut::activated, this, &CallPage::save);
    };
    commit(QKeySequence(Qt::CTRL | Qt::Key_Return));
    commit(QKeySequence(Qt::CTRL | Qt::Key_Enter));
}

CallPage::~CallPage() {
    disconnect(qApp, nullptr, this, nullptr);  // what goes down with the page must not tell it
    keep();
}

void CallPage::connect_cards() {
    connect(older_, &OlderCallCard::go_on, this, &CallPage::go_on_today);
    connect(older_, &OlderCallCard::keep_day, this, &CallPage::keep_its_day);
    connect(older_, &OlderCallCard::begin_anew, this, &CallPage::begin_anew);
    connect(danger_, &DangerCard::left, this, [this] {
        if (resume_) return resume_->setFocus();
        questions_->ask_next();
    });
    const auto written = [this](const std::vector<QWidget*>& fields) {
        beside_.filled(fields);
        keep();
    };
    connect(danger_, &DangerCard::written, this, written);
    connect(forms_, &FormsCard::written, this, written);
    connect(whole_, &WholeCard::written, this, written);
    connect(qApp, &QApplication::focusChanged, this, [this](QWidget* left, QWidget* now) {
        if (left && beside_.holds(left)) keep();
        if (now && scroll_->widget()->isAncestorOf(now)) scroll_->ensureWidgetVisible(now, 0, kSpace6);
    });
}

void CallPage::touch() {
    if (form_.empty()) form_.begun = workbench().now();
    asked_back_ = false;
    asks_back_->hide();
}

void CallPage::refresh() {
    const PatientRecord* record = workbench().record();
    if (!record) return;
    const bool another = shown_ != workbench().patient();
    if (another) {
        keep();
        shown_ = workbench().patient();
        take_up();
        scroll_->ensureVisible(0, 0);
    }
    if (another && day_of(form_.begun) != workbench().today()) set_aside_words_of_that_day();
    if (form_.empty()) form_.begun = workbench().now();
    const bool typed = !another && !beside_.unwritten().empty();
    asks_ = asks_of(*record, workbench().course(), workbench().desk().rules(), form_.begun);
    show_head();
    danger_->refresh();
    show_asks();
    forms_->refresh();
    whole_->refresh();
    response_->refresh();
    if (!typed) beside_.filled();
    if (another) beside_.put_back(form_.beside);
    show_older();
}

/// Who was told of a danger, and half a form, hold for their own day: put back later they would be recorded
/// as of today, or of another danger. What was typed of a danger is still shown, as words of that day.
void CallPage::set_aside_words_of_that_day() {
    const std::string danger = to_utf8(danger_->accessibleName()) + "/";
    const std::string day = print_day(day_of(form_.begun));
    std::erase_if(form_.beside, [&](const auto& each) {
        if (each.first.starts_with(danger) && !each.second.empty())
            set_aside_[std::string(kSetAside) + day + "/" + each.first] = each.second;
        return each.first.starts_with(danger) || each.first.find("/item") != std::string::npos;
    });
    tell_draft(draft_->text());
}

/// What is said of the call's draft, and of words that were set aside: they stay in the draft until a call is
/// saved that they stood beside.
void CallPage::tell_draft(const QString& words) {
    QStringList lines{words};
    std::map<std::string, QStringList> by_day;
    for (const auto& [name, typed] : set_aside_)
        by_day[name.substr(kSetAside.size(), name.find('/', kSetAside.size()) - kSetAside.size())]
            << QStringLiteral("“%1”").arg(to_text(typed));
    for (const auto& [day, typed] : by_day)
        if (const auto on = parse_day(day, {}))
            lines << tr("About a danger, typed on %1 and not written down: %2. Write it anew if it still "
                        "holds.")
                         .arg(text_with_weekday(*on, workbench().today()), typed.join(QStringLiteral(", ")));
    lines.removeAll(QString());
    draft_->setText(lines.join(QStringLiteral("\n")));
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
        if (workbench().carry_out({CheckIn{workbench().now(), {{asked, "yes"}}, {}}}))
            form_.dangers_written[asked] = workbench().record()->check_ins.back().id;
    } else if (answer != QStringLiteral("yes") && written != form_.dangers_written.end()) {
        const EventId entry = written->second;
        form_.dangers_written.erase(written);
        take_danger_back(asked, entry);
    }
    keep();
    tell_open();
    if (answer == QStringLiteral("yes") && danger_->isVisible()) danger_->ask();
}

/// A slip is taken back. What somebody acted on stays as it was told; a later no ends it.
void CallPage::take_danger_back(const std::string& question, const EventId& entry) {
    const PatientRecord& record = *workbench().record();
    const auto of_it = [&entry](const auto& each) { return each.value.danger == entry; };
    const bool acted_on =
        std::ranges::any_of(record.told, of_it) || std::ranges::any_of(record.whereabouts, of_it);
    if (!acted_on)
        workbench().carry_out({EntryAmended{entry, to_utf8(tr("Answered otherwise during the same call."))}});
    else if (const auto said = form_.answers.find(question); said != form_.answers.end())
        workbench().carry_out({CheckIn{workbench().now(), {{question, said->second}}, {}}});
}

void CallPage::no_answer() {
    const PatientRecord* record = workbench().record();
    if (!record) return;
    workbench().carry_out(
        {ContactAttempted{workbench().now(), record->person ? record->person->value.phone : "", ""}});
}

/// The first press asks back where something does not fit or was not asked; the second saves it as it is.
void CallPage::save() {
    const PatientRecord* record = workbench().record();
    if (!record || form_.empty()) return;
    keep();
    if (is_of_another_day()) {
        show_older();
        return setFocus();
    }
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
    set_aside_.clear();         // whoever saved the call had them before their eyes
    if (shown_ != saved_for) {  // a question in between chose another person
        const auto dropped = workbench().desk().drop_draft(saved_for, kDraft);
        if (!dropped && workbench().show_faults) workbench().show_faults(dropped.faults());
        return;
    }
    start_over();
    draft_->setText(tr("The call is saved."));
    draft_->show();
    setFocus();
}

void CallPage::show_part(const QString& part) {
    refresh();
    if (part == QStringLiteral("danger") && danger_->isVisible()) return danger_->ask();
    if (part == QStringLiteral("response")) return scroll_->ensureWidgetVisible(response_);
    if (part == QStringLiteral("whole")) return scroll_->ensureWidgetVisible(whole_);
    if (part == QStringLiteral("forms")) return scroll_->ensureWidgetVisible(forms_);
    setFocus();
}

/// The talk begins with the days: a tab that was opened by its key takes the next key.
void CallPage::showEvent(QShowEvent* event) {
    Page::showEvent(event);
    if (!event->spontaneous()) setFocus();
}

/// Another page, or the window closes.
void CallPage::hideEvent(QHideEvent* event) {
    keep();
    Page::hideEvent(event);
}

/// The window is covered: what lies beneath is disabled.
void CallPage::changeEvent(QEvent* event) {
    if (event->type() == QEvent::EnabledChange && !isEnabled()) keep();
    Page::changeEvent(event);
}

void CallPage::keyPressEvent(QKeyEvent* event) {
    const bool plain = !(event->modifiers() & (Qt::ControlModifier | Qt::AltModifier | Qt::MetaModifier));
    if (plain && event->key() == Qt::Key_A) return no_answer();
    if (plain && event->key() == Qt::Key_P && !is_of_another_day()) return strip_->all_as_planned();
    Page::keyPressEvent(event);
}

}  // namespace evenfall::ui
