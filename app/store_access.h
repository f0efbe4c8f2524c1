// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>

#include "app/basis.h"
#include "store/store.h"

namespace evenfall::app {

/// The passphrase from a file (its first line), or asked for on the terminal without echo.
std::optional<std::string> read_passphrase(const std::string& file, const Texts& texts);

/// Opens a store under the rules; on failure the fault is on standard error.
std::optional<Store> open_store(const std::string& file, const StoreAccess& access,
                                const Resources& resources);

}  // namespace evenfall::app
