// SPDX-License-Identifier: GPL-3.0-or-later
#include "controls/secret_line.h"

#include <QLineEdit>

#include "controls/form.h"

namespace evenfall::ui {

QLineEdit* make_secret(const QString& name) {
    QLineEdit* line = make_line(name);
    line->setEchoMode(QLineEdit::Password);
    return line;
}

}  // namespace evenfall::ui
