// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QApplication>
#include <QFont>
#include <QObject>
#include <QPalette>

#include "theme/tones.h"

namespace evenfall::ui {

/// Sizes of type, each about 1.25 times the one before.
enum class Type { note, text, strong, heading, title, dose };

/// The font of a size in the face of the window. Its digits need not be of one width: see `numerals.h`.
QFont type(Type type);

/// Spacing in fours, in device-independent pixels.
inline constexpr int kSpace1 = 4;
inline constexpr int kSpace2 = 8;
inline constexpr int kSpace3 = 12;
inline constexpr int kSpace4 = 16;
inline constexpr int kSpace6 = 24;
inline constexpr int kRadius = 6;
/// The least height of anything that is pressed.
inline constexpr int kTarget = 32;

/// Widths of lines: structure is thin, data heavier; both grow in high contrast.
qreal structure_line();
qreal data_line();

/// Tells the parts of the window that the theme changed. Painted widgets need not listen: they are repainted.
class ThemeNotifier : public QObject {
    Q_OBJECT
  signals:
    void changed();
};
ThemeNotifier& theme_notifier();

ThemeKind theme_in_force();
/// Sets face, palette and style of the application. May be called at any time.
void apply_theme(QApplication& app, ThemeKind kind);
/// The theme that fits the system's palette: black and white without greys is high contrast, a dark window is
/// dark. (Qt before 6.5 does not name the system's choice.)
ThemeKind theme_of_system(const QPalette& palette);

}  // namespace evenfall::ui
