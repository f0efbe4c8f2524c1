// SPDX-License-Identifier: GPL-3.0-or-later
#include "controls/form.h"

#include <QComboBox>
#include <QLineEdit>
#include <QPlainTextEdit>

#include "controls/label.h"
#include "theme/theme.h"

namespace evenfall::ui {

void add_field(QVBoxLayout& column, const QString& name, QWidget* field, const QString& note) {
    auto* group = new QVBoxLayout;
    group->setSpacing(kSpace1);
    auto* label = new Label(name, Type::strong);
    label->setBuddy(field);
    group->addWidget(label);
    if (!note.isEmpty()) {
        auto* says = new Label(note, Type::note, Tone::soft_ink);
        group->addWidget(says->wrapped());
    }
    group->addWidget(field);
    column.addLayout(group);
}

QLineEdit* make_line(const QString& name, const QString& hint) {
    auto* line = new QLineEdit;
    line->setAccessibleName(name);
    line->setPlaceholderText(hint);
    return line;
}

QPlainTextEdit* make_lines(const QString& name, int rows) {
    auto* lines = new QPlainTextEdit;
    lines->setAccessibleName(name);
    lines->setTabChangesFocus(true);
    lines->setFixedHeight(lines->fontMetrics().lineSpacing() * rows + 2 * kSpace2);
    return lines;
}

QComboBox* make_choice(const QString& name, const QStringList& texts) {
    auto* choice = new QComboBox;
    choice->addItems(texts);
    choice->setAccessibleName(name);
    return choice;
}

void set_wrong(QWidget* field, bool wrong) {
    field->setProperty("wrong", wrong);
    field->update();
}

}  // namespace evenfall::ui
