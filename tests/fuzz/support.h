// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <cstdlib>
#include <filesystem>
#include <string_view>

namespace evenfall::fuzz {

inline std::string_view text_of(const std::uint8_t* data, std::size_t size) {
    return {reinterpret_cast<const char*>(data), size};
}

/// A promise that a target holds its parser to; ends the program where it is broken.
inline void promise(bool holds) {
    if (!holds) std::abort();
}

inline std::filesystem::path resources() {
    return std::filesystem::path(EVENFALL_SOURCE_DIR) / "resources";
}

}  // namespace evenfall::fuzz
