// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <string_view>

#include <nlohmann/json.hpp>

#include "exchange/case.h"
#include "model/words.h"
#include "rules/rules.h"

namespace evenfall {

/// What can be computed of a case.
enum class Kind { equivalence, levels, stabilization, taper, crossover, review, supply, response, scales };
template <>
struct Words<Kind> {
    static constexpr std::array<WordPair<Kind>, 9> table{{{Kind::equivalence, "equivalence"},
                                                          {Kind::levels, "levels"},
                                                          {Kind::stabilization, "stabilization"},
                                                          {Kind::taper, "taper"},
                                                          {Kind::crossover, "crossover"},
                                                          {Kind::review, "review"},
                                                          {Kind::supply, "supply"},
                                                          {Kind::response, "response"},
                                                          {Kind::scales, "scales"}}};
};

/// The keys stand in a fixed order.
using Answered = nlohmann::ordered_json;

/// What every computation needs beside the case.
struct Basis {
    const Case& given;
    const Formulary& formulary;  ///< with the case's own constants laid over it
    const Rules& rules;
};

/// Computes and puts the result into the shape that is documented for the command line. Faults: `case-needs`
/// names a part that is missing; those of the computation.
Result<Answered> compute(Kind kind, const Basis& basis);

/// The same as a CSV table, where the kind is a table (levels, taper, review, supply fills, equivalence).
/// Fault: `case-no-table`.
Result<std::string> compute_csv(Kind kind, const Basis& basis);

}  // namespace evenfall
