// SPDX-License-Identifier: GPL-3.0-or-later
#include "plan/steps_table.h"

#include <QHeaderView>
#include <QKeyEvent>
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
    setVerticalScrollMode(QAbstractItemView::ScrollPerPixel);
    verticalHeader()->hide();
    horizontalHeader()->setHighlightSections(false);
    horizontalHeader()->setDefaultAlignment(Qt::AlignLeft | Qt::AlignVCenter);
    horizontalHeader()->setSectionResizeMode(QHeaderView::Fixed);
    verticalHeader()->setSectionResizeMode(QHeaderView::Fixed);
    anchor_->setAttribute(Qt::WA_TransparentForMouseEvents);
    anchor_->setFocusProxy(this);
    connect(this, &QTableView::clicked, this, [this](const QModelIndex& index) {
        if (index.column() == StepsModel::flags_column) open_why(index.row());
    });
    connect(&model, &QAbstractItemModel::modelReset, this, &QTableView::resizeRowsToContents);
}

void StepsTable::resizeEvent(QResizeEvent* event) {
    QTableView::resizeEvent(event);
    const int room = viewport()->width();
    const int step = 116, daily = 100, why = 72;
    setColumnWidth(StepsModel::step_column, step);
    setColumnWidth(StepsModel::daily_column, daily);
    setColumnWidth(StepsModel::flags_column, why);
    setColumnWidth(StepsModel::pieces_column, std::max(150, room - step - daily - why));
    resizeRowsToContents();
}

void StepsTable::keyPressEvent(QKeyEvent* event) {
    const bool opens =
        event->key() == Qt::Key_Return || event->key() == Qt::Key_Enter || event->key() == Qt::Key_Space;
    if (!opens || !currentIndex().isValid()) return QTableView::keyPressEvent(event);
    open_why(currentIndex().row());
}

void StepsTable::open_why(int row) {
    if (model_.flags(row).empty()) return;
    anchor_->setGeometry(visualRect(model_.index(row, StepsModel::flags_column)));
    anchor_->show();
    auto* popover = new Popover(anchor_);
    auto* column = new QVBoxLayout(popover);
    column->setContentsMargins(kSpace4, kSpace3, kSpace4, kSpace3);
    for (const Flag& flag : model_.flags(row))
        column->addWidget(new FlagRow(workbench_, flag, Weight::presses));
    popover->open();
}

}  // namespace evenfall::ui
