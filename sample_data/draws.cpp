// SPDX-License-Identifier: GPL-3.0-or-later
#include "sample_data/draws.h"

namespace evenfall::sample {

int Draws::around(int spread) {
    const int sum = between(-spread, spread) + between(-spread, spread) + between(-spread, spread);
    return sum / 3;
}

std::string Draws::id() {
    constexpr const char* kHex = "0123456789abcdef";
    std::string id(32, '0');
    for (char& digit : id) digit = kHex[random_() % 16];
    return id;
}

}  // namespace evenfall::sample
