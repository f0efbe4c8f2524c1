// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QComboBox>
#include <string>

namespace evenfall::ui {

/// A choice among the languages that there are texts in, each by its name.
QComboBox* make_language_choice(const QString& name);
/// The chosen language ("en"), and the way to choose one; one without texts chooses English.
std::string chosen_language(const QComboBox& choice);
void choose_language(QComboBox& choice, const std::string& language);

}  // namespace evenfall::ui
