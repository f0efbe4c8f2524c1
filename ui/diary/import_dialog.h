// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QAbstractTableModel>

#include "controls/messages.h"
#include "exchange/diary_import.h"
#include "rules/texts.h"

class QTableView;

namespace evenfall::ui {

/// The rows of a diary file, and what would become of each.
class ImportModel : public QAbstractTableModel {
    Q_OBJECT

  public:
    enum Column { line_column, standing_column, entry_column, place_column, reason_column, column_count };

    ImportModel(DiaryImport import, const Texts& texts, QObject* parent = nullptr);
    const DiaryImport& import() const { return import_; }
    /// The first faulty row, or -1.
    int first_faulty() const;

    int rowCount(const QModelIndex& parent = {}) const override;
    int columnCount(const QModelIndex& parent = {}) const override;
    QVariant data(const QModelIndex& index, int role) const override;
    QVariant headerData(int section, Qt::Orientation orientation, int role) const override;

  private:
    QString cell(const ImportRow& row, int column) const;
    DiaryImport import_;
    const Texts& texts_;
};

/// Shows what a file would do before anything is written. It can be accepted only where nothing is faulty.
class ImportDialog : public QuietDialog {
    Q_OBJECT

  public:
    ImportDialog(DiaryImport import, const QString& file, const Texts& texts, QWidget* parent = nullptr);
    const DiaryImport& import() const { return model_.import(); }
    QPushButton* commit() const { return commit_; }
    QTableView* table() const { return table_; }

  private:
    ImportModel model_;
    QTableView* table_;
    QPushButton* commit_;
};

}  // namespace evenfall::ui
