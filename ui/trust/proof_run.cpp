// SPDX-License-Identifier: GPL-3.0-or-later
#include "trust/proof_run.h"

#include <QCoreApplication>
#include <QProgressDialog>

namespace evenfall::ui {

Result<CheckReport> prove_with_progress(Store& store, const Heads& known, QWidget* parent) {
    QProgressDialog dialog(QObject::tr("Proving every row…"), QObject::tr("Stop"), 0, 100, parent);
    dialog.setWindowModality(Qt::ApplicationModal);
    dialog.setMinimumDuration(0);
    dialog.setValue(0);
    return store.check(known, [&dialog](std::int64_t done, std::int64_t all) {
        dialog.setValue(all == 0 ? 100 : static_cast<int>(100 * done / all));
        QCoreApplication::processEvents();
        return !dialog.wasCanceled();
    });
}

}  // namespace evenfall::ui
