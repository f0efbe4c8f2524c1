// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "store/store.h"

class QWidget;

namespace evenfall::ui {

/// Proves all rows under a dialog that shows how far it is and can end it. Nothing else can be done
/// meanwhile.
Result<CheckReport> prove_with_progress(Store& store, const Heads& known, QWidget* parent);

}  // namespace evenfall::ui
