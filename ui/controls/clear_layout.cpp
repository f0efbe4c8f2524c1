// SPDX-License-Identifier: GPL-3.0-or-later
#include "controls/clear_layout.h"

#include <QLayout>
#include <QVariant>
#include <QWidget>

namespace evenfall::ui {
namespace {

constexpr const char* kPutAway = "put_away";

}  // namespace

void clear_layout(QLayout& layout) {
    while (QLayoutItem* item = layout.takeAt(0)) {
        if (item->widget()) {
            item->widget()->hide();
            item->widget()->setProperty(kPutAway, true);
            item->widget()->deleteLater();
        } else if (item->layout()) {
            clear_layout(*item->layout());
        }
        delete item;
    }
}

bool is_put_away(const QWidget& widget) {
    return widget.property(kPutAway).toBool();
}

}  // namespace evenfall::ui
