// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/privacy.h"

#include <QCoreApplication>
#include <QSettings>
#include <fstream>

#include <sys/resource.h>

namespace evenfall::app {

void leave_no_dumps() {
    const rlimit none{0, 0};
    setrlimit(RLIMIT_CORE, &none);
    // A handler that takes dumps from a pipe may ask for one all the same; then it holds no memory.
    std::ofstream("/proc/self/coredump_filter") << "0\n";
}

void leave_no_recent_files() {
    QCoreApplication::setAttribute(Qt::AA_DontUseNativeDialogs);
    // Qt's dialog keeps its history in the user's settings; where no folder can be made, none is kept.
    QSettings::setPath(QSettings::NativeFormat, QSettings::UserScope, QStringLiteral("/dev/null/none"));
}

}  // namespace evenfall::app
