// SPDX-License-Identifier: GPL-3.0-or-later
#include "store/stand_in.h"

namespace evenfall {

namespace {

constexpr std::string_view kBegin = "unreadable-";

}  // namespace

PatientId stand_in(const Bytes& patient_key) {
    return PatientId(kBegin) + to_hex(patient_key);
}

std::optional<Bytes> key_of_stand_in(const PatientId& patient) {
    // A damaged key may have any length.
    if (!patient.starts_with(kBegin) || patient.size() == kBegin.size()) return std::nullopt;
    return from_hex(std::string_view(patient).substr(kBegin.size()));
}

}  // namespace evenfall
