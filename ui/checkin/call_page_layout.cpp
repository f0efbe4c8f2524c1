// SPDX-License-Identifier: GPL-3.0-or-later
#include <QGridLayout>
#include <QHBoxLayout>
#include <QLineEdit>
#include <QPlainTextEdit>
#include <QPushButton>

#include "checkin/call_page.h"
#include "checkin/call_parts.h"
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
    nobody->setObjectName(QStringLiteral("nobody"));
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
        if (text.isEmpty())
            form_.answers.erase(question);
        else
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
    planned->setObjectName(QStringLiteral("planned"));
    connect(planned, &QPushButton::clicked, this, [this] { strip_->all_as_planned(); });
    auto* diary = make_button(tr("Write a day down"));
    diary->setObjectName(QStringLiteral("diary"));
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

    Card* life =
        add_part(*talk_, tr("How life goes"),
                 tr("Work, home, company: 0 no trouble, 10 not possible. Confidence: 0 none, 10 sure."));
    life->body()->addLayout(function_grid_);
    add_line(*life->body(), "supports", tr("Who or what helped"));
    add_line(*life->body(), "meals and movement", tr("Meals and movement"));
    add_line(*life->body(), "substances", tr("Alcohol or other substances"));
    add_line(*life->body(), "goals", tr("What came of the goals"));

    Card* home = add_part(*talk_, tr("Left at home"),
                          tr("Of each strength: tablets or capsules with what is left of cut ones (21.5), "
                             "millilitres of a liquid."));
    home->body()->addLayout(count_grid_);
    home->setObjectName(QStringLiteral("counts"));

    Card* words = add_part(*talk_, tr("In their own words"));
    own_words_->setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
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
    auto* when = new Label(tr("Next contact"), Type::strong);
    when->setMinimumHeight(kTarget);  // beside the field, also where that has a fault under it
    row->addWidget(when, 0, Qt::AlignTop);
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

}  // namespace evenfall::ui
