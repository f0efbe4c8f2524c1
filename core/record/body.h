// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <memory>

#include <nlohmann/json_fwd.hpp>

namespace evenfall {

/// The payload of an event, a JSON value. It stands behind a pointer so that the many files that only pass
/// events on need not read what JSON is.
class Body {
  public:
    Body();  ///< null
    /// Explicit: braces around a pair would else make a list of it.
    explicit Body(nlohmann::json value);
    Body(const Body& other);
    Body(Body&& other) noexcept;  ///< leaves null behind
    Body& operator=(const Body& other);
    Body& operator=(Body&& other) noexcept;
    ~Body();

    const nlohmann::json& operator*() const;
    nlohmann::json& operator*();
    const nlohmann::json* operator->() const { return &**this; }
    nlohmann::json* operator->() { return &**this; }

    bool operator==(const Body& other) const;

  private:
    std::unique_ptr<nlohmann::json> json_;  ///< empty stands for null
};

}  // namespace evenfall
