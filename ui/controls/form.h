// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QVBoxLayout>

class QComboBox;
class QLineEdit;
class QPlainTextEdit;

namespace evenfall::ui {

/// A column of fields, each beneath its name. `note` says what belongs there, where the name does not.
void add_field(QVBoxLayout& column, const QString& name, QWidget* field, const QString& note = {});

/// Fields that carry their name for a screen reader.
QLineEdit* make_line(const QString& name, const QString& hint = {});
QPlainTextEdit* make_lines(const QString& name, int rows);
QComboBox* make_choice(const QString& name, const QStringList& texts);

/// Marks a field as wrong, or right again.
void set_wrong(QWidget* field, bool wrong);

}  // namespace evenfall::ui
