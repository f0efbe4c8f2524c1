// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QString>
#include <optional>
#include <vector>

#include "planning/price.h"

namespace evenfall::ui {

class Workbench;

/// The clinic's prices, and what it writes after a sum.
struct PriceList {
    Prices prices;
    QString currency;

    bool operator==(const PriceList&) const = default;
};
PriceList price_list(const Workbench& workbench);

/// A sum in the clinic's currency; where it is not known, the products whose price is missing.
QString cost_text(const std::optional<Price>& cost, const std::vector<Product>& products,
                  const PriceList& list);

}  // namespace evenfall::ui
