// SPDX-License-Identifier: GPL-3.0-or-later
#include "diary/statistics.h"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <numeric>

namespace evenfall {

double mean(const std::vector<double>& values) {
    if (values.empty()) return 0;
    return std::accumulate(values.begin(), values.end(), 0.0) / static_cast<double>(values.size());
}

double sample_sd(const std::vector<double>& values) {
    if (values.size() < 2) return 0;
    const double middle = mean(values);
    double squares = 0;
    for (const double value : values) squares += (value - middle) * (value - middle);
    return std::sqrt(squares / static_cast<double>(values.size() - 1));
}

double coefficient_of_variation(const std::vector<double>& values) {
    const double middle = mean(values);
    return middle == 0 ? 0 : sample_sd(values) / middle;
}

double slope(const std::vector<double>& at, const std::vector<double>& values) {
    const double at_mean = mean(at), value_mean = mean(values);
    double above = 0, below = 0;
    for (std::size_t i = 0; i < at.size(); ++i) {
        above += (at[i] - at_mean) * (values[i] - value_mean);
        below += (at[i] - at_mean) * (at[i] - at_mean);
    }
    return below > 0 ? above / below : 0;
}

double percentile(std::vector<double> values, double p) {
    if (values.empty()) return 0;
    const double place = p * static_cast<double>(values.size() - 1);
    const auto low = static_cast<std::size_t>(place);
    const auto nth = values.begin() + static_cast<std::ptrdiff_t>(low);
    std::nth_element(values.begin(), nth, values.end());
    const double at_low = *nth;
    if (low + 1 == values.size()) return at_low;
    const double at_high = *std::min_element(nth + 1, values.end());
    return at_low + (place - static_cast<double>(low)) * (at_high - at_low);
}

double probability_of_superiority(const std::vector<double>& a, const std::vector<double>& b) {
    if (a.empty() || b.empty()) return 0.5;
    std::vector<double> sorted = b;
    std::sort(sorted.begin(), sorted.end());
    double wins = 0;
    for (const double value : a) {
        const auto [first, last] = std::equal_range(sorted.begin(), sorted.end(), value);
        wins += static_cast<double>(first - sorted.begin()) + static_cast<double>(last - first) / 2;
    }
    return wins / (static_cast<double>(a.size()) * static_cast<double>(b.size()));
}

std::string print_statistic(double value, int decimals) {
    char digits[64];
    std::snprintf(digits, sizeof digits, "%.*f", decimals, value);
    std::string text = digits;
    if (text.find('.') != std::string::npos) {
        text.erase(text.find_last_not_of('0') + 1);
        if (text.back() == '.') text.pop_back();
    }
    return text == "-0" ? "0" : text;
}

}  // namespace evenfall
