// SPDX-License-Identifier: GPL-3.0-or-later
#include "course/log_scale.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "units/dose_text.h"

namespace evenfall::ui {
namespace {

/// Round amounts in micrograms: halves below 1 mg as tablets are made, 1-2-5 elsewhere.
constexpr std::array<std::int64_t, 26> kRound{
    1,         2,         5,         10,         20,         50,         125,         250,        500,
    1000,      2000,      5000,      10'000,     20'000,     50'000,     100'000,     200'000,    500'000,
    1'000'000, 2'000'000, 5'000'000, 10'000'000, 20'000'000, 50'000'000, 100'000'000, 200'000'000};
/// Finer ones, for a range that holds too few of those.
constexpr std::array<std::int64_t, 8> kFine{1, 2, 3, 4, 5, 6, 7, 8};

double log_of(std::int64_t micrograms) {
    return std::log10(static_cast<double>(micrograms) / 1000);
}

LogScale::Tick tick_at(std::int64_t micrograms) {
    return {log_of(micrograms), QString::fromStdString(print_mg_digits(Dose::micrograms(micrograms)))};
}

/// Keeps the largest, then every next one that stands far enough below.
std::vector<LogScale::Tick> thinned(std::vector<LogScale::Tick> ticks, double apart) {
    std::ranges::sort(ticks, std::greater{}, &LogScale::Tick::place);
    std::vector<LogScale::Tick> kept;
    for (const auto& tick : ticks)
        if (kept.empty() || kept.back().place - tick.place >= apart) kept.push_back(tick);
    std::ranges::reverse(kept);
    return kept;
}

}  // namespace

LogScale LogScale::holding(const std::vector<Dose>& amounts) {
    double least = 1, most = 1;
    bool any = false;
    for (const Dose amount : amounts) {
        if (amount <= Dose()) continue;
        const double mg = amount.mg();
        least = any ? std::min(least, mg) : mg;
        most = any ? std::max(most, mg) : mg;
        any = true;
    }
    std::size_t low = 0, high = kRound.size() - 1;
    while (low + 1 < kRound.size() && log_of(kRound[low + 1]) <= std::log10(least) + 1e-9) ++low;
    while (high > 0 && log_of(kRound[high - 1]) >= std::log10(most) + 0.02) --high;
    while (log_of(kRound[high]) - log_of(kRound[low]) < std::log10(4.0)) {
        if (low > 0) --low;
        if (high + 1 < kRound.size()) ++high;
    }
    LogScale scale;
    scale.bottom_ = log_of(kRound[low]);
    scale.top_ = log_of(kRound[high]);
    return scale;
}

double LogScale::place(Dose amount) const {
    if (amount <= Dose()) return shelf();
    return std::log10(amount.mg());
}

std::vector<LogScale::Tick> LogScale::ticks(double apart) const {
    std::vector<Tick> coarse, fine;
    const auto within = [&](std::int64_t micrograms) {
        return log_of(micrograms) >= bottom_ - 1e-9 && log_of(micrograms) <= top_ + 1e-9;
    };
    for (const std::int64_t amount : kRound)
        if (within(amount)) coarse.push_back(tick_at(amount));
    if (coarse.size() >= 4) return thinned(coarse, apart);
    for (std::int64_t decade = 1; decade <= 100'000'000; decade *= 10)
        for (const std::int64_t step : kFine)
            if (within(step * decade)) fine.push_back(tick_at(step * decade));
    return thinned(fine, apart);
}

}  // namespace evenfall::ui
