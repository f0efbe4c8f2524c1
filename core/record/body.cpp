// SPDX-License-Identifier: GPL-3.0-or-later
#include "record/body.h"

#include <string_view>
#include <utility>

#include <nlohmann/json.hpp>

namespace evenfall {

namespace {

/// No JSON value is binary, so a binary one is the text of a value that nobody has looked at yet. Builds its
/// tree.
nlohmann::json& looked_at(nlohmann::json& value) {
    if (!value.is_binary()) return value;
    const auto& text = value.get_binary();
    return value = nlohmann::json::parse(
               std::string_view(reinterpret_cast<const char*>(text.data()), text.size()));
}

}  // namespace

Body::Body() = default;
Body::Body(nlohmann::json value) : json_(std::make_unique<nlohmann::json>(std::move(value))) {
}
Body::Body(const Body& other)
    : json_(other.json_ ? std::make_unique<nlohmann::json>(*other.json_) : nullptr) {
}
Body::Body(Body&& other) noexcept = default;
Body& Body::operator=(const Body& other) {
    return *this = Body(other);
}
Body& Body::operator=(Body&& other) noexcept = default;
Body::~Body() = default;

const nlohmann::json& Body::operator*() const {
    static const nlohmann::json null;
    return json_ ? looked_at(*json_) : null;
}

nlohmann::json& Body::operator*() {
    if (!json_) json_ = std::make_unique<nlohmann::json>();
    return looked_at(*json_);
}

bool Body::operator==(const Body& other) const {
    return **this == *other;
}

}  // namespace evenfall
