// SPDX-License-Identifier: GPL-3.0-or-later
#include "uncertainty/chi_squared.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace rillmark {

namespace {

constexpr int kMostTerms = 100000; // some 5 sqrt(a) are needed; this is reached by no network that fits in memory
constexpr double kSmall = 1e-300;  // stands for a zero denominator in the continued fraction

double logarithm_of_prefix(double a, double x) {
    return -x + a * std::log(x) - std::lgamma(a);
}

double lower_by_series(double a, double x) {
    double term = 1.0 / a;
    double sum = term;
    for (int n = 1; n < kMostTerms && term > sum * std::numeric_limits<double>::epsilon(); ++n) {
        term *= x / (a + n);
        sum += term;
    }
    return sum * std::exp(logarithm_of_prefix(a, x));
}

/// The upper part, by the continued fraction evaluated from the front (Lentz).
double upper_by_fraction(double a, double x) {
    double b = x + 1.0 - a;
    double c = 1.0 / kSmall;
    double d = 1.0 / b;
    double fraction = d;
    for (int n = 1; n < kMostTerms; ++n) {
        const double numerator = -n * (n - a);
        b += 2.0;
        d = numerator * d + b;
        d = 1.0 / (std::abs(d) < kSmall ? kSmall : d);
        c = b + numerator / c;
        c = std::abs(c) < kSmall ? kSmall : c;
        const double factor = c * d;
        fraction *= factor;
        if (std::abs(factor - 1.0) < std::numeric_limits<double>::epsilon())
            break;
    }
    return fraction * std::exp(logarithm_of_prefix(a, x));
}

} // namespace

double chi_squared_probability(double x, std::size_t degrees_of_freedom) {
    if (degrees_of_freedom == 0)
        return 1.0;
    if (!(x > 0.0))
        return 0.0;
    const double a = static_cast<double>(degrees_of_freedom) / 2.0;
    const double half = x / 2.0;
    return half < a + 1.0 ? lower_by_series(a, half) : 1.0 - upper_by_fraction(a, half);
}

double chi_squared_quantile(double probability, std::size_t degrees_of_freedom) {
    if (degrees_of_freedom == 0)
        return 0.0;
    constexpr double kLeast = 1e-12;
    const double wanted = std::clamp(probability, kLeast, 1.0 - kLeast);
    double low = 0.0;
    double high = static_cast<double>(degrees_of_freedom) + 1.0;
    while (chi_squared_probability(high, degrees_of_freedom) < wanted)
        high *= 2.0;
    while (high - low > 1e-13 * high) {
        const double middle = low + (high - low) / 2.0;
        if (middle <= low || middle >= high)
            break;
        (chi_squared_probability(middle, degrees_of_freedom) < wanted ? low : high) = middle;
    }
    return low + (high - low) / 2.0;
}

} // namespace rillmark
