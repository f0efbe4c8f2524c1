// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "app/basis.h"
#include "casework/desk.h"

namespace evenfall::app {

/// "STORE#who", as the command line names people of a store.
struct StoreName {
    std::string file;
    std::string who;       ///< a reference, the id of a record, or a pattern
    bool several = false;  ///< `who` is a pattern with * and ?

    std::string in_words() const { return file + "#" + who; }
};

/// The part before the last '#' is a store, where the whole is no file. Empty: no store is named.
std::optional<StoreName> in_store(const std::string& named);

/// Whom a name stands for. A pattern goes by reference alone.
struct NamedPeople {
    std::vector<PatientId> people;                ///< by reference
    std::map<PatientId, std::string> references;  ///< of these people
    std::map<std::string, Faults> doubled;   ///< references that several bear: none of them is meant by it
    std::map<PatientId, Faults> unreadable;  ///< of the whole store: whether they are meant cannot be told
};
NamedPeople people_named(Desk& desk, const StoreName& name);

/// The only one whom a name stands for, or nobody: then what is wrong is on standard error, and `exit` says
/// how to leave. That others cannot be read is told in one line.
std::optional<PatientId> one_named(const NamedPeople& named, const StoreName& name, const Texts& texts,
                                   Exit& exit);

/// A desk on a store that is opened under the rules; on failure the fault is on standard error.
std::optional<Desk> open_store_desk(const std::string& file, const StoreAccess& access,
                                    const Resources& resources);

}  // namespace evenfall::app
