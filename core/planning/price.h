// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <string_view>

#include "model/product.h"
#include "units/result.h"

namespace evenfall {

/// An exact sum of money in the clinic's own currency, in millionths of its unit. The program knows no
/// currency and no price: a clinic enters them where it wants cost to be shown.
struct Price {
    std::int64_t millionths = 0;

    friend auto operator<=>(const Price&, const Price&) = default;
};

/// The price of one unit of a product; of one millilitre of a liquid.
using Prices = std::map<Product, Price>;

/// Plain decimal digits without a currency, from 0 to 100,000, finer than a millionth refused ("0.12",
/// "3.5"). Fault: `price-not-a-number`.
Result<Price> parse_price(std::string_view text, std::string_view place);

/// The price of a product; else of the same unit with other cuts, or measured in other steps: those change
/// what is taken of it and not what it costs. Nothing where neither has one.
std::optional<Price> find_price(const Prices& prices, const Product& product);

/// Plain digits without trailing zeros: "0.12".
std::string print_price(Price price);
/// Rounded to hundredths, half upward, always two of them: "12.50". For sums that people read.
std::string print_cost(Price price);

}  // namespace evenfall
