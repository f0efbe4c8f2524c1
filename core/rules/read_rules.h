// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <map>
#include <string>
#include <string_view>

#include <nlohmann/json.hpp>

#include "rules/rules.h"

namespace evenfall::rules_file {

/// Whether a text is a plain decimal: digits, at most one point between digits, at most 15 characters.
bool is_plain_decimal(std::string_view text);

/// Reads the rules of a parsed file. Faults, besides those of StrictObject: `rules-version`, `rule-id`,
/// `rule-id-twice`, `rule-value`, `rule-no-english`, `rule-how`.
Result<std::map<std::string, Rule>> read_rules(const nlohmann::json& file);

}  // namespace evenfall::rules_file
