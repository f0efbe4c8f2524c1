// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <filesystem>
#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "model/plan.h"
#include "units/result.h"
#include "units/share.h"

namespace evenfall {

/// A rule as data: what it compares with, what it says, and who says so.
struct Rule {
    std::string id;
    /// Plain decimals by name ("percent": "25"), units in the name.
    std::map<std::string, std::string> values;
    /// By language. {name} is filled from a flag's args, {rule.name} from `values`.
    std::map<std::string, std::string> sentence;
    std::string source;          ///< citation, "common practice" or "clinic's choice"
    std::string how;             ///< "looked up", "memory", "common practice", "clinic's choice"
    bool can_be_changed = true;  ///< whether a clinic may set its own value
    std::string group;           ///< the room that applies it

    bool operator==(const Rule&) const = default;
};

/// All rules in force: the shipped ones, with a clinic's own values laid over them.
class Rules {
  public:
    /// Reads and checks a rules file; all faults are reported.
    static Result<Rules> load(const std::filesystem::path& file);
    static Result<Rules> parse(std::string_view text, std::string_view file_name);

    const Rule* find(std::string_view id) const;
    const std::map<std::string, Rule>& all() const { return rules_; }

    /// The value of a rule. A rule or name that does not exist is a broken promise of ours:
    /// std::out_of_range.
    double number(std::string_view id, std::string_view name) const;
    int whole(std::string_view id, std::string_view name) const;
    Share percent(std::string_view id, std::string_view name) const;

    /// What a flag says, in a language (English where the language has no sentence).
    std::string sentence(const Flag& flag, std::string_view language = "en") const;
    std::string source(std::string_view id) const;

    /// The rules with a clinic's own value laid over one of them. Fault: `rule-unknown`, `rule-fixed`,
    /// `rule-value`, `rule-not-whole`, `rule-not-a-share` (a value stays of the kind that it was). `how` and
    /// `source` then say that the value is the clinic's and what was shipped.
    Result<Rules> with(std::string_view id, std::string_view name, std::string_view value) const;

  private:
    std::map<std::string, Rule> rules_;
};

}  // namespace evenfall
