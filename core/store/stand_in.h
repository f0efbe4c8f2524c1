// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>

#include "record/event.h"
#include "store/bytes.h"

// Somebody none of whose rows can be read has no id: it stands in the sealed text alone. So that they are not
// passed over, they get one that is made of the key under which their rows lie. It names no one, and nothing
// is written under it.

namespace evenfall {

PatientId stand_in(const Bytes& patient_key);
/// The key that a stand-in is made of; nothing for any other id.
std::optional<Bytes> key_of_stand_in(const PatientId& patient);

}  // namespace evenfall
