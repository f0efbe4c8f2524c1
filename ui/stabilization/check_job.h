// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <memory>
#include <stop_token>

#include "stabilization/check.h"

namespace evenfall::ui {

/// What the stabilization page is computed from: values only, so that it can be computed on another thread.
struct CheckRequest {
    StabilizationInput input;
    std::shared_ptr<const Formulary> formulary;
    std::shared_ptr<const Rules> rules;
};

/// The check with the diary that it is about.
struct Checked {
    StabilizationInput input;
    StabilizationCheck check;
};

/// Null where it was asked to stop before it began.
std::shared_ptr<const Checked> run_check(CheckRequest request, std::stop_token stop);

}  // namespace evenfall::ui
