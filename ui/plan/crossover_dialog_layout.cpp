// SPDX-License-Identifier: GPL-3.0-or-later
#include <QComboBox>
#include <QPushButton>
#include <QScrollArea>
#include <QVBoxLayout>

#include "controls/buttons.h"
#include "controls/card.h"
#include "controls/form.h"
#include "controls/label.h"
#include "controls/typed_field.h"
#include "plan/crossover_dialog.h"
#include "plan/plan_preview.h"
#include "plan/product_list.h"
#include "shell/workbench.h"
#include "texts/render.h"

namespace evenfall::ui {
namespace {

constexpr int kFieldsWidth = 280;
constexpr int kLeastCards = 260;  // a way with its figures, its button and its first stage

}  // namespace

QWidget* CrossoverDialog::make_fields() {
    auto* inside = new QWidget;
    auto* column = new QVBoxLayout(inside);
    column->setContentsMargins(2, 2, kSpace2, 0);
    column->setSpacing(kSpace3);
    for (const std::string& agent : agents_of(base_.now)) from_->addItem(to_text(agent));
    for (const auto& [name, drug] : workbench_.desk().formulary().drugs)
        if (drug.equivalence) to_->addItem(to_text(name));
    // The longest-acting agent with the finest products is the usual one, unless it is what is taken.
    const bool takes_diazepam = from_->count() > 0 && from_->itemText(0) == QLatin1String("diazepam");
    to_->setCurrentText(takes_diazepam ? QStringLiteral("clonazepam") : QStringLiteral("diazepam"));
    add_field(*column, tr("From"), from_);
    add_field(*column, tr("To"), to_);
    column->addWidget(suits_->wrapped());
    add_field(*column, tr("Its products at hand, finest piece"), products_);
    start_->set_required(true);
    days_->set_required(true);
    start_->set_day(base_.today);
    days_->set_number(workbench_.desk().rules().whole("crossover-stage", "days"));
    add_field(*column, tr("First stage on"), start_);
    add_field(*column, tr("Days for each stage"), days_);
    add_field(*column, tr("Replaced first"), first_);
    column->addStretch();
    for (QComboBox* box : {from_, to_, first_}) {
        box->setMinimumHeight(kTarget);
        connect(box, &QComboBox::currentIndexChanged, this, [this, box] {
            if (box == from_) from_changed();
            if (box == to_) to_changed();
            soon_.start();
        });
    }
    connect(products_, &ProductList::edited, &soon_, qOverload<>(&QTimer::start));
    for (TypedField* field : {static_cast<TypedField*>(start_), static_cast<TypedField*>(days_)})
        connect(field, &TypedField::edited, &soon_, qOverload<>(&QTimer::start));
    auto* scroll = new QScrollArea;
    scroll->setWidget(inside);
    scroll->setWidgetResizable(true);
    scroll->setFrameShape(QFrame::NoFrame);
    scroll->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    scroll->setFocusPolicy(Qt::NoFocus);
    scroll->setFixedWidth(kFieldsWidth);
    return scroll;
}

QWidget* CrossoverDialog::make_ways() {
    auto* right = new QWidget;
    auto* column = new QVBoxLayout(right);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(kSpace2);
    against_->set_meaning(Tone::danger_fill, Tone::danger);
    care_->set_meaning(Tone::presses_fill, Tone::presses);
    column->addWidget(state_->wrapped());
    column->addWidget(against_);
    column->addWidget(all_the_same_, 0, Qt::AlignLeft);
    column->addWidget(care_);
    card_row_->setContentsMargins(0, 0, 0, 0);
    card_row_->setSpacing(kSpace3);
    auto* scroll = new QScrollArea;
    scroll->setWidget(cards_);
    scroll->setWidgetResizable(true);
    scroll->setFrameShape(QFrame::NoFrame);
    scroll->setFocusPolicy(Qt::NoFocus);
    scroll->setMinimumHeight(kLeastCards);
    column->addWidget(scroll, 1);
    column->addWidget(preview_);
    connect(all_the_same_, &QPushButton::clicked, this, [this] {
        heard_ = true;
        show_cards();
        if (!choices_.empty()) choices_.front().first->setFocus();
    });
    // On a low screen what speaks against crossing, the ways and the chart scroll: the foot stays in sight.
    auto* page = new QScrollArea;
    page->setWidget(right);
    page->setWidgetResizable(true);
    page->setFrameShape(QFrame::NoFrame);
    page->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    page->setFocusPolicy(Qt::NoFocus);
    return page;
}

}  // namespace evenfall::ui
