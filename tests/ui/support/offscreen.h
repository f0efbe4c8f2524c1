// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QApplication>
#include <QLocale>

#include <gtest/gtest.h>

#include "theme/theme.h"

namespace evenfall::ui {

/// Runs the tests of a program without a display, the same on every machine. A scale that the caller set is
/// kept.
inline int run_offscreen(int count, char** words) {
    qputenv("QT_QPA_PLATFORM", "offscreen");
    if (!qEnvironmentVariableIsSet("QT_SCALE_FACTOR")) qputenv("QT_SCALE_FACTOR", "1");
    qputenv("QT_FONT_DPI", "96");
    QLocale::setDefault(QLocale::c());
    QApplication app(count, words);
    apply_theme(app, ThemeKind::light);
    testing::InitGoogleTest(&count, words);
    return RUN_ALL_TESTS();
}

}  // namespace evenfall::ui
