// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QAbstractTableModel>
#include <vector>

#include "course/scene.h"

namespace evenfall::ui {

/// The lanes' numbers as plain rows, for reading and for assistive technology: lane, from, what.
class NumbersTable : public QAbstractTableModel {
    Q_OBJECT

  public:
    enum Column { lane_column, from_column, what_column, column_count };
    struct Row {
        QString lane;
        LaneItem item;
    };

    using QAbstractTableModel::QAbstractTableModel;
    void set_rows(std::vector<Row> rows);
    const Row& row(int index) const { return rows_[static_cast<std::size_t>(index)]; }

    int rowCount(const QModelIndex& parent = {}) const override;
    int columnCount(const QModelIndex& parent = {}) const override;
    QVariant data(const QModelIndex& index, int role) const override;
    QVariant headerData(int section, Qt::Orientation orientation, int role) const override;

  private:
    std::vector<Row> rows_;
};

}  // namespace evenfall::ui
