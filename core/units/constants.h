// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <numbers>

namespace rillmark {

/// Standard acceleration of free fall, 3rd CGPM 1901; true gravity differs by up to 0.3 %, a flow over a weir by half
/// of that.
inline constexpr double kStandardGravity_ms2 = 9.80665;
inline constexpr double kRadiansPerDegree = std::numbers::pi / 180.0;
inline constexpr double kSecondsPerMinute = 60.0;
inline constexpr double kSecondsPerHour = 3600.0;
inline constexpr double kSecondsPerDay = 86400.0;

} // namespace rillmark
