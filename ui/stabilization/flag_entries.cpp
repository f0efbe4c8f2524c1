// SPDX-License-Identifier: GPL-3.0-or-later
#include "stabilization/flag_entries.h"

#include <QHBoxLayout>
#include <QListWidget>
#include <QPushButton>
#include <QVBoxLayout>

#include "controls/buttons.h"
#include "diary/days.h"
#include "shell/workbench.h"
#include "stabilization/check_words.h"
#include "texts/render.h"
#include "theme/theme.h"

namespace evenfall::ui {
namespace {
constexpr int kListHeight = 132;
}

FlagEntries::FlagEntries(const Workbench& workbench, const Flag& flag, Weight weight, bool opened,
                         QWidget* parent)
    : QWidget(parent) {
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(0);
    auto* row = new QHBoxLayout;
    row->setSpacing(kSpace1);
    row->addWidget(new FlagRow(workbench, flag, weight), 1);
    column->addLayout(row);
    if (flag.entries.empty()) return;
    const int count = static_cast<int>(flag.entries.size());
    const QString show = count == 1 ? tr("Show the entry") : tr("Show the %1 entries").arg(count);
    auto* toggle = make_button(show, ButtonKind::quiet);
    toggle->setCheckable(true);
    // Columns of buttons line up whatever the count.
    toggle->setMinimumWidth(toggle->fontMetrics().horizontalAdvance(tr("Show the %1 entries").arg(8888)) +
                            2 * kSpace4);
    toggle->setAccessibleName(tr("%1 of: %2").arg(show, workbench.sentence(flag)));
    list_ = new QListWidget;
    list_->setAccessibleName(tr("Entries; Enter shows the day in the diary"));
    list_->setFixedHeight(std::min(kListHeight, 8 + count * kTarget));
    list_->setUniformItemSizes(true);
    const ClockTime begins = diary_day_begins(workbench.desk().rules());
    for (const std::string& entry : flag.entries) {
        auto* item = new QListWidgetItem(entry_in_words(entry), list_);
        if (const auto day = day_in(entry, begins)) item->setData(Qt::UserRole, to_text(print_day(*day)));
    }
    row->insertWidget(1, toggle, 0, Qt::AlignTop);
    column->addWidget(list_);
    list_->setVisible(false);
    connect(toggle, &QPushButton::toggled, this, [this, toggle, show](bool shown) {
        list_->setVisible(shown);
        toggle->setText(shown ? tr("Hide the entries") : show);
    });
    toggle->setChecked(opened);
    const auto go = [this](const QListWidgetItem* item) {
        const auto day = parse_day(to_utf8(item->data(Qt::UserRole).toString()), {});
        if (day) emit day_wanted(*day);
    };
    connect(list_, &QListWidget::itemActivated, this, go);
    connect(list_, &QListWidget::itemClicked, this, go);
}

}  // namespace evenfall::ui
