// SPDX-License-Identifier: GPL-3.0-or-later
#include "controls/card.h"

#include <QPainter>
#include <QPainterPath>

#include "controls/label.h"
#include "theme/paint_parts.h"
#include "theme/theme.h"

namespace evenfall::ui {

Card::Card(QWidget* parent) : QFrame(parent), body_(new QVBoxLayout(this)) {
    body_->setContentsMargins(kSpace4, kSpace3, kSpace4, kSpace3);
    body_->setSpacing(kSpace2);
}

void Card::set_meaning(Tone fill, Tone bar) {
    fill_ = fill;
    bar_ = bar;
    has_bar_ = true;
    update();
}

void Card::paintEvent(QPaintEvent*) {
    QPainter painter(this);
    const bool lined = !has_bar_ || theme_in_force() == ThemeKind::contrast;
    draw_box(painter, rect(), tone(fill_), tone(Tone::line), lined ? structure_line() : 0, kRadius);
    if (!has_bar_) return;
    painter.setRenderHint(QPainter::Antialiasing);
    QPainterPath whole;
    whole.addRoundedRect(QRectF(rect()), kRadius, kRadius);
    painter.setClipPath(whole);
    painter.fillRect(QRectF(0, 0, 4, height()), tone(bar_));
}

SectionHeader::SectionHeader(const QString& title, const QString& note, QWidget* parent)
    : QWidget(parent), row_(new QHBoxLayout(this)) {
    auto* column = new QVBoxLayout;
    column->setSpacing(2);
    auto* note_label = new Label(note, Type::text, Tone::soft_ink);
    note_ = note_label->wrapped();
    column->addWidget(new Label(title, Type::heading));
    column->addWidget(note_);
    if (note.isEmpty()) note_->hide();  // showing it before it has a parent would open a window
    row_->setContentsMargins(0, 0, 0, kSpace1);
    row_->setSpacing(kSpace2);
    row_->addLayout(column, 1);
}

void SectionHeader::add_action(QWidget* control) {
    row_->addWidget(control, 0, Qt::AlignTop);
}

void SectionHeader::set_note(const QString& note) {
    note_->setText(note);
    note_->setVisible(!note.isEmpty());
}

EmptyState::EmptyState(const QString& what, const QString& how, QWidget* parent)
    : QWidget(parent), column_(new QVBoxLayout(this)) {
    auto* what_label = new Label(what, Type::heading);
    auto* how_label = new Label(how, Type::text, Tone::soft_ink);
    what_ = what_label->wrapped();
    how_ = how_label->wrapped();
    column_->setContentsMargins(kSpace6, kSpace6, kSpace6, kSpace6);
    column_->setSpacing(kSpace2);
    column_->addStretch(2);
    // The labels share one column of some width: centred by themselves they would keep the height of a line.
    auto* words = new QWidget;
    words->setMaximumWidth(460);
    words->setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Preferred);
    auto* lines = new QVBoxLayout(words);
    lines->setContentsMargins(0, 0, 0, 0);
    for (QLabel* label : {what_, how_}) {
        label->setAlignment(Qt::AlignHCenter);
        lines->addWidget(label);
    }
    auto* centred = new QHBoxLayout;
    centred->addStretch(1);
    centred->addWidget(words, 100);
    centred->addStretch(1);
    column_->addLayout(centred);
    column_->addStretch(3);
}

void EmptyState::add_action(QWidget* control) {
    column_->insertSpacing(column_->count() - 1, kSpace2);
    column_->insertWidget(column_->count() - 1, control, 0, Qt::AlignHCenter);
}

void EmptyState::set_texts(const QString& what, const QString& how) {
    what_->setText(what);
    how_->setText(how);
}

}  // namespace evenfall::ui
