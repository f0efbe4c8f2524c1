// SPDX-License-Identifier: GPL-3.0-or-later
#include "store/state.h"
#include "store/store.h"

namespace evenfall {

Result<Done> Store::prove_passphrase(const std::filesystem::path& path, const std::string& user,
                                     std::string_view passphrase) {
    return guarded<Done>([&]() -> Result<Done> {
        sql::Database db(path, sql::Mode::read);
        unlock_user(db, header(db, "clinic"), user, passphrase, "store-wrong-passphrase");
        return Done{};
    });
}

}  // namespace evenfall
