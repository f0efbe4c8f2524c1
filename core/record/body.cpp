// SPDX-License-Identifier: GPL-3.0-or-later
#include "record/body.h"

#include <utility>

#include <nlohmann/json.hpp>

namespace evenfall {

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
    return json_ ? *json_ : null;
}

nlohmann::json& Body::operator*() {
    if (!json_) json_ = std::make_unique<nlohmann::json>();
    return *json_;
}

bool Body::operator==(const Body& other) const {
    return **this == *other;
}

}  // namespace evenfall
