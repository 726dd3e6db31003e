// SPDX-License-Identifier: GPL-3.0-or-later
#include "water/gravity.h"

#include <cmath>
#include <numbers>

namespace rillmark {

namespace {

// NIMA TR8350.2, tables 3.1, 3.3 and 3.4.
constexpr double kGravityAtEquator_ms2 = 9.7803253359;
constexpr double kSomiglianaK = 0.00193185265241;
constexpr double kEccentricitySquared = 0.00669437999013;
constexpr double kSemiMajorAxis_m = 6378137.0;
constexpr double kFlattening = 1.0 / 298.257223563;
constexpr double kRotationM = 0.00344978650684; // omega^2 a^2 b / GM

} // namespace

Expected<double> normal_gravity_ms2(const Place& place) {
    if (!std::isfinite(place.latitude_deg))
        return refusal("uncertainty.not_finite", "power.latitude");
    if (!std::isfinite(place.height_m))
        return refusal("uncertainty.not_finite", "power.height");
    if (std::abs(place.latitude_deg) > 90.0)
        return refusal("power.latitude_out_of_range", "power.latitude",
                       {{"latitude", place.latitude_deg, Quantity::Coordinate}});
    if (place.height_m < kGravityHeightMin_m || place.height_m > kGravityHeightMax_m)
        return refusal("power.height_out_of_range", "power.height",
                       {{"height", place.height_m, Quantity::Length},
                        {"lowest", kGravityHeightMin_m, Quantity::Length},
                        {"highest", kGravityHeightMax_m, Quantity::Length}});

    const double sine = std::sin(place.latitude_deg * std::numbers::pi / 180.0);
    const double sine2 = sine * sine;
    const double on_ellipsoid =
        kGravityAtEquator_ms2 * (1.0 + kSomiglianaK * sine2) / std::sqrt(1.0 - kEccentricitySquared * sine2);
    const double relative_height = place.height_m / kSemiMajorAxis_m;
    return on_ellipsoid * (1.0 - 2.0 * (1.0 + kFlattening + kRotationM - 2.0 * kFlattening * sine2) * relative_height +
                           3.0 * relative_height * relative_height);
}

} // namespace rillmark
