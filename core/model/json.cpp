// SPDX-License-Identifier: GPL-3.0-or-later
#include "model/json.h"

#include <cstdint>
#include <limits>
#include <stdexcept>

#include "units/dose_text.h"

namespace {

/// The value of a result read from our own text, or std::invalid_argument.
template <class T>
T required(evenfall::Result<T> result, const nlohmann::json& j) {
    if (!result) throw std::invalid_argument(result.faults().front().id + ": " + j.dump());
    return std::move(result).value();
}

/// A whole number as it is written: a fraction would be cut, one too large would come out as another, and the
/// least of all has no opposite.
std::int64_t whole(const nlohmann::json& j) {
    using Limits = std::numeric_limits<std::int64_t>;
    const bool fits = j.is_number_unsigned()
                          ? j.get<std::uint64_t>() <= static_cast<std::uint64_t>(Limits::max())
                          : j.is_number_integer() && j.get<std::int64_t>() != Limits::min();
    if (!fits) throw std::invalid_argument("not a whole number: " + j.dump());
    return j.get<std::int64_t>();
}

}  // namespace

NLOHMANN_JSON_NAMESPACE_BEGIN

void adl_serializer<evenfall::Day>::to_json(json& j, const evenfall::Day& value) {
    j = evenfall::print_day(value);
}

void adl_serializer<evenfall::Day>::from_json(const json& j, evenfall::Day& value) {
    value = required(evenfall::parse_day(j.get_ref<const std::string&>(), ""), j);
}

void adl_serializer<evenfall::LocalTime>::to_json(json& j, const evenfall::LocalTime& value) {
    j = evenfall::print_local_time(value);
}

void adl_serializer<evenfall::LocalTime>::from_json(const json& j, evenfall::LocalTime& value) {
    value = required(evenfall::parse_local_time(j.get_ref<const std::string&>(), ""), j);
}

NLOHMANN_JSON_NAMESPACE_END

namespace evenfall {

using nlohmann::json;

void to_json(json& j, const Dose& value) {
    j = print_mg_digits(value);
}

void from_json(const json& j, Dose& value) {
    value = required(parse_mg(j.get_ref<const std::string&>(), ""), j);
}

void to_json(json& j, const Volume& value) {
    j = print_ml_digits(value);
}

void from_json(const json& j, Volume& value) {
    value = required(parse_ml(j.get_ref<const std::string&>(), ""), j);
}

void to_json(json& j, const Share& value) {
    j = json::array({value.numerator(), value.denominator()});
}

void from_json(const json& j, Share& value) {
    if (!j.is_array() || j.size() != 2 || whole(j[1]) == 0)
        throw std::invalid_argument("not a share: " + j.dump());
    value = Share::of(whole(j[0]), whole(j[1]));
}

void to_json(json& j, const ClockTime& value) {
    j = print_clock(value);
}

void from_json(const json& j, ClockTime& value) {
    value = required(parse_clock(j.get_ref<const std::string&>(), ""), j);
}

}  // namespace evenfall
