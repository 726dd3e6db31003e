// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>

namespace rillmark {

/// Standard uncertainty of one axis from the radius that holds a part `probability` of the fixes, for a circular normal
/// error: sigma = radius / sqrt(-2 ln(1 - P)). Metres; radius >= 0, 0 < P < 1; others give nullopt. A device's own
/// position service states such a radius (mostly at 68 %: from memory, unconfirmed); receivers also print 50 % (CEP)
/// and 95 % (R95).
[[nodiscard]] std::optional<double> axis_from_radius(double radius_m, double probability);

/// 2DRMS = 2 sqrt(sN^2 + sE^2), the horizontal +/- shown at k = 2: holds 95.4 to 98.2 % of the fixes (National Research
/// Council, The Global Positioning System: A Shared National Asset, 1995, appendix on accuracy definitions).
[[nodiscard]] double two_drms_m(double u_east_m, double u_north_m);

} // namespace rillmark
