// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <filesystem>
#include <string_view>

#include "exchange/case.h"

namespace evenfall {

/// Reads a case file (resources/case.schema.json). All faults are reported, each with its place in the file.
/// `folder` is where the CSV files that a case names are looked for; they are plain names, never paths. `now`
/// stands for the clock where the case gives no `as_of`.
///
/// Faults: those of strict JSON and of `units`; `drug-unknown`, `unit-slip`, `case-*`.
Result<Case> read_case(std::string_view text, std::string_view file_name, const std::filesystem::path& folder,
                       const Formulary& formulary, LocalTime now);

}  // namespace evenfall
