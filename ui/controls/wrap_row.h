// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QLayout>
#include <memory>
#include <vector>

namespace evenfall::ui {

/// A row of controls that goes on beneath where it finds no more room, so that a narrow window cuts none.
class WrapRow : public QLayout {
  public:
    explicit WrapRow(QWidget* parent, int spacing);
    ~WrapRow() override;

    void addItem(QLayoutItem* item) override;
    /// Adds a control before all others, also in the order of keys.
    void begin_with(QWidget* control);
    int count() const override { return static_cast<int>(items_.size()); }
    QLayoutItem* itemAt(int index) const override;
    QLayoutItem* takeAt(int index) override;
    QSize sizeHint() const override;
    QSize minimumSize() const override;
    bool hasHeightForWidth() const override { return true; }
    int heightForWidth(int width) const override;
    void setGeometry(const QRect& rect) override;

  private:
    /// Places the controls in `rect`, or only measures. Returns the height that they take.
    int place(const QRect& rect, bool measure_only) const;

    std::vector<std::unique_ptr<QLayoutItem>> items_;
};

}  // namespace evenfall::ui
