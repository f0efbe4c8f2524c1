// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

namespace evenfall {

/// The arithmetic mean; 0 for no values.
double mean(const std::vector<double>& values);
/// The sample standard deviation (n − 1 below); 0 for fewer than two values.
double sample_sd(const std::vector<double>& values);
/// Coefficient of variation: sample standard deviation ÷ mean, as a share (0.1 is 10 %); 0 where the mean is
/// 0.
double coefficient_of_variation(const std::vector<double>& values);
/// The least-squares slope of `values` against `at`; 0 where `at` does not vary. REQUIRES equal lengths.
double slope(const std::vector<double>& at, const std::vector<double>& values);
/// The value at share `p` (0 to 1) of the sorted values, interpolated between neighbours; 0 for no values.
double percentile(std::vector<double> values, double p);

/// Probability that a value of `a` exceeds one of `b`, ties counting half: the Mann–Whitney U of a ÷ (na ·
/// nb). 0.5 where either is empty.
double probability_of_superiority(const std::vector<double>& a, const std::vector<double>& b);

/// A statistic as a person reads it, rounded to `decimals`: "0.84", "0.5", "12", never a trailing zero, and
/// no sign on what rounds to nothing. Amounts that a person takes are never printed with it.
std::string print_statistic(double value, int decimals);

}  // namespace evenfall
