// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

namespace rillmark {

// Beyond these a number is a slip of the unit or of the finger. Our choice, no source, but where one is named.

inline constexpr double kFarthest_m = 10000.0; // across a section, either way from the zero of its tape
inline constexpr double kShallowest_m = 0.001;
inline constexpr double kDeepest_m = 100.0;
inline constexpr double kHighestWater_m = 1e5; // above or below the zero of heights
inline constexpr double kLargest_u_rel = 0.5;  // above, the law of propagation says nothing
// Sea water has 5 S/m, a saturated brine about 25.
inline constexpr double kHighest_Sm = 20.0;
inline constexpr double kWeakestSolution_kgm3 = 0.001;
// A saturated solution of NaCl.
inline constexpr double kStrongestSolution_kgm3 = 360.0;

} // namespace rillmark
