// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace evenfall {

/// Bytes without meaning of their own; never secret ones (those live in SecretBytes).
using Bytes = std::string;

/// Lower-case hexadecimal digits of `bytes`.
std::string to_hex(std::string_view bytes);
/// The bytes that an even number of hexadecimal digits stands for; nothing if `hex` is anything else.
std::optional<Bytes> from_hex(std::string_view hex);
/// Appends `value` as eight bytes, least significant first.
void append_number(Bytes& to, std::int64_t value);

}  // namespace evenfall
