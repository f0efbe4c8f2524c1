// SPDX-License-Identifier: GPL-3.0-or-later
#include "units/dose.h"

#include <stdexcept>

namespace evenfall {
namespace {

[[noreturn]] void overflow() {
    throw std::overflow_error("an amount left the range of whole nanograms");
}

std::int64_t checked_add(std::int64_t a, std::int64_t b) {
    std::int64_t sum = 0;
    if (__builtin_add_overflow(a, b, &sum)) overflow();
    return sum;
}

std::int64_t checked_multiply(std::int64_t a, std::int64_t b) {
    std::int64_t product = 0;
    if (__builtin_mul_overflow(a, b, &product)) overflow();
    return product;
}

__extension__ using Wide = __int128;  // products of two int64 always fit

constexpr std::int64_t kMillionths = 1'000'000;

/// a * b / c where it divides and fits, otherwise nothing.
std::optional<std::int64_t> exact_ratio(std::int64_t a, std::int64_t b, std::int64_t c) {
    const Wide product = static_cast<Wide>(a) * b;
    if (product % c != 0) return std::nullopt;
    const Wide quotient = product / c;
    if (quotient > INT64_MAX || quotient < INT64_MIN) return std::nullopt;
    return static_cast<std::int64_t>(quotient);
}

}  // namespace

Dose operator+(Dose a, Dose b) {
    return Dose(checked_add(a.ng_, b.ng_));
}

Dose operator-(Dose a, Dose b) {
    std::int64_t difference = 0;
    if (__builtin_sub_overflow(a.ng_, b.ng_, &difference)) overflow();
    return Dose(difference);
}

Dose operator*(Dose a, std::int64_t times) {
    return Dose(checked_multiply(a.ng_, times));
}

std::optional<Dose> Dose::part(std::int64_t n) const {
    if (ng_ % n != 0) return std::nullopt;
    return Dose(ng_ / n);
}

Volume operator+(Volume a, Volume b) {
    return Volume(checked_add(a.nl_, b.nl_));
}

Volume operator*(Volume a, std::int64_t times) {
    return Volume(checked_multiply(a.nl_, times));
}

std::optional<Dose> amount_in(Volume volume, Dose per_ml) {
    const auto ng = exact_ratio(volume.nl(), per_ml.ng(), kMillionths);
    if (!ng) return std::nullopt;
    return Dose::nanograms(*ng);
}

std::optional<Volume> volume_of(Dose amount, Dose per_ml) {
    const auto nl = exact_ratio(amount.ng(), kMillionths, per_ml.ng());
    if (!nl) return std::nullopt;
    return Volume::nanolitres(*nl);
}

}  // namespace evenfall
