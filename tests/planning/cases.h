// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

namespace evenfall {

/// On how many cases a property is tried: all of them, and under the sanitizers, where a case costs twenty
/// times as much and a tenth shows what they can show, a tenth.
constexpr int cases(int all) {
#ifdef __SANITIZE_ADDRESS__
    return all / 10;
#else
    return all;
#endif
}

}  // namespace evenfall
