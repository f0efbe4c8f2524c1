// SPDX-License-Identifier: GPL-3.0-or-later
#include "reference/reference_window.h"

#include <QHBoxLayout>
#include <QKeyEvent>
#include <QPainter>
#include <QVBoxLayout>

#include "controls/label.h"
#include "reference/drug_page.h"
#include "texts/render.h"
#include "theme/theme.h"

namespace evenfall::ui {

ReferenceWindow::ReferenceWindow(Workbench& workbench, QWidget* parent)
    : QWidget(parent, Qt::Window), workbench_(workbench), drugs_(new QListWidget), page_(new QScrollArea) {
    setWindowTitle(tr("Evenfall: reference of agents"));
    resize(1040, 760);
    drugs_->setFixedWidth(220);
    drugs_->setFrameShape(QFrame::NoFrame);
    drugs_->viewport()->setAutoFillBackground(false);
    drugs_->setAccessibleName(tr("Agents"));
    for (const auto& [name, drug] : workbench_.desk().formulary().drugs) {
        auto* item = new QListWidgetItem(sentence_case(to_text(name)), drugs_);
        item->setData(Qt::UserRole, to_text(name));
    }
    page_->setFrameShape(QFrame::NoFrame);
    page_->setWidgetResizable(true);
    page_->setFocusPolicy(Qt::NoFocus);
    page_->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    auto* left = new QVBoxLayout;
    left->addWidget(new Label(tr("Agents"), Type::title));
    left->addWidget(drugs_, 1);
    auto* row = new QHBoxLayout(this);
    row->setContentsMargins(kSpace4, kSpace4, kSpace2, kSpace2);
    row->setSpacing(kSpace4);
    row->addLayout(left);
    row->addWidget(page_, 1);
    connect(drugs_, &QListWidget::currentRowChanged, this, &ReferenceWindow::refresh);
    connect(&workbench_, &Workbench::clinic_changed, this, &ReferenceWindow::refresh);
    const auto* record = workbench_.record();
    const std::string own = record ? workbench_.course().drug : std::string();
    drugs_->setCurrentRow(0);
    if (!own.empty()) show_drug(own);
}

void ReferenceWindow::show_drug(const std::string& name) {
    for (int row = 0; row < drugs_->count(); ++row)
        if (drugs_->item(row)->data(Qt::UserRole).toString() == to_text(name)) drugs_->setCurrentRow(row);
}

std::string ReferenceWindow::chosen() const {
    const auto* item = drugs_->currentItem();
    return item ? to_utf8(item->data(Qt::UserRole).toString()) : std::string();
}

void ReferenceWindow::refresh() {
    if (const Drug* drug = workbench_.desk().formulary().find(chosen()))
        page_->setWidget(new DrugPage(workbench_, *drug));
}

void ReferenceWindow::keyPressEvent(QKeyEvent* event) {
    if (event->key() == Qt::Key_Escape) close();
    QWidget::keyPressEvent(event);
}

void ReferenceWindow::paintEvent(QPaintEvent*) {
    QPainter(this).fillRect(rect(), tone(Tone::surface));
}

}  // namespace evenfall::ui
