// SPDX-License-Identifier: GPL-3.0-or-later
#include <QAccessible>
#include <QHBoxLayout>
#include <QProgressBar>
#include <QPushButton>
#include <QVBoxLayout>

#include "controls/buttons.h"
#include "controls/label.h"
#include "shell/unlock.h"
#include "theme/theme.h"

namespace evenfall::ui {

UnlockStep::UnlockStep(const QString& title, const QString& lead, const QString& commit, QWidget* parent)
    : QWidget(parent),
      form_(new QVBoxLayout),
      commit_(make_button(commit, ButtonKind::primary)),
      outer_(new QVBoxLayout(this)),
      buttons_(new QHBoxLayout),
      busy_(new QProgressBar),
      says_(new Label({}, Type::text, Tone::danger)) {
    setFixedWidth(440);
    outer_->setContentsMargins(0, 0, 0, 0);
    outer_->setSpacing(kSpace3);
    outer_->addWidget(new Label(title, Type::title));
    auto* about = new Label(lead, Type::text, Tone::soft_ink);
    outer_->addWidget(about->wrapped());
    form_->setSpacing(kSpace3);
    outer_->addLayout(form_);
    outer_->addWidget(says_->wrapped());
    busy_->setRange(0, 0);
    busy_->setTextVisible(false);
    busy_->setFixedHeight(12);
    busy_->hide();
    outer_->addWidget(busy_);
    buttons_->addWidget(commit_);
    buttons_->addStretch();
    outer_->addLayout(buttons_);
    says_->hide();
    connect(commit_, &QPushButton::clicked, this, &UnlockStep::committed);
}

QPushButton* UnlockStep::add_other(const QString& text) {
    auto* other = make_button(text, ButtonKind::quiet);
    buttons_->addWidget(other);
    return other;
}

void UnlockStep::set_busy(const QString& what) {
    if (!what.isEmpty()) {
        commit_->setProperty("words", commit_->text());
        commit_->setText(what);
        say({});
    } else if (commit_->property("words").isValid()) {
        commit_->setText(commit_->property("words").toString());
    }
    busy_->setAccessibleName(what);
    busy_->setVisible(!what.isEmpty());
    commit_->setEnabled(what.isEmpty());
}

void UnlockStep::say(const QString& sentence, Tone colour) {
    says_->set_tone(colour);
    says_->setText(sentence);
    says_->setVisible(!sentence.isEmpty());
    QAccessibleEvent told(says_, QAccessible::Alert);
    QAccessible::updateAccessibility(&told);
}

QString UnlockStep::said() const {
    return says_->text();
}

}  // namespace evenfall::ui
