// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <filesystem>
#include <string_view>

#include <nlohmann/json.hpp>

#include "units/result.h"

// JSON from outside: limits come before the parser, a key given twice is a fault, and every fault says where.

namespace evenfall {

/// What a text may be at most.
struct JsonLimits {
    std::size_t bytes = std::size_t{32} << 20;
    int depth = 64;
};

/// Reads a JSON text. `file_name` begins the place of each fault. Faults: `json-too-large`, `json-too-deep`,
/// `json-broken` (line and column), `json-key-twice` (all of them, each with its path). A number that is too
/// large for a double, NaN and Infinity are `json-broken`, as JSON has none of them.
Result<nlohmann::json> parse_strict_json(std::string_view text, std::string_view file_name,
                                         const JsonLimits& limits = {});

/// Reads a file as parse_strict_json does. Faults besides: `file-unreadable`. The file's name alone, not its
/// folder, begins the places.
Result<nlohmann::json> load_strict_json(const std::filesystem::path& file, const JsonLimits& limits = {});

/// The bytes of a file, at most `most_bytes`. Faults: `file-unreadable`, `json-too-large`.
Result<std::string> read_text_file(const std::filesystem::path& file, std::size_t most_bytes);

}  // namespace evenfall
