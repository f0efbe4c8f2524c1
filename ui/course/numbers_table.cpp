// SPDX-License-Identifier: GPL-3.0-or-later
#include "course/numbers_table.h"

#include "course/day_words.h"

namespace evenfall::ui {

void NumbersTable::set_rows(std::vector<Row> rows) {
    beginResetModel();
    rows_ = std::move(rows);
    endResetModel();
}

int NumbersTable::rowCount(const QModelIndex& parent) const {
    return parent.isValid() ? 0 : static_cast<int>(rows_.size());
}

int NumbersTable::columnCount(const QModelIndex& parent) const {
    return parent.isValid() ? 0 : column_count;
}

QVariant NumbersTable::data(const QModelIndex& index, int role) const {
    if (!index.isValid() ||
        (role != Qt::DisplayRole && role != Qt::ToolTipRole && role != Qt::AccessibleTextRole))
        return {};
    const Row& shown = row(index.row());
    switch (index.column()) {
        case lane_column:
            return shown.lane;
        case from_column:
            return full_day(day_at_place(shown.item.from));
        case what_column:
            return role == Qt::ToolTipRole ? shown.item.because : shown.item.says;
        default:
            return {};
    }
}

QVariant NumbersTable::headerData(int section, Qt::Orientation orientation, int role) const {
    if (orientation != Qt::Horizontal || role != Qt::DisplayRole) return {};
    switch (section) {
        case lane_column:
            return tr("Lane");
        case from_column:
            return tr("From");
        case what_column:
            return tr("What");
        default:
            return {};
    }
}

}  // namespace evenfall::ui
