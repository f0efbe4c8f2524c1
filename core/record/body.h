// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <memory>

#include <nlohmann/json_fwd.hpp>

namespace evenfall {

/// The payload of an event, a JSON value, behind a pointer: files that pass it on need not read what JSON is.
/// A binary value is a text whose tree is built when somebody looks at it, on one thread at a time.
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
