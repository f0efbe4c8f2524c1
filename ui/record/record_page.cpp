// SPDX-License-Identifier: GPL-3.0-or-later
#include "record/record_page.h"

#include <QHBoxLayout>

#include "record/sections.h"
#include "theme/theme.h"

namespace evenfall::ui {

RecordParts::RecordParts(Workbench& workbench, QWidget* parent)
    : QWidget(parent),
      workbench_(workbench),
      list_(new QListWidget),
      scroll_(new QScrollArea),
      holder_(new QWidget),
      made_(record_sections().size(), nullptr) {
    list_->setFixedWidth(176);
    list_->setFrameShape(QFrame::NoFrame);
    list_->viewport()->setAutoFillBackground(false);
    list_->setAccessibleName(tr("Parts of the record"));
    for (const SectionMaker& each : record_sections()) list_->addItem(each.title);
    auto* inside = new QVBoxLayout(holder_);
    inside->setContentsMargins(0, 0, 0, 0);
    scroll_->setFrameShape(QFrame::NoFrame);
    scroll_->setWidgetResizable(true);
    scroll_->setFocusPolicy(Qt::NoFocus);
    scroll_->setHorizontalScrollBarPolicy(Qt::ScrollBarAsNeeded);
    scroll_->setWidget(holder_);
    auto* row = new QHBoxLayout(this);
    row->setContentsMargins(0, 0, 0, 0);
    row->setSpacing(kSpace3);
    row->addWidget(list_);
    row->addWidget(scroll_, 1);
    connect(list_, &QListWidget::currentRowChanged, this, &RecordParts::open);
}

void RecordParts::open(int row) {
    if (row < 0) return;
    RecordSection*& section = made_[static_cast<std::size_t>(row)];
    if (!section) {
        section = record_sections()[static_cast<std::size_t>(row)].make(workbench_);
        holder_->layout()->addWidget(section);
        if (const PatientRecord* record = workbench_.record()) section->read(*record);
        connect(section, &RecordSection::dirtied, this, [this, row] { mark(row); });
    }
    for (RecordSection* each : made_)
        if (each) each->setVisible(each == section);
    scroll_->ensureVisible(0, 0);
}

/// Unsaved words are marked by a dot and said in words.
void RecordParts::mark(int row) {
    const RecordSection* section = made_[static_cast<std::size_t>(row)];
    const bool dirty = section && section->is_dirty();
    const QString title = record_sections()[static_cast<std::size_t>(row)].title;
    list_->item(row)->setText(dirty ? tr("%1 •").arg(title) : title);
    list_->item(row)->setToolTip(dirty ? tr("Not saved yet") : QString());
    list_->item(row)->setData(Qt::AccessibleTextRole, dirty ? tr("%1, not saved yet").arg(title) : title);
}

RecordSection* RecordParts::section(const QString& id) {
    show_part(id);
    return made_[static_cast<std::size_t>(std::max(0, list_->currentRow()))];
}

void RecordParts::show_part(const QString& id) {
    const auto& all = record_sections();
    for (std::size_t at = 0; at < all.size(); ++at)
        if (all[at].id == id) list_->setCurrentRow(static_cast<int>(at));
}

void RecordParts::read_again() {
    const PatientRecord* record = workbench_.record();
    if (!record) return;
    for (std::size_t at = 0; at < made_.size(); ++at) {
        if (made_[at] && !made_[at]->is_dirty()) made_[at]->read(*record);
        mark(static_cast<int>(at));
    }
}

bool RecordParts::has_unsaved() const {
    return std::ranges::any_of(made_, [](const RecordSection* each) { return each && each->is_dirty(); });
}

RecordPage::RecordPage(Workbench& workbench, QWidget* parent)
    : Page(workbench, parent), row_(new QHBoxLayout(this)) {
    row_->setContentsMargins(0, 0, 0, 0);
}

void RecordPage::swap_parts() {
    if (parts_) {
        part_ = record_sections()[static_cast<std::size_t>(std::max(0, parts_->list()->currentRow()))].id;
        parts_->hide();
        row_->removeWidget(parts_);
        if (parts_->has_unsaved())
            kept_[shown_] = parts_;
        else
            parts_->deleteLater();
    }
    const auto kept = kept_.extract(workbench().patient());
    parts_ = kept ? kept.mapped() : new RecordParts(workbench(), this);
    row_->addWidget(parts_);
    parts_->show();
    setFocusProxy(parts_->list());
    parts_->show_part(part_);
    shown_ = workbench().patient();
}

void RecordPage::refresh() {
    if (workbench().patient().empty()) return;
    if (!parts_ || shown_ != workbench().patient()) swap_parts();
    parts_->read_again();
}

void RecordPage::show_part(const QString& part) {
    part_ = part;
    refresh();
    if (parts_) parts_->show_part(part);
}

}  // namespace evenfall::ui
