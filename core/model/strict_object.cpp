// SPDX-License-Identifier: GPL-3.0-or-later
#include "model/strict_object.h"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <numeric>
#include <sstream>

#include "units/dose_text.h"

namespace evenfall {
namespace {

using nlohmann::json;

std::string shown(std::string_view text) {
    return std::string(text.substr(0, 60));
}

std::string as_text(double number) {
    std::ostringstream stream;
    stream.precision(12);
    stream << number;
    return stream.str();
}

/// Levenshtein's distance.
std::size_t changes(std::string_view a, std::string_view b) {
    std::vector<std::size_t> row(b.size() + 1);
    std::iota(row.begin(), row.end(), std::size_t{0});
    for (std::size_t i = 1; i <= a.size(); ++i) {
        std::size_t diagonal = row[0];
        row[0] = i;
        for (std::size_t j = 1; j <= b.size(); ++j) {
            const std::size_t replaced = diagonal + (a[i - 1] == b[j - 1] ? 0 : 1);
            diagonal = row[j];
            row[j] = std::min({row[j] + 1, row[j - 1] + 1, replaced});
        }
    }
    return row.back();
}

}  // namespace

std::string nearest_word(std::string_view text, const std::vector<std::string>& known) {
    const std::string_view start = text.substr(0, 60);
    std::string nearest;
    std::size_t least = 0;
    for (const std::string& word : known) {
        const std::size_t distance = changes(start, word);
        if (!nearest.empty() && distance >= least) continue;
        nearest = word;
        least = distance;
    }
    return nearest;
}

StrictObject::StrictObject(const json& value, std::string place, Faults& faults)
    : place_(std::move(place)), faults_(&faults) {
    if (value.is_object())
        object_ = &value;
    else
        faults_->push_back({"json-not-an-object", place_, {}});
}

StrictObject::~StrictObject() {
    if (!object_) return;
    for (const auto& [key, value] : object_->items())
        if (std::find(known_.begin(), known_.end(), key) == known_.end())
            fault(key, "json-key-unknown", {{"key", shown(key)}, {"nearest", nearest_word(key, known_)}});
}

bool StrictObject::has(std::string_view key) const {
    return object_ && object_->contains(key);
}

std::string StrictObject::place(std::string_view key) const {
    return place_.empty() ? shown(key) : place_ + "." + shown(key);
}

void StrictObject::fault(std::string_view key, std::string id, Args args) {
    faults_->push_back({std::move(id), place(key), std::move(args)});
}

const json* StrictObject::find(std::string_view key, Need need) {
    known_.emplace_back(key);
    if (!object_) return nullptr;
    const auto found = object_->find(key);
    if (found != object_->end()) return &*found;
    if (need == Need::must) fault(key, "json-missing", {{"key", std::string(key)}});
    return nullptr;
}

bool StrictObject::text(std::string_view key, std::string& target, Need need) {
    const json* found = find(key, need);
    if (!found) return false;
    if (!found->is_string()) {
        fault(key, "json-not-text");
        return false;
    }
    target = found->get<std::string>();
    return true;
}

bool StrictObject::yes_or_no(std::string_view key, bool& target, Need need) {
    const json* found = find(key, need);
    if (!found) return false;
    if (!found->is_boolean()) {
        fault(key, "json-not-yes-or-no");
        return false;
    }
    target = found->get<bool>();
    return true;
}

bool StrictObject::number(std::string_view key, double& target, const NumberLimits& limits, Need need) {
    const json* found = find(key, need);
    if (!found) return false;
    if (!found->is_number()) {
        fault(key, "json-not-a-number");
        return false;
    }
    const auto read = found->get<double>();
    const bool low = limits.above ? read <= limits.least : read < limits.least;
    if (!std::isfinite(read) || low || read > limits.most) {
        const bool open_top = limits.most == std::numeric_limits<double>::max();
        fault(key,
              limits.above ? "json-not-above"
              : open_top   ? "json-too-small"
                           : "json-out-of-range",
              {{"number", as_text(read)}, {"least", as_text(limits.least)}, {"most", as_text(limits.most)}});
        return false;
    }
    target = read;
    return true;
}

bool StrictObject::whole(std::string_view key, int& target, int least, int most, Need need) {
    const json* found = find(key, need);
    if (!found) return false;
    if (!found->is_number_integer()) {
        fault(key, "json-not-whole");
        return false;
    }
    // An unsigned value above the signed range would wrap: compare as a double, exact for every int.
    const auto read = found->get<double>();
    if (read < least || read > most) {
        fault(key, "json-out-of-range",
              {{"number", as_text(read)}, {"least", std::to_string(least)}, {"most", std::to_string(most)}});
        return false;
    }
    target = static_cast<int>(read);
    return true;
}

bool StrictObject::decimal_text(std::string_view key, std::string& target, Need need) {
    const json* found = find(key, need);
    if (!found) return false;
    if (found->is_string()) {
        target = found->get<std::string>();
        return true;
    }
    if (!found->is_number()) {
        fault(key, "json-not-an-amount");
        return false;
    }
    // The shortest plain decimal that reads back as this number: what the writer wrote, where that was exact.
    char digits[512];
    const auto end =
        std::to_chars(digits, digits + sizeof digits, found->get<double>(), std::chars_format::fixed);
    target.assign(digits, end.ptr);
    return true;
}

bool StrictObject::amount_mg(std::string_view key, Dose& target, Need need) {
    std::string read;
    if (!decimal_text(key, read, need)) return false;
    return take(parse_mg(read, place(key)), target, *faults_);
}

bool StrictObject::volume_ml(std::string_view key, Volume& target, Need need) {
    std::string read;
    if (!decimal_text(key, read, need)) return false;
    return take(parse_ml(read, place(key)), target, *faults_);
}

bool StrictObject::texts(std::string_view key, std::vector<std::string>& target, Need need) {
    const std::size_t before = faults_->size();
    std::vector<std::string> read;
    const bool there = list(
        key,
        [&](const json& value, const std::string& where) {
            if (value.is_string())
                read.push_back(value.get<std::string>());
            else
                faults_->push_back({"json-not-text", where, {}});
        },
        need);
    if (!there || faults_->size() != before) return false;
    target = std::move(read);
    return true;
}

const json* StrictObject::list_value(std::string_view key, Need need, std::size_t most) {
    const json* found = find(key, need);
    if (!found) return nullptr;
    if (!found->is_array()) {
        fault(key, "json-not-a-list");
        return nullptr;
    }
    if (found->size() > most) {
        fault(key, "json-list-too-long", {{"most", std::to_string(most)}});
        return nullptr;
    }
    return found;
}

const json* StrictObject::object_value(std::string_view key, Need need) {
    const json* found = find(key, need);
    if (!found || found->is_object()) return found;
    fault(key, "json-not-an-object");
    return nullptr;
}

}  // namespace evenfall
