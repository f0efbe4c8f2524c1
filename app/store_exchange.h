// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

#include "app/basis.h"

namespace evenfall::app {

/// A store and the file by which two laptops of a clinic meet.
struct ExchangeAsked {
    std::string file;   ///< the store
    std::string other;  ///< the exchange file; for an export also a folder
    StoreAccess access;
    bool replace = false;
};

/// Makes a second laptop's store from an exchange file.
Exit join_store(const ExchangeAsked& asked, const Resources& resources);
/// Writes an exchange file.
Exit export_store(const ExchangeAsked& asked, const Resources& resources);
/// Takes in what another file of the clinic has beyond this store, and names what a person must settle.
Exit import_store(const ExchangeAsked& asked, const Resources& resources);

}  // namespace evenfall::app
