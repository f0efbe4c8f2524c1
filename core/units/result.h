// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cassert>
#include <map>
#include <string>
#include <utility>
#include <variant>
#include <vector>

namespace evenfall {

/// Named values that fill a sentence of `resources/texts`; the names are the braces in the sentence.
using Args = std::map<std::string, std::string>;

/// A sentence to be rendered in the reader's language: an id of `resources/texts` and its values.
struct Message {
    std::string id;
    Args args;
    bool operator==(const Message&) const = default;
};

/// What was wrong with something that came from outside. `id` can be quoted by a clinician; `place` names the
/// file, row or field ("regimen[0].amount_mg"); `args` fill the sentence, among them what was expected.
struct Fault {
    std::string id;
    std::string place;
    Args args;
    bool operator==(const Fault&) const = default;
};

using Faults = std::vector<Fault>;

/// A value, or the faults that stood against it: all of them, not the first only.
template <class T>
class [[nodiscard]] Result {
  public:
    Result(T value) : state_(std::in_place_index<0>, std::move(value)) {}  // NOLINT: wraps on return
    Result(Fault fault) : state_(std::in_place_index<1>, Faults{std::move(fault)}) {}  // NOLINT
    Result(Faults faults) : state_(std::in_place_index<1>, std::move(faults)) {        // NOLINT
        assert(!std::get<1>(state_).empty());
    }

    bool ok() const { return state_.index() == 0; }
    explicit operator bool() const { return ok(); }

    /// REQUIRES ok().
    const T& value() const& { return std::get<0>(state_); }
    T& value() & { return std::get<0>(state_); }
    T value() && { return std::get<0>(std::move(state_)); }  // by value: a loop over it keeps it alive
    const T& operator*() const& { return value(); }
    T& operator*() & { return value(); }
    T operator*() && { return std::move(*this).value(); }
    const T* operator->() const { return &value(); }
    T* operator->() { return &value(); }

    /// REQUIRES !ok().
    const Faults& faults() const { return std::get<1>(state_); }

  private:
    std::variant<T, Faults> state_;
};

/// The value of a Result that carries nothing but success.
struct Done {
    bool operator==(const Done&) const = default;
};

/// Takes the value of `result` into `target`, or appends its faults to `faults`. Returns whether it was
/// taken.
template <class T>
bool take(Result<T> result, T& target, Faults& faults) {
    if (result.ok()) {
        target = std::move(result).value();
        return true;
    }
    faults.insert(faults.end(), result.faults().begin(), result.faults().end());
    return false;
}

}  // namespace evenfall
