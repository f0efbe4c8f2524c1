// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QWidget>
#include <functional>
#include <vector>

class QPushButton;
class QVBoxLayout;

namespace evenfall::ui {

/// Rows of fields that can be added and taken out.
class RowList : public QWidget {
    Q_OBJECT
  public:
    /// `make` makes the fields of a row; `noun` names one ("dose") for the buttons.
    RowList(const QString& noun, std::function<QWidget*()> make, QWidget* parent = nullptr);
    QWidget* add();
    void clear();
    const std::vector<QWidget*>& rows() const { return rows_; }
    template <class Row>
    Row* row(std::size_t at) const {
        return at < rows_.size() ? static_cast<Row*>(rows_[at]) : nullptr;
    }

  signals:
    void changed();
    void added(QWidget* row);

  private:
    void remove(QWidget* row, QWidget* holder);
    QString noun_;
    std::function<QWidget*()> make_;
    QVBoxLayout* column_;
    QPushButton* add_;
    std::vector<QWidget*> rows_;
};

}  // namespace evenfall::ui
