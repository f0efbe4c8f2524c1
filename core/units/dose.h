// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <compare>
#include <cstdint>
#include <optional>

namespace evenfall {

/// An exact amount of an agent, in whole nanograms (1 mg = 1 000 000 ng). A quarter of 0.125 mg is 31 250 ng.
/// No floating point touches an amount that a person takes. Range: about ±9.2 million grams.
///
/// Arithmetic that would overflow throws std::overflow_error: amounts that come from outside are limited by
/// the parser (`dose_text.h`) far below that, so an overflow is a broken promise in our own code.
class Dose {
  public:
    constexpr Dose() = default;
    static constexpr Dose nanograms(std::int64_t ng) { return Dose(ng); }
    static constexpr Dose milligrams(std::int64_t mg) { return Dose(mg * 1'000'000); }
    static constexpr Dose micrograms(std::int64_t mcg) { return Dose(mcg * 1'000); }

    constexpr std::int64_t ng() const { return ng_; }
    /// For models and charts only, never for an amount that is taken.
    constexpr double mg() const { return static_cast<double>(ng_) / 1e6; }
    constexpr bool is_zero() const { return ng_ == 0; }

    friend Dose operator+(Dose a, Dose b);
    friend Dose operator-(Dose a, Dose b);
    friend Dose operator*(Dose a, std::int64_t times);
    friend Dose operator*(std::int64_t times, Dose a) { return a * times; }
    Dose& operator+=(Dose b) { return *this = *this + b; }
    Dose& operator-=(Dose b) { return *this = *this - b; }

    /// The n-th part where it is a whole number of nanograms, otherwise nothing. REQUIRES n > 0.
    std::optional<Dose> part(std::int64_t n) const;

    friend constexpr auto operator<=>(Dose, Dose) = default;

  private:
    explicit constexpr Dose(std::int64_t ng) : ng_(ng) {}
    std::int64_t ng_ = 0;
};

/// An exact volume of a liquid, in whole nanolitres (1 mL = 1 000 000 nL).
class Volume {
  public:
    constexpr Volume() = default;
    static constexpr Volume nanolitres(std::int64_t nl) { return Volume(nl); }
    static constexpr Volume millilitres(std::int64_t ml) { return Volume(ml * 1'000'000); }

    constexpr std::int64_t nl() const { return nl_; }
    constexpr double ml() const { return static_cast<double>(nl_) / 1e6; }
    constexpr bool is_zero() const { return nl_ == 0; }

    friend Volume operator+(Volume a, Volume b);
    friend Volume operator*(Volume a, std::int64_t times);
    friend constexpr auto operator<=>(Volume, Volume) = default;

  private:
    explicit constexpr Volume(std::int64_t nl) : nl_(nl) {}
    std::int64_t nl_ = 0;
};

/// What `volume` of a liquid with `per_ml` in each millilitre contains, where that is a whole number of
/// nanograms; otherwise nothing.
std::optional<Dose> amount_in(Volume volume, Dose per_ml);

/// The volume that holds `amount`, where that is a whole number of nanolitres. REQUIRES per_ml > 0.
std::optional<Volume> volume_of(Dose amount, Dose per_ml);

}  // namespace evenfall
