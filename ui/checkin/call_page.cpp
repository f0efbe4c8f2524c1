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

constexpr const char* kDraft = "check-in";
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

QWidget* CallPage::make_head() {
    auto* head = new Card;
    auto* row = new QHBoxLayout;
    auto* words = new QVBoxLayout;
    words->setSpacing(2);
    words->addWidget(who_->wrapped());
    words->addWidget(when_->wrapped());
    words->addWidget(draft_->wrapped());
    row->addLayout(words, 1);
    auto* nobody = make_button(tr("No answer (A)"));
    nobody->setToolTip(tr("Writes down that a call reached nobody"));
    connect(nobody, &QPushButton::clicked, this, &CallPage::no_answer);
    row->addWidget(nobody, 0, Qt::AlignTop);
    auto* anew = make_button(tr("Begin anew"));
    anew->setObjectName(QStringLiteral("anew"));
    connect(anew, &QPushButton::clicked, this, &CallPage::begin_anew);
    row->addWidget(anew, 0, Qt::AlignTop);
    head->body()->addLayout(row);
    return head;
}

void CallPage::add_line(QVBoxLayout& column, const char* question, const QString& name) {
    auto* line = make_line(name);
    auto* row = new QHBoxLayout;
    auto* label = new Label(name);
    label->setBuddy(line);
    label->setMinimumWidth(kNameWidth);
    row->addWidget(label);
    row->addWidget(line, 1);
    column.addLayout(row);
    lines_[question] = line;
    connect(line, &QLineEdit::textEdited, this, [this, question](const QString& text) {
        touch();
        form_.answers[question] = to_utf8(text);
        typing_.start();
    });
    connect(line, &QLineEdit::editingFinished, this, &CallPage::keep);
    connect(line, &QLineEdit::returnPressed, this, [this] { focusNextChild(); });
}

void CallPage::make_talk() {
    Card* days =
        add_part(*talk_, tr("Doses since the last call"),
                 tr("P: all as planned. X: this day was not. What was not so is written day by day in "
                    "the Diary."));
    auto* planned = make_button(tr("All as planned (P)"));
    connect(planned, &QPushButton::clicked, this, [this] { strip_->all_as_planned(); });
    auto* diary = make_button(tr("Write a day down"));
    connect(diary, &QPushButton::clicked, this,
            [this] { emit workbench().page_wanted(QStringLiteral("diary")); });
    days->body()->addWidget(strip_);
    auto* row = new QHBoxLayout;
    row->addWidget(planned);
    row->addWidget(diary);
    row->addWidget(strip_words_->wrapped(), 1);
    days->body()->addLayout(row);
    connect(strip_, &DayStrip::changed, this, [this] {
        touch();
        form_.days = strip_->said();
        strip_words_->setText(strip_->summary());
        keep();
    });
    connect(strip_, &DayStrip::finished, this, [this] {
        if (!symptoms_.empty()) symptoms_.front()->setFocus();
    });

    Card* felt = add_part(*talk_, tr("Symptoms and sleep, 0 to 10"),
                          tr("0 to 9, X for 10. Beside each the numeral of last time."));
    felt->body()->addLayout(symptom_grid_);
    add_line(*felt->body(), "sleep", tr("Sleep, in hours or words"));

    Card* dangers =
        add_part(*talk_, tr("Never left out"), tr("Each one by its own key: N for no, Y for yes."));
    dangers->body()->addWidget(questions_);
    dangers->body()->addWidget(open_->wrapped());
    connect(questions_, &DangerQuestions::answered, this, &CallPage::answer_danger);

    Card* life = add_part(*talk_, tr("How life goes"), tr("0: no trouble, 10: not possible."));
    life->body()->addLayout(function_grid_);
    add_line(*life->body(), "supports", tr("Who or what helped"));
    add_line(*life->body(), "meals and movement", tr("Meals and movement"));
    add_line(*life->body(), "substances", tr("Alcohol or other substances"));
    add_line(*life->body(), "goals", tr("What came of the goals"));

    Card* home = add_part(*talk_, tr("Left at home"), tr("Whole tablets or capsules of each strength."));
    home->body()->addLayout(count_grid_);
    home->setObjectName(QStringLiteral("counts"));

    Card* words = add_part(*talk_, tr("In their own words"));
    words->body()->addWidget(own_words_);
    connect(own_words_, &QPlainTextEdit::textChanged, this, [this] {
        if (filling_) return;
        touch();
        form_.own_words = to_utf8(own_words_->toPlainText());
        typing_.start();
    });
}

