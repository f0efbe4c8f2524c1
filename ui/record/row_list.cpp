// SPDX-License-Identifier: GPL-3.0-or-later
#include "record/row_list.h"

#include <QHBoxLayout>
#include <QPushButton>
#include <QToolButton>
#include <QVBoxLayout>

#include "controls/buttons.h"
#include "theme/icons.h"
#include "theme/theme.h"

namespace evenfall::ui {

RowList::RowList(const QString& noun, std::function<QWidget*()> make, QWidget* parent)
    : QWidget(parent),
      noun_(noun),
      make_(std::move(make)),
      column_(new QVBoxLayout),
      add_(make_button(tr("Add a %1").arg(noun))) {
    auto* outer = new QVBoxLayout(this);
    outer->setContentsMargins(0, 0, 0, 0);
    outer->setSpacing(kSpace2);
    column_->setSpacing(kSpace2);
    outer->addLayout(column_);
    add_->setIcon(icon(QStringLiteral("plus")));
    outer->addWidget(add_, 0, Qt::AlignLeft);
    connect(add_, &QPushButton::clicked, this, [this] {
        QWidget* row = add();
        emit changed();
        if (row->focusProxy()) row->setFocus();
    });
}

QWidget* RowList::add() {
    QWidget* row = make_();
    auto* holder = new QWidget;
    auto* line = new QHBoxLayout(holder);
    line->setContentsMargins(0, 0, 0, 0);
    line->setSpacing(kSpace2);
    line->addWidget(row, 1);
    auto* out =
        make_icon_button(QStringLiteral("close"), tr("Take out %1 %2").arg(noun_).arg(rows_.size() + 1));
    line->addWidget(out, 0, Qt::AlignTop);
    connect(out, &QToolButton::clicked, this, [this, row, holder] { remove(row, holder); });
    column_->addWidget(holder);
    holder->show();
    rows_.push_back(row);
    emit added(row);
    return row;
}

void RowList::remove(QWidget* row, QWidget* holder) {
    std::erase(rows_, row);
    holder->hide();
    holder->deleteLater();
    add_->setFocus();
    emit changed();
}

void RowList::clear() {
    rows_.clear();
    while (QLayoutItem* item = column_->takeAt(0)) {
        item->widget()->hide();
        item->widget()->deleteLater();
        delete item;
    }
}

}  // namespace evenfall::ui
