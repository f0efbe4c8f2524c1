// SPDX-License-Identifier: GPL-3.0-or-later
#include "controls/wrap_row.h"

#include <QWidget>
#include <algorithm>

namespace evenfall::ui {

WrapRow::WrapRow(QWidget* parent, int spacing) : QLayout(parent) {
    setContentsMargins(0, 0, 0, 0);
    setSpacing(spacing);
}

WrapRow::~WrapRow() = default;

void WrapRow::addItem(QLayoutItem* item) {
    items_.emplace_back(item);
}

void WrapRow::begin_with(QWidget* control) {
    QWidget* first = items_.empty() ? nullptr : items_.front()->widget();
    addWidget(control);
    std::ranges::rotate(items_, items_.end() - 1);
    if (first) QWidget::setTabOrder(control, first);
}

QLayoutItem* WrapRow::itemAt(int index) const {
    return index < 0 || index >= count() ? nullptr : items_[static_cast<std::size_t>(index)].get();
}

QLayoutItem* WrapRow::takeAt(int index) {
    if (!itemAt(index)) return nullptr;
    QLayoutItem* taken = items_[static_cast<std::size_t>(index)].release();
    items_.erase(items_.begin() + index);
    return taken;
}

QSize WrapRow::sizeHint() const {
    QSize whole;
    for (const auto& item : items_) {
        if (item->isEmpty()) continue;
        const QSize size = item->sizeHint();
        whole = {whole.width() + size.width() + (whole.isEmpty() ? 0 : spacing()),
                 std::max(whole.height(), size.height())};
    }
    return whole;
}

QSize WrapRow::minimumSize() const {
    QSize widest;
    for (const auto& item : items_)
        if (!item->isEmpty()) widest = widest.expandedTo(item->minimumSize());
    return widest;
}

int WrapRow::heightForWidth(int width) const {
    return place({0, 0, width, 0}, true);
}

void WrapRow::setGeometry(const QRect& rect) {
    QLayout::setGeometry(rect);
    place(rect, false);
}

int WrapRow::place(const QRect& rect, bool measure_only) const {
    int left = rect.left(), top = rect.top(), line = 0;
    for (const auto& item : items_) {
        if (item->isEmpty()) continue;
        const QSize size = item->sizeHint();
        if (left > rect.left() && left + size.width() > rect.right() + 1) {
            left = rect.left();
            top += line + spacing();
            line = 0;
        }
        if (!measure_only) item->setGeometry({{left, top}, size});
        left += size.width() + spacing();
        line = std::max(line, size.height());
    }
    return top + line - rect.top();
}

}  // namespace evenfall::ui
