// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QString>
#include <QWidget>

#include "theme/tones.h"
#include "units/result.h"

namespace evenfall::app {

/// How a picture is made.
struct PictureOptions {
    int width = 1440;
    int height = 900;
    double scale = 1;
    bool replace = false;
};

/// Paints a widget into a file, PNG or SVG by its ending, once nothing in it is being computed any more.
/// Faults: `app-file-exists`, `app-cannot-write`, `app-picture-kind`.
Result<Done> save_picture(QWidget& widget, const QString& file, const PictureOptions& options);

}  // namespace evenfall::app
