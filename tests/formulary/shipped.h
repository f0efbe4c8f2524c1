// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <gtest/gtest.h>

#include "formulary/formulary.h"
#include "units/dose_text.h"

namespace evenfall::testing {

inline std::string formulary_path() {
    return std::string(EVENFALL_SOURCE_DIR) + "/resources/formulary.json";
}

/// The shipped formulary; its faults are printed where it does not load.
inline const Formulary& shipped() {
    static const Formulary formulary = [] {
        auto loaded = load_formulary(formulary_path());
        if (!loaded)
            for (const Fault& fault : loaded.faults()) ADD_FAILURE() << fault.id << " at " << fault.place;
        return loaded ? *loaded : Formulary{};
    }();
    return formulary;
}

inline Dose mg(std::string_view text) {
    return parse_mg(text, "test").value();
}

}  // namespace evenfall::testing
