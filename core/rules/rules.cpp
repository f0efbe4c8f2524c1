// SPDX-License-Identifier: GPL-3.0-or-later
#include "rules/rules.h"

#include <charconv>
#include <stdexcept>

#include "model/strict_json.h"
#include "rules/read_rules.h"
#include "rules/texts.h"
#include "units/dose_text.h"

namespace evenfall {
namespace {

const std::string& value_of(const Rules& rules, std::string_view id, std::string_view name) {
    const Rule* rule = rules.find(id);
    if (!rule) throw std::out_of_range("no rule " + std::string(id));
    const auto value = rule->values.find(std::string(name));
    if (value == rule->values.end())
        throw std::out_of_range("rule " + std::string(id) + " has no value " + std::string(name));
    return value->second;
}

bool is_percentage(std::string_view name) {
    return name.find("percent") != std::string_view::npos;
}

/// Whether a value can be read as the one that stood there: code that counts whole days reads no fraction,
/// and a share stays a share.
bool is_of_its_kind(std::string_view name, std::string_view before, std::string_view value) {
    constexpr std::size_t kMostDigits = 9;
    if (is_percentage(name) && parse_percent(before, name).ok()) {
        const auto share = parse_percent(value, name);
        return share.ok() && *share > Share();
    }
    const bool was_whole = before.find('.') == std::string_view::npos;
    return !was_whole || (value.find('.') == std::string_view::npos && value.size() <= kMostDigits);
}

}  // namespace

Result<Rules> Rules::load(const std::filesystem::path& file) {
    const auto text = read_text_file(file, JsonLimits{}.bytes);
    if (!text) return text.faults();
    return parse(*text, file.filename().string());
}

Result<Rules> Rules::parse(std::string_view text, std::string_view file_name) {
    const auto parsed = parse_strict_json(text, file_name);
    if (!parsed) return parsed.faults();
    auto read = rules_file::read_rules(*parsed);
    if (!read) return read.faults();
    Rules rules;
    rules.rules_ = std::move(read).value();
    return rules;
}

const Rule* Rules::find(std::string_view id) const {
    const auto found = rules_.find(std::string(id));
    return found == rules_.end() ? nullptr : &found->second;
}

double Rules::number(std::string_view id, std::string_view name) const {
    const std::string& text = value_of(*this, id, name);
    double number = 0;
    std::from_chars(text.data(), text.data() + text.size(), number);
    return number;
}

int Rules::whole(std::string_view id, std::string_view name) const {
    const std::string& text = value_of(*this, id, name);
    int whole = 0;
    const auto read = std::from_chars(text.data(), text.data() + text.size(), whole);
    if (read.ec != std::errc() || read.ptr != text.data() + text.size())
        throw std::out_of_range("rule " + std::string(id) + ": " + std::string(name) + " is no whole number");
    return whole;
}

Share Rules::percent(std::string_view id, std::string_view name) const {
    const auto share = parse_percent(value_of(*this, id, name), id);
    if (!share)
        throw std::out_of_range("rule " + std::string(id) + ": " + std::string(name) + " is no percentage");
    return *share;
}

std::string Rules::sentence(const Flag& flag, std::string_view language) const {
    const Rule* rule = find(flag.rule);
    if (!rule) return "[" + flag.rule + "]";
    auto sentence = rule->sentence.find(std::string(language));
    if (sentence == rule->sentence.end()) sentence = rule->sentence.find("en");
    Args args = flag.args;
    for (const auto& [name, value] : rule->values) args["rule." + name] = value;
    return fill(sentence->second, args);
}

std::string Rules::source(std::string_view id) const {
    const Rule* rule = find(id);
    if (!rule) return {};
    return rule->how == "memory" ? rule->source + " (from memory)" : rule->source;
}

Result<Rules> Rules::with(std::string_view id, std::string_view name, std::string_view value) const {
    const std::string place = std::string(id) + "." + std::string(name);
    const Args args = {{"rule", std::string(id)}, {"name", std::string(name)}};
    const Rule* rule = find(id);
    if (!rule || !rule->values.contains(std::string(name))) return Fault{"rule-unknown", place, args};
    if (!rule->can_be_changed) return Fault{"rule-fixed", place, args};
    if (!rules_file::is_plain_decimal(value)) return Fault{"rule-value", place, args};
    if (!is_of_its_kind(name, rule->values.at(std::string(name)), value))
        return Fault{is_percentage(name) ? "rule-not-a-share" : "rule-not-whole", place, args};
    Rules changed = *this;
    Rule& own = changed.rules_[std::string(id)];
    std::string& now = own.values[std::string(name)];
    if (now == value) return changed;
    own.source = "clinic's choice; shipped with " + std::string(name) + " " + now + " after: " + own.source;
    own.how = "clinic's choice";
    now = value;
    return changed;
}

}  // namespace evenfall
