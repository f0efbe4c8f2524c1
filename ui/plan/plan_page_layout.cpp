// SPDX-License-Identifier: GPL-3.0-or-later
#include <QEvent>
#include <QHBoxLayout>
#include <QPushButton>
#include <QScrollArea>
#include <QStackedWidget>

#include "controls/buttons.h"
#include "controls/card.h"
#include "controls/label.h"
#include "plan/plan_page.h"
#include "plan/plan_preview.h"
#include "plan/steps_table.h"
#include "theme/theme.h"

// How the page is laid out.

namespace evenfall::ui {

namespace {
constexpr int kQuietMilliseconds = 120;  // after the last keystroke, before a computation starts
constexpr int kPanelWidth = 296;
constexpr int kLeastTable = 190;  // the heads and a step with two dose times
}  // namespace

PlanPage::PlanPage(Workbench& workbench, QWidget* parent)
    : Page(workbench, parent),
      stack_(new QStackedWidget),
      empty_(new EmptyState({}, {})),
      panel_(new RequestPanel(workbench.texts())),
      model_([&workbench](const Flag& flag) { return workbench.sentence(flag); }),
      table_(new StepsTable(workbench, model_)),
      summary_(new Label({}, Type::strong)),
      state_(new Label({}, Type::note, Tone::soft_ink)),
      because_(new Label({}, Type::note, Tone::presses)),
      flags_(nullptr),
      flags_card_(new Card),
      acts_(new PlanActs),
      above_(new QScrollArea),
      preview_(new PlanPreview),
      strip_(new VariantsStrip),
      sign_(make_button({}, ButtonKind::primary)),
      jobs_([this](const PlanMade& made) { show_made(made); }) {
    ask_to_sign = [this](const SignRequest& request) {
        return SignDialog::ask(this->workbench(), request, window());
    };
    auto* outer = new QVBoxLayout(this);
    outer->setContentsMargins(kSpace4, kSpace3, kSpace4, kSpace3);
    outer->addWidget(stack_);
    setFocusProxy(table_);
    stack_->addWidget(empty_);
    auto* begin = make_button(tr("Record what is taken"), ButtonKind::primary);
    empty_->add_action(begin);
    connect(begin, &QPushButton::clicked, this,
            [this] { emit this->workbench().page_wanted(QStringLiteral("record")); });
    auto* builder = new QWidget;
    auto* row = new QHBoxLayout(builder);
    row->setContentsMargins(0, 0, 0, 0);
    row->setSpacing(kSpace4);
    row->addWidget(make_left());
    row->addWidget(make_right(), 1);
    stack_->addWidget(builder);
    soon_.setSingleShot(true);
    soon_.setInterval(kQuietMilliseconds);
    connect(&soon_, &QTimer::timeout, this, &PlanPage::compute);
    connect(panel_, &RequestPanel::edited, this, &PlanPage::edited);
    connect(sign_, &QPushButton::clicked, this, &PlanPage::sign);
    connect(acts_, &PlanActs::wanted, this, &PlanPage::act);
    connect(strip_, &VariantsStrip::use_wanted, this, &PlanPage::use_variant);
    connect(strip_, &VariantsStrip::drop_wanted, this, [this](int kept) {
        variants_.erase(variants_.begin() + kept);
        show_standing();
    });
    connect(table_, &StepsTable::edit_wanted, this, &PlanPage::edit_step);
    connect(table_, &StepsTable::move_wanted, this, &PlanPage::move_step);
    connect(preview_, &PlanPreview::move_wanted, this, &PlanPage::move_step);
    connect(preview_, &PlanPreview::chosen, this, [this](int step) {
        if (step < model_.rowCount()) table_->setCurrentIndex(model_.index(step, 0));
    });
    connect(table_->selectionModel(), &QItemSelectionModel::currentRowChanged, preview_,
            [this](const QModelIndex& now) { preview_->choose(now.row()); });
}

QWidget* PlanPage::make_left() {
    auto* left = new QWidget;
    auto* column = new QVBoxLayout(left);
    column->setContentsMargins(0, 0, 0, 0);
    auto* scroll = new QScrollArea;
    scroll->setWidget(panel_);
    scroll->setWidgetResizable(true);
    scroll->setFrameShape(QFrame::NoFrame);
    scroll->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    scroll->setFocusPolicy(Qt::NoFocus);
    column->addWidget(scroll, 1);
    auto* row = new QHBoxLayout;
    QAction* undo = undo_.createUndoAction(this, tr("Undo"));
    QAction* redo = undo_.createRedoAction(this, tr("Redo"));
    undo->setShortcut(QKeySequence::Undo);
    redo->setShortcut(QKeySequence::Redo);
    for (QAction* action : {undo, redo}) {
        action->setShortcutContext(Qt::WidgetWithChildrenShortcut);
        addAction(action);
        auto* button = make_button(action == undo ? tr("Undo") : tr("Redo"), ButtonKind::quiet);
        button->setEnabled(false);
        connect(button, &QPushButton::clicked, action, &QAction::trigger);
        connect(action, &QAction::enabledChanged, button, &QWidget::setEnabled);
        row->addWidget(button);
    }
    row->addStretch();
    column->insertLayout(0, row);
    left->setFixedWidth(kPanelWidth);
    return left;
}

QWidget* PlanPage::make_head() {
    auto* head = new QWidget;
    auto* row = new QHBoxLayout(head);
    row->setContentsMargins(0, 0, 0, 0);
    auto* words = new QVBoxLayout;
    words->setSpacing(2);
    words->addWidget(summary_->wrapped());
    words->addWidget(state_->wrapped());
    words->addWidget(because_->wrapped());
    because_->setAccessibleDescription(tr("Adjusted; written with the signature"));
    because_->hide();
    summary_->setAccessibleDescription(tr("The plan in one line"));
    row->addLayout(words, 1);
    return head;
}

QWidget* PlanPage::make_right() {
    auto* right = new QWidget;
    auto* column = new QVBoxLayout(right);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(kSpace2);
    column->addWidget(make_head());
    acts_->begin_with(sign_);
    column->addWidget(acts_);
    flags_card_->set_meaning(Tone::presses_fill, Tone::presses);
    flags_ = flags_card_->body();
    // What stands above the steps scrolls where it is long: the steps always have their room.
    auto* inside = new QWidget;
    auto* above = new QVBoxLayout(inside);
    above->setContentsMargins(0, 0, 0, 0);
    above->setSpacing(kSpace2);
    for (QWidget* part :
         {static_cast<QWidget*>(preview_), static_cast<QWidget*>(flags_card_), static_cast<QWidget*>(strip_)})
        above->addWidget(part);
    above_->setWidget(inside);
    above_->setWidgetResizable(true);
    above_->setFrameShape(QFrame::NoFrame);
    above_->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    above_->setFocusPolicy(Qt::NoFocus);
    above_->setSizePolicy(QSizePolicy::Preferred, QSizePolicy::Fixed);
    inside->installEventFilter(this);
    column->addWidget(above_);
    table_->setMinimumHeight(kLeastTable);
    column->addWidget(table_, 1);
    flags_card_->hide();
    return right;
}

/// What stands above the steps takes what it needs, up to a little less than half of the page.
void PlanPage::fit_above() {
    constexpr double kMostOfPage = 0.36;
    QWidget* inside = above_->widget();
    const int width = above_->viewport()->width();
    const int wanted = inside->layout()->hasHeightForWidth() ? inside->layout()->totalHeightForWidth(width)
                                                             : inside->layout()->totalSizeHint().height();
    above_->setFixedHeight(std::min(wanted, static_cast<int>(height() * kMostOfPage)));
}

bool PlanPage::eventFilter(QObject* watched, QEvent* event) {
    if (event->type() == QEvent::LayoutRequest) fit_above();
    return Page::eventFilter(watched, event);
}

void PlanPage::resizeEvent(QResizeEvent* event) {
    Page::resizeEvent(event);
    fit_above();
}

}  // namespace evenfall::ui
