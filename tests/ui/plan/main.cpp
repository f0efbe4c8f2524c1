// SPDX-License-Identifier: GPL-3.0-or-later
#include <gtest/gtest.h>

#include <QApplication>
#include <QLocale>

#include "theme/theme.h"

int main(int count, char** words) {
    qputenv("QT_QPA_PLATFORM", "offscreen");
    qputenv("QT_SCALE_FACTOR", "1");
    qputenv("QT_FONT_DPI", "96");
    QLocale::setDefault(QLocale::c());
    QApplication app(count, words);
    evenfall::ui::apply_theme(app, evenfall::ui::ThemeKind::light);
    testing::InitGoogleTest(&count, words);
    return RUN_ALL_TESTS();
}
