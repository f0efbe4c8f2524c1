// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

#include "app/basis.h"

namespace evenfall::app {

/// A restore as it was asked for.
struct RestoreAsked {
    std::string file;
    std::string backup;
    StoreAccess access;
    bool replace = false;  ///< without asking
};

/// Proves the back-up, shows what would be gained and lost, asks, and puts it in the store's place.
Exit restore_store(const RestoreAsked& asked, const Resources& resources);

}  // namespace evenfall::app
