// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <algorithm>
#include <string>

#include <gtest/gtest.h>

#include "exchange/case_file.h"
#include "rules/rules.h"
#include "rules/texts.h"

namespace evenfall::testing_case {

inline const Formulary& formulary() {
    static const Formulary loaded = load_formulary(resources_folder() / "formulary.json").value();
    return loaded;
}

inline const Rules& rules() {
    static const Rules loaded = Rules::load(resources_folder() / "rules.json").value();
    return loaded;
}

inline Result<Case> read(std::string_view text) {
    return read_case(text, "case.json", ".", formulary(), at_clock(day_at(2026, 12, 20), {540}));
}

/// "place id" of each fault, sorted.
inline std::vector<std::string> faults_of(std::string_view text) {
    const auto given = read(text);
    std::vector<std::string> faults;
    if (!given)
        for (const Fault& fault : given.faults()) faults.push_back(fault.place + " " + fault.id);
    std::ranges::sort(faults);
    return faults;
}

}  // namespace evenfall::testing_case
