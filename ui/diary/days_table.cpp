// SPDX-License-Identifier: GPL-3.0-or-later
#include "diary/days_table.h"

#include "course/day_words.h"
#include "diary/diary_words.h"

namespace evenfall::ui {

void DaysTable::set_sheet(const Sheet* sheet) {
    beginResetModel();
    sheet_ = sheet;
    endResetModel();
}

Day DaysTable::day(int row) const {
    return sheet_->rows[at(row)].day;
}

int DaysTable::row_of(Day day) const {
    const auto row = sheet_ ? sheet_->row_of(day) : std::nullopt;
    return row ? static_cast<int>(sheet_->rows.size() - 1 - *row) : -1;
}

int DaysTable::rowCount(const QModelIndex& parent) const {
    return parent.isValid() || !sheet_ ? 0 : static_cast<int>(sheet_->rows.size());
}

int DaysTable::columnCount(const QModelIndex& parent) const {
    return parent.isValid() ? 0 : column_count;
}

QVariant DaysTable::data(const QModelIndex& index, int role) const {
    if (!index.isValid() ||
        (role != Qt::DisplayRole && role != Qt::ToolTipRole && role != Qt::AccessibleTextRole))
        return {};
    const std::size_t row = at(index.row());
    switch (index.column()) {
        case day_column:
            return full_day(sheet_->rows[row].day);
        case doses_column:
            return doses_of_day(*sheet_, row, texts_);
        default:
            return symptoms_of_day(*sheet_, row);
    }
}

QVariant DaysTable::headerData(int section, Qt::Orientation orientation, int role) const {
    if (orientation != Qt::Horizontal || role != Qt::DisplayRole) return {};
    switch (section) {
        case day_column:
            return tr("Day");
        case doses_column:
            return tr("Doses");
        default:
            return tr("Symptoms, worst of the day");
    }
}

}  // namespace evenfall::ui
