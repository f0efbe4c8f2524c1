// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <limits>
#include <string>
#include <string_view>
#include <vector>

#include <nlohmann/json.hpp>

#include "model/words.h"
#include "units/dose.h"
#include "units/result.h"

namespace evenfall {

/// Whether a key has to be there. A key that may be left out keeps the target's value.
enum class Need { must, may };

/// What a number may be, both ends included. `above` leaves the lower end out.
struct NumberLimits {
    double least = -std::numeric_limits<double>::max();
    double most = std::numeric_limits<double>::max();
    bool above = false;
};
inline constexpr NumberLimits kAboveZero{0, std::numeric_limits<double>::max(), true};
inline constexpr NumberLimits kZeroAndUp{0, std::numeric_limits<double>::max(), false};

/// Reads one JSON object strictly. Each reader takes the value of a key into its target, or appends a fault
/// with its place ("drugs.diazepam.kinetics.half_life_h") and returns false; the target then keeps its value.
/// A key that was never asked for is a fault when the reader goes out of scope, with the nearest known key
/// named.
///
/// A reader of a key that may be left out returns false where it is left out, without a fault.
///
/// Faults: `json-not-an-object`, `json-missing`, `json-key-unknown`, `json-not-text`, `json-not-yes-or-no`,
/// `json-not-a-number`, `json-not-whole`, `json-not-an-amount`, `json-out-of-range`, `json-not-above`,
/// `json-too-small`, `json-not-a-list`, `json-list-too-long`, `json-word-unknown`, and those of the parsers
/// in `units`.
class StrictObject {
  public:
    /// `place` is empty at the top of a file.
    StrictObject(const nlohmann::json& value, std::string place, Faults& faults);
    ~StrictObject();
    StrictObject(const StrictObject&) = delete;
    StrictObject& operator=(const StrictObject&) = delete;

    /// False where the value is no object: the one fault is there already, and no reader adds to it.
    bool is_object() const { return object_ != nullptr; }
    bool has(std::string_view key) const;
    /// The place of a key of this object.
    std::string place(std::string_view key) const;
    void fault(std::string_view key, std::string id, Args args = {});

    /// The raw value, or null; `Need::must` makes its absence a fault.
    const nlohmann::json* find(std::string_view key, Need need = Need::may);

    bool text(std::string_view key, std::string& target, Need need = Need::must);
    bool yes_or_no(std::string_view key, bool& target, Need need = Need::must);
    bool number(std::string_view key, double& target, const NumberLimits& limits, Need need = Need::must);
    bool whole(std::string_view key, int& target, int least, int most, Need need = Need::must);
    /// Milligrams as a decimal string, or a JSON number whose shortest decimal is exact in nanograms.
    bool amount_mg(std::string_view key, Dose& target, Need need = Need::must);
    bool volume_ml(std::string_view key, Volume& target, Need need = Need::must);
    bool texts(std::string_view key, std::vector<std::string>& target, Need need = Need::must);

    /// A value of an enumeration by its word.
    template <Worded E>
    bool word(std::string_view key, E& target, Need need = Need::must) {
        std::string read;
        if (!text(key, read, need)) return false;
        if (const auto value = from_word<E>(read)) {
            target = *value;
            return true;
        }
        fault(key, "json-word-unknown", {{"text", read.substr(0, 60)}, {"expected", all_words<E>()}});
        return false;
    }

    /// A text that a parser of `units` reads: parsed("starts", day, parse_day).
    template <class T>
    bool parsed(std::string_view key, T& target, Result<T> (*parse)(std::string_view, std::string_view),
                Need need = Need::must) {
        std::string read;
        if (!text(key, read, need)) return false;
        return take(parse(read, place(key)), target, *faults_);
    }

    /// Calls each(value, place) for every entry of a list.
    template <class Each>
    bool list(std::string_view key, Each each, Need need = Need::must, std::size_t most = 1'000'000) {
        const nlohmann::json* found = list_value(key, need, most);
        if (!found) return false;
        for (std::size_t i = 0; i < found->size(); ++i)
            each((*found)[i], place(key) + "[" + std::to_string(i) + "]");
        return true;
    }

    /// Calls each(name, value, place) for every member of an object whose names are not known beforehand.
    template <class Each>
    bool members(std::string_view key, Each each, Need need = Need::must) {
        const nlohmann::json* found = object_value(key, need);
        if (!found) return false;
        for (const auto& [name, value] : found->items()) each(name, value, place(key) + "." + name);
        return true;
    }

  private:
    const nlohmann::json* list_value(std::string_view key, Need need, std::size_t most);
    const nlohmann::json* object_value(std::string_view key, Need need);
    bool decimal_text(std::string_view key, std::string& target, Need need);

    const nlohmann::json* object_ = nullptr;
    std::string place_;
    Faults* faults_;
    std::vector<std::string> known_;
};

/// The word of `known` that takes the fewest single-letter changes from `text`; empty where `known` is.
std::string nearest_word(std::string_view text, const std::vector<std::string>& known);

}  // namespace evenfall
