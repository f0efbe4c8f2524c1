// SPDX-License-Identifier: GPL-3.0-or-later
#include "rules/read_rules.h"

#include <algorithm>
#include <array>

#include "model/strict_object.h"

namespace evenfall::rules_file {
namespace {

using nlohmann::json;

constexpr std::array<std::string_view, 4> kHow = {"looked up", "memory", "common practice",
                                                  "clinic's choice"};
constexpr int kVersion = 1;

bool is_rule_id(std::string_view id) {
    return !id.empty() && std::all_of(id.begin(), id.end(), [](char c) {
        return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '-';
    });
}

void read_values(StrictObject& object, Rule& rule, Faults& faults) {
    object.members(
        "values",
        [&](const std::string& name, const json& value, const std::string& place) {
            if (value.is_string() && is_plain_decimal(value.get_ref<const std::string&>()))
                rule.values[name] = value.get<std::string>();
            else
                faults.push_back({"rule-value", place, {{"rule", rule.id}, {"name", name.substr(0, 60)}}});
        },
        Need::may);
}

void read_sentences(StrictObject& object, Rule& rule, Faults& faults) {
    const bool there = object.members(
        "sentence", [&](const std::string& language, const json& value, const std::string& place) {
            if (value.is_string())
                rule.sentence[language] = value.get<std::string>();
            else
                faults.push_back({"json-not-text", place, {}});
        });
    if (there && !rule.sentence.contains("en"))
        object.fault("sentence", "rule-no-english", {{"rule", rule.id}});
}

Rule read_rule(const json& value, const std::string& place, Faults& faults) {
    Rule rule;
    StrictObject object(value, place, faults);
    if (object.text("id", rule.id) && !is_rule_id(rule.id))
        object.fault("id", "rule-id", {{"text", rule.id.substr(0, 60)}});
    object.text("group", rule.group);
    read_values(object, rule, faults);
    read_sentences(object, rule, faults);
    object.text("source", rule.source);
    if (object.text("how", rule.how) && std::find(kHow.begin(), kHow.end(), rule.how) == kHow.end())
        object.fault("how", "rule-how", {{"text", rule.how.substr(0, 60)}});
    object.yes_or_no("can_be_changed", rule.can_be_changed, Need::may);
    return rule;
}

}  // namespace

bool is_plain_decimal(std::string_view text) {
    constexpr std::size_t kLongest = 15;
    if (text.empty() || text.size() > kLongest || text.front() == '.' || text.back() == '.') return false;
    if (std::count(text.begin(), text.end(), '.') > 1) return false;
    return std::all_of(text.begin(), text.end(), [](char c) { return c == '.' || (c >= '0' && c <= '9'); });
}

Result<std::map<std::string, Rule>> read_rules(const json& file) {
    std::map<std::string, Rule> rules;
    Faults faults;
    {
        StrictObject object(file, "", faults);
        int version = 0;
        if (object.whole("version", version, 1, 1'000'000) && version != kVersion)
            object.fault("version", "rules-version",
                         {{"version", std::to_string(version)}, {"expected", std::to_string(kVersion)}});
        object.list("rules", [&](const json& value, const std::string& place) {
            Rule rule = read_rule(value, place, faults);
            const std::string id = rule.id;
            if (!rules.emplace(id, std::move(rule)).second)
                faults.push_back({"rule-id-twice", place, {{"rule", id.substr(0, 60)}}});
        });
    }
    if (!faults.empty()) return faults;
    return rules;
}

}  // namespace evenfall::rules_file
