// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "expected.h"

namespace rillmark {

// Heights that a surveyed creek can have, m; also where the height series below is good to 1e-6 m/s2.
inline constexpr double kGravityHeightMin_m = -500.0;
inline constexpr double kGravityHeightMax_m = 9000.0;

/// Where on the earth a plant stands, for gravity.
struct Place {
    double latitude_deg = 0.0; // -90..90
    double height_m = 0.0;     // above the ellipsoid; height above the sea will do (100 m change g by 3e-5)
};

/// Normal gravity of the WGS 84 ellipsoid, m/s2: Somigliana's closed form on the ellipsoid and the second-order height
/// term. Source: NIMA TR8350.2, Department of Defense World Geodetic System 1984, 3rd ed., equations 4-1 and 4-3.
/// Accuracy: 1e-6 m/s2 as a formula; true gravity differs from it by up to about 0.05 % (EGM2008 at Everest: 0.03 %).
/// Refuses a latitude outside -90..90 (`power.latitude_out_of_range`), a height outside the limits above
/// (`power.height_out_of_range`) and what is not finite (`uncertainty.not_finite`).
[[nodiscard]] Expected<double> normal_gravity_ms2(const Place& place);

} // namespace rillmark
