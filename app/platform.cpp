// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/platform.h"

#include <QByteArray>
#include <QList>
#include <QtGlobal>

namespace evenfall::app {

bool platform_is_local() {
    for (const QByteArray& each : qgetenv("QT_QPA_PLATFORM").split(';')) {
        const QByteArray name = each.left(each.indexOf(':') < 0 ? each.size() : each.indexOf(':'));
        if (!name.isEmpty() && name != "xcb" && name != "wayland" && name != "wayland-egl" &&
            name != "offscreen")
            return false;
    }
    return true;
}

bool display_is_there() {
    return !qEnvironmentVariableIsEmpty("QT_QPA_PLATFORM") || !qEnvironmentVariableIsEmpty("DISPLAY") ||
           !qEnvironmentVariableIsEmpty("WAYLAND_DISPLAY");
}

}  // namespace evenfall::app
