// SPDX-License-Identifier: GPL-3.0-or-later
#include "clinic/clinic_window.h"

#include <QHBoxLayout>
#include <QKeyEvent>
#include <QPainter>
#include <QVBoxLayout>
#include <algorithm>

#include "clinic/clinic_form.h"
#include "clinic/price_page.h"
#include "clinic/rule_page.h"
#include "controls/form.h"
#include "controls/label.h"
#include "texts/render.h"
#include "theme/theme.h"

namespace evenfall::ui {
namespace {

constexpr int kRuleRole = Qt::UserRole;
constexpr int kPricesRow = 1;  // after the name and the numbers

QString rule_of(const QListWidgetItem* item) {
    return item ? item->data(kRuleRole).toString() : QString();
}

}  // namespace

ClinicWindow::ClinicWindow(Workbench& workbench, QWidget* parent)
    : QWidget(parent, Qt::Window),
      workbench_(workbench),
      search_(make_line(tr("Find a rule"))),
      list_(new QListWidget),
      page_(new QScrollArea) {
    setWindowTitle(tr("Evenfall: the clinic and its rules"));
    resize(1040, 760);
    search_->setPlaceholderText(tr("Find a rule"));
    list_->setFixedWidth(260);
    list_->setFrameShape(QFrame::NoFrame);
    list_->viewport()->setAutoFillBackground(false);
    list_->setAccessibleName(tr("Settings of the clinic"));
    page_->setFrameShape(QFrame::NoFrame);
    page_->setWidgetResizable(true);
    page_->setFocusPolicy(Qt::NoFocus);
    page_->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    auto* left = new QVBoxLayout;
    left->addWidget(new Label(tr("Clinic"), Type::title));
    left->addWidget(search_);
    left->addWidget(list_, 1);
    auto* row = new QHBoxLayout(this);
    row->setContentsMargins(kSpace4, kSpace4, kSpace2, kSpace2);
    row->setSpacing(kSpace4);
    row->addLayout(left);
    row->addWidget(page_, 1);
    list_rules();
    connect(search_, &QLineEdit::textChanged, this, &ClinicWindow::filter);
    connect(list_, &QListWidget::currentRowChanged, this, &ClinicWindow::refresh);
    connect(&workbench_, &Workbench::clinic_changed, this, &ClinicWindow::refresh, Qt::QueuedConnection);
    list_->setCurrentRow(0);
    list_->setFocus();
}

/// The rules with values that a clinic may set, by the room that applies them.
void ClinicWindow::list_rules() {
    new QListWidgetItem(tr("Name, numbers and fills"), list_);
    new QListWidgetItem(tr("Prices"), list_);
    std::map<std::string, std::vector<std::string>> groups;
    for (const auto& [id, rule] : workbench_.desk().rules().all())
        if (rule.can_be_changed && !rule.values.empty()) groups[rule.group].push_back(id);
    for (const auto& [group, ids] : groups) {
        auto* heading = new QListWidgetItem(sentence_case(to_text(group)), list_);
        heading->setFlags(Qt::NoItemFlags);
        heading->setFont(type(Type::note));
        for (const std::string& id : ids) {
            auto* item = new QListWidgetItem(name_of_rule(id), list_);
            item->setData(kRuleRole, to_text(id));
        }
    }
}

void ClinicWindow::filter(const QString& words) {
    const QString wanted = words.simplified();
    for (int row = 0; row < list_->count(); ++row) {
        QListWidgetItem* item = list_->item(row);
        const bool is_heading = !(item->flags() & Qt::ItemIsSelectable);
        item->setHidden(!wanted.isEmpty() &&
                        (is_heading || !item->text().contains(wanted, Qt::CaseInsensitive)));
    }
}

void ClinicWindow::show_rule(const std::string& id) {
    search_->clear();
    for (int row = 0; row < list_->count(); ++row)
        if (rule_of(list_->item(row)) == to_text(id)) list_->setCurrentRow(row);
}

void ClinicWindow::show_prices() {
    search_->clear();
    list_->setCurrentRow(kPricesRow);
}

void ClinicWindow::refresh() {
    const QString id = rule_of(list_->currentItem());
    if (list_->currentRow() == kPricesRow) {
        auto* prices = new PricePage(workbench_, price_drug_);
        connect(prices, &PricePage::drug_chosen, this, [this](const QString& drug) { price_drug_ = drug; });
        page_->setWidget(prices);
    } else if (id.isEmpty())
        page_->setWidget(new ClinicForm(workbench_));
    else
        page_->setWidget(new RulePage(workbench_, to_utf8(id)));
}

void ClinicWindow::keyPressEvent(QKeyEvent* event) {
    if (event->key() == Qt::Key_Escape) close();
    QWidget::keyPressEvent(event);
}

void ClinicWindow::paintEvent(QPaintEvent*) {
    QPainter(this).fillRect(rect(), tone(Tone::surface));
}

}  // namespace evenfall::ui
