// SPDX-License-Identifier: GPL-3.0-or-later
#include "planning/price.h"

#include "units/dose_text.h"

namespace evenfall {

Result<Price> parse_price(std::string_view text, std::string_view place) {
    constexpr std::int64_t kMost = 100'000'000'000;  // 100,000 of the currency
    // A plain decimal with millionths: what a volume in millilitres is as well.
    const auto read = parse_ml(text, place);
    if (!read || read->nl() > kMost)
        return Fault{"price-not-a-number", std::string(place), {{"text", std::string(text.substr(0, 40))}}};
    return Price{read->nl()};
}

std::optional<Price> find_price(const Prices& prices, const Product& product) {
    if (const auto exact = prices.find(product); exact != prices.end()) return exact->second;
    for (const auto& [other, price] : prices)
        if (other.drug == product.drug && other.form == product.form && other.strength == product.strength)
            return price;
    return std::nullopt;
}

std::string print_price(Price price) {
    return print_ml_digits(Volume::nanolitres(price.millionths));
}

std::string print_cost(Price price) {
    const std::int64_t hundredths = (price.millionths + 5'000) / 10'000;
    const std::string rest = std::to_string(hundredths % 100);
    return std::to_string(hundredths / 100) + "." + (rest.size() < 2 ? "0" + rest : rest);
}

}  // namespace evenfall
