// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>

namespace rillmark {

/// Relative error of chi_squared_quantile, tested against printed tables and the exact form for 2 degrees of freedom.
inline constexpr double kChiSquaredError = 1e-9;

/// Probability that a chi-square variable stays at or below x: the regularised incomplete gamma function P(f/2, x/2),
/// by its series below x = f + 2 and its continued fraction above (Abramowitz and Stegun, Handbook of Mathematical
/// Functions, 1964, 6.5.29 and 6.5.31, 26.4.19; numbers from memory). x not above zero gives 0; f = 0 gives 1.
[[nodiscard]] double chi_squared_probability(double x, std::size_t degrees_of_freedom);

/// The x with chi_squared_probability(x, f) = probability, by bisection.
/// probability is taken into 1e-12 .. 1 - 1e-12; f = 0 gives 0.
[[nodiscard]] double chi_squared_quantile(double probability, std::size_t degrees_of_freedom);

} // namespace rillmark