void CallPage::make_foot() {
    auto* foot = new Card;
    auto* row = new QHBoxLayout;
    row->addWidget(new Label(tr("Next contact"), Type::strong), 0, Qt::AlignTop);
    next_->setFixedWidth(256);
    row->addWidget(next_, 0, Qt::AlignTop);
    row->addStretch();
    auto* keep_it = make_button(tr("Save the call (Ctrl+Enter)"), ButtonKind::primary);
    connect(keep_it, &QPushButton::clicked, this, &CallPage::save);
    row->addWidget(keep_it, 0, Qt::AlignTop);
    asks_back_->set_meaning(Tone::presses_fill, Tone::presses);
    asks_back_->setAccessibleName(tr("To be asked"));
    asks_back_->hide();
    foot->body()->addWidget(asks_back_);
    foot->body()->addLayout(row);
    talk_->addWidget(foot);
    talk_->addWidget(forms_);
    talk_->addWidget(whole_);
    talk_->addWidget(response_);
    talk_->addStretch();
    connect(next_, &TypedField::edited, this, [this] {
        if (filling_) return;
        touch();
        form_.next_on = to_utf8(next_->typed().trimmed());
        typing_.start();
    });
}

void CallPage::touch() {
    if (form_.empty()) form_.begun = workbench().now();
    asked_back_ = false;
    asks_back_->hide();
}

/// What was answered is sealed away at once.
void CallPage::keep() {
    typing_.stop();
    if (shown_.empty() || filling_ || form_.empty()) return;
    const auto put = workbench().desk().put_draft(shown_, kDraft, print_call(form_));
    if (!put && workbench().show_faults) workbench().show_faults(put.faults());
}

void CallPage::take_up() {
    form_ = {};
    form_.begun = workbench().now();
    asked_back_ = false;
    asks_back_->hide();
    draft_->setText({});
    for (QGridLayout* grid : {symptom_grid_, function_grid_}) clear_layout(*grid);
    symptoms_.clear();
    functions_.clear();
    const auto kept = workbench().desk().read_draft(shown_, kDraft);
    if (!kept) {
        if (workbench().show_faults) workbench().show_faults(kept.faults());
        return;
    }
    if (!kept->has_value() || (*kept)->empty()) return;
    auto read = read_call(**kept);
    if (!read) {
        if (workbench().show_faults) workbench().show_faults(read.faults());
        return;
    }
    form_ = std::move(*read);
    draft_->setText(tr("Taken up again: the call begun on %1 at %2, not saved yet.")
                        .arg(text_with_weekday(day_of(form_.begun), workbench().today()),
                             text_of(clock_of(form_.begun))));
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
    whole_->refresh();
    response_->refresh();
}

void CallPage::show_head() {
    const PatientRecord& record = *workbench().record();
    const QString phone = record.person ? to_text(record.person->value.phone) : QString();
    who_->setText(phone.isEmpty() ? tr("No number to call is recorded") : tr("Call %1").arg(phone));
    draft_->setVisible(!draft_->text().isEmpty());
    findChild<QPushButton*>(QStringLiteral("anew"))->setVisible(!form_.empty());
    when_->setText(call_head_words(record, asks_, form_.begun, workbench().today()));
}

void CallPage::show_scores(const std::vector<std::string>& items, QGridLayout& grid, bool function,
                           std::vector<ScoreCell*>& cells) {
    const bool same = std::ranges::equal(items, cells, {}, {}, &ScoreCell::item);
    if (!same) {
        clear_layout(grid);
        cells.clear();
        for (const std::string& item : items) {
            auto* cell = new ScoreCell(item, this);
            cells.push_back(cell);
            const auto scored = [this, cell, function] {
                touch();
                auto& scores = function ? form_.function : form_.scores;
                if (cell->score())
                    scores[cell->item()] = *cell->score();
                else
                    scores.erase(cell->item());
                keep();
            };
            connect(cell, &ScoreCell::scored, this, [this, scored] {
                scored();
                focusNextChild();
            });
            connect(cell, &ScoreCell::taken_out, this, scored);
            connect(cell, &ScoreCell::step_wanted, this, [this](int by) { focusNextPrevChild(by > 0); });
        }
    }
    const auto& scores = function ? form_.function : form_.scores;
    for (ScoreCell* cell : cells) {
        const auto found = scores.find(cell->item());
        cell->set_score(found == scores.end() ? std::nullopt : std::optional(found->second));
    }
    if (!same) lay_out_scores(grid, cells, asks_, function);
}

