// SPDX-License-Identifier: GPL-3.0-or-later
#include "controls/language_choice.h"

#include <QLocale>
#include <algorithm>

#include "controls/form.h"
#include "rules/texts.h"

namespace evenfall::ui {

QComboBox* make_language_choice(const QString& name) {
    QComboBox* choice = make_choice(name, {});
    for (const std::string& language : languages(resources_folder())) {
        const QString code = QString::fromStdString(language);
        choice->addItem(QLocale::languageToString(QLocale(code).language()), code);
    }
    return choice;
}

std::string chosen_language(const QComboBox& choice) {
    return choice.currentData().toString().toStdString();
}

void choose_language(QComboBox& choice, const std::string& language) {
    choice.setCurrentIndex(std::max(0, choice.findData(QString::fromStdString(language))));
}

}  // namespace evenfall::ui
