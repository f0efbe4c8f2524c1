// SPDX-License-Identifier: GPL-3.0-or-later
#include "plan/steps_table.h"

#include <QHeaderView>
#include <QKeyEvent>
#include <QMouseEvent>
#include <QVBoxLayout>

#include "controls/why.h"
#include "shell/workbench.h"
#include "theme/theme.h"

namespace evenfall::ui {

StepsTable::StepsTable(const Workbench& workbench, StepsModel& model, QWidget* parent)
    : QTableView(parent), workbench_(workbench), model_(model), anchor_(new QWidget(viewport())) {
    setModel(&model);
    setItemDelegate(new StepsDelegate(model, this));
    setAccessibleName(tr("Steps of the plan"));
    setSelectionBehavior(QAbstractItemView::SelectRows);
    setSelectionMode(QAbstractItemView::SingleSelection);
    setEditTriggers(QAbstractItemView::NoEditTriggers);
    setTabKeyNavigation(false);
    setShowGrid(false);
    setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    setHorizontalScrollMode(QAbstractItemView::ScrollPerPixel);
    setVerticalScrollMode(QAbstractItemView::ScrollPerPixel);
    verticalHeader()->hide();
    horizontalHeader()->setHighlightSections(false);
    horizontalHeader()->setDefaultAlignment(Qt::AlignLeft | Qt::AlignVCenter);
    horizontalHeader()->setSectionResizeMode(QHeaderView::Fixed);
    verticalHeader()->setSectionResizeMode(QHeaderView::Fixed);
    anchor_->setAttribute(Qt::WA_TransparentForMouseEvents);
    anchor_->setFocusProxy(this);
    connect(this, &QTableView::clicked, this, [this](const QModelIndex& index) {
        const int why =
            isColumnHidden(StepsModel::flags_column) ? StepsModel::pieces_column : StepsModel::flags_column;
        if (index.column() == why) open_why(index.row());
    });
    connect(&model, &QAbstractItemModel::modelReset, this, &QTableView::resizeRowsToContents);
}

void StepsTable::resizeEvent(QResizeEvent* event) {
    QTableView::resizeEvent(event);
    constexpr int kStep = 122, kDaily = 108, kRules = 72;
    constexpr int kPieces = 210;  // so much do the pieces need beside their clock and their words
    const int room = viewport()->width();
    const bool rules = room >= kStep + kDaily + kRules + kPieces, daily = room >= kStep + kDaily + kPieces;
    model_.set_apart({daily, rules});
    setColumnHidden(StepsModel::daily_column, !daily);
    setColumnHidden(StepsModel::flags_column, !rules);
    setColumnWidth(StepsModel::step_column, kStep);
    int taken = kStep;
    if (daily) {
        setColumnWidth(StepsModel::daily_column, kDaily);
        taken += kDaily;
    }
    if (rules) {
        setColumnWidth(StepsModel::flags_column, kRules);
        taken += kRules;
    }
    setColumnWidth(StepsModel::pieces_column, std::max(0, room - taken));
    resizeRowsToContents();
}

void StepsTable::go_to_now() {
    if (model_.rowCount() == 0) return;
    const auto& standing = model_.standing();
    const int row = std::min(standing.in_force.value_or(standing.signed_steps), model_.rowCount() - 1);
    setCurrentIndex(model_.index(row, StepsModel::step_column));
    scrollTo(model_.index(row, StepsModel::step_column), QAbstractItemView::PositionAtTop);
}

void StepsTable::mouseDoubleClickEvent(QMouseEvent* event) {
    const QModelIndex index = indexAt(event->position().toPoint());
    if (index.isValid()) emit edit_wanted(index.row());
}

void StepsTable::keyPressEvent(QKeyEvent* event) {
    constexpr int kWeek = 7;
    if (currentIndex().isValid()) {
        const int row = currentIndex().row();
        const int days = event->modifiers() & Qt::ControlModifier ? kWeek : 1;
        if (event->key() == Qt::Key_F2) return emit edit_wanted(row);
        if (event->key() == Qt::Key_Minus) return emit move_wanted(row, -days);
        if (event->key() == Qt::Key_Plus || event->key() == Qt::Key_Equal) return emit move_wanted(row, days);
    }
    const bool opens =
        event->key() == Qt::Key_Return || event->key() == Qt::Key_Enter || event->key() == Qt::Key_Space;
    if (!opens || !currentIndex().isValid()) return QTableView::keyPressEvent(event);
    open_why(currentIndex().row());
}

void StepsTable::open_why(int row) {
    if (model_.flags(row).empty()) return;
    const bool narrow = isColumnHidden(StepsModel::flags_column);
    anchor_->setGeometry(
        visualRect(model_.index(row, narrow ? StepsModel::pieces_column : StepsModel::flags_column)));
    anchor_->show();
    auto* popover = new Popover(anchor_);
    auto* column = new QVBoxLayout(popover);
    column->setContentsMargins(kSpace4, kSpace3, kSpace4, kSpace3);
    for (const Flag& flag : model_.flags(row))
        column->addWidget(new FlagRow(workbench_, flag, Weight::presses));
    popover->open();
}

}  // namespace evenfall::ui
