// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QAbstractTableModel>

#include "diary/sheet.h"
#include "rules/texts.h"

namespace evenfall::ui {

/// The diary as plain rows, the newest day first, for reading and for assistive technology.
class DaysTable : public QAbstractTableModel {
    Q_OBJECT

  public:
    enum Column { day_column, doses_column, symptoms_column, column_count };

    DaysTable(const Texts& texts, QObject* parent = nullptr) : QAbstractTableModel(parent), texts_(texts) {}
    /// `sheet` is kept by the caller; null shows nothing.
    void set_sheet(const Sheet* sheet);
    Day day(int row) const;
    int row_of(Day day) const;

    int rowCount(const QModelIndex& parent = {}) const override;
    int columnCount(const QModelIndex& parent = {}) const override;
    QVariant data(const QModelIndex& index, int role) const override;
    QVariant headerData(int section, Qt::Orientation orientation, int role) const override;

  private:
    std::size_t at(int row) const { return sheet_->rows.size() - 1 - static_cast<std::size_t>(row); }
    const Sheet* sheet_ = nullptr;
    const Texts& texts_;
};

}  // namespace evenfall::ui
