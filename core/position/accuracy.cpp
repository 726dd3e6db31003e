// SPDX-License-Identifier: GPL-3.0-or-later
#include "position/accuracy.h"

#include "uncertainty/estimate.h"

#include <cmath>

namespace rillmark {

std::optional<double> axis_from_radius(double radius_m, double probability) {
    if (!std::isfinite(radius_m) || radius_m < 0.0 || !(probability > 0.0 && probability < 1.0))
        return {};
    return radius_m / std::sqrt(-2.0 * std::log1p(-probability));
}

double two_drms_m(double u_east_m, double u_north_m) {
    return kCoverageFactor * std::hypot(u_east_m, u_north_m);
}

} // namespace rillmark