void CallPage::show_counts() {
    std::vector<std::string> names;
    for (const Product& product : asks_.products) names.push_back(product_name(product));
    std::ranges::sort(names);
    const bool same = std::ranges::equal(names, counts_, {}, {}, [](const auto& each) { return each.first; });
    findChild<Card*>(QStringLiteral("counts"))->setVisible(!names.empty());
    if (same) return;
    clear_layout(*count_grid_);
    counts_.clear();
    int row = 0;
    for (const std::string& name : names) {
        auto* line = make_line(tr("Left at home: %1").arg(to_text(name)));
        line->setFixedWidth(96);
        count_grid_->addWidget(new Label(to_text(name)), row, 0);
        count_grid_->addWidget(line, row++, 1, Qt::AlignLeft);
        counts_[name] = line;
        connect(line, &QLineEdit::textEdited, this, [this, name](const QString& text) {
            touch();
            form_.counted[name] = to_utf8(text.trimmed());
            typing_.start();
        });
        connect(line, &QLineEdit::editingFinished, this, &CallPage::keep);
        connect(line, &QLineEdit::returnPressed, this, [this] { focusNextChild(); });
    }
    count_grid_->setColumnStretch(1, 1);
}

void CallPage::fill_words() {
    const QScopedValueRollback guard(filling_, true);
    const auto fill = [](QLineEdit* line, const std::map<std::string, std::string>& from,
                         const std::string& key) {
        const auto found = from.find(key);
        const QString text = found == from.end() ? QString() : to_text(found->second);
        if (line->text() != text) line->setText(text);
    };
    for (const auto& [question, line] : lines_) {
        fill(line, form_.answers, question);
        const auto last = asks_.last_answers.find(question);
        line->setPlaceholderText(
            last == asks_.last_answers.end() ? QString() : tr("last time: %1").arg(to_text(last->second)));
    }
    for (const auto& [name, line] : counts_) fill(line, form_.counted, name);
    if (own_words_->toPlainText() != to_text(form_.own_words))
        own_words_->setPlainText(to_text(form_.own_words));
    if (to_utf8(next_->typed().trimmed()) != form_.next_on) next_->set_typed(to_text(form_.next_on));
}

void CallPage::show_asks() {
    strip_->set_days(asks_.days, form_.days);
    strip_words_->setText(strip_->summary());
    show_scores(asks_.symptoms, *symptom_grid_, false, symptoms_);
    show_scores(function_questions(), *function_grid_, true, functions_);
    questions_->set_questions(asks_.dangers, form_.answers);
    show_counts();
    fill_words();
    order_focus();
    tell_open();
}

/// Tab and the keys that answer go down the page in the order of the talk.
void CallPage::order_focus() {
    std::vector<QWidget*> order{strip_};
    order.insert(order.end(), symptoms_.begin(), symptoms_.end());
    order.push_back(lines_["sleep"]);
    for (QWidget* row : questions_->rows()) order.push_back(row);
    order.insert(order.end(), functions_.begin(), functions_.end());
    for (const char* line : {"supports", "meals and movement", "substances", "goals"})
        order.push_back(lines_[line]);
    for (const auto& [name, line] : counts_) order.push_back(line);
    order.insert(order.end(), {own_words_, next_->edit()});
    for (std::size_t at = 1; at < order.size(); ++at) setTabOrder(order[at - 1], order[at]);
}

void CallPage::tell_open() {
    const int open = static_cast<int>(unanswered(form_, asks_).size());
    open_->setText(open == 0   ? tr("All asked.")
                   : open == 1 ? tr("1 question is not asked yet.")
                               : tr("%1 questions are not asked yet.").arg(open));
    open_->set_tone(open == 0 ? Tone::planned : Tone::presses);
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
