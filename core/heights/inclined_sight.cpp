// SPDX-License-Identifier: GPL-3.0-or-later
#include "heights/inclined_sight.h"

#include <cmath>

namespace rillmark {

SightGeometry geometry_of(const InclinedSight& sight) {
    const double distance_m = sight.distance_m;
    const double sine = std::sin(sight.elevation_rad);
    const double cosine = std::cos(sight.elevation_rad);
    if (sight.distance_is == SightDistance::Slope)
        return {distance_m * sine, distance_m * cosine, distance_m * cosine, sine, -distance_m * sine, cosine};
    const double tangent = sine / cosine;
    return {distance_m * tangent, distance_m, distance_m / (cosine * cosine), tangent, 0.0, 1.0};
}

Estimate point_to_point(const Estimate& level_m, const Estimate& rise_m) {
    const double distance_m = std::hypot(level_m.value, rise_m.value);
    return {distance_m,
            std::hypot(level_m.value * level_m.standard_uncertainty, rise_m.value * rise_m.standard_uncertainty) /
                distance_m};
}

} // namespace rillmark
