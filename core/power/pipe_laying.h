// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "expected.h"

namespace rillmark {

/// Force with which a bend of a closed pipe is pushed outwards, 2 p A sin(angle/2), N. `outside_m` (> 0) is the
/// diameter that holds the pressure: the outside at push-on joints; `pressure_Pa` (>= 0) the highest that will come,
/// with surge or in the pressure test; `angle_rad` the change of direction, 0..pi (else `power.bend_out_of_range`). The
/// push of the flowing water itself, rho Q V, is left out: it is small beside the pressure. Source: AWWA M23, PVC Pipe
/// - Design and Installation, chapter 4.
[[nodiscard]] Expected<double> bend_thrust_N(double pressure_Pa, double outside_m, double angle_rad);

/// Force on a closed end or a shut valve, p A, N.
[[nodiscard]] Expected<double> end_thrust_N(double pressure_Pa, double outside_m);

// AWWA M23, chapter 4, example 1 (inferred from its numbers).
inline constexpr double kThrustSafetyFactor = 1.5;

/// Area that a thrust block presses against undisturbed soil, m2: thrust times safety factor over the bearing
/// pressure of the soil (> 0). Handbooks differ several times in what a soil bears; a geotechnical engineer decides.
[[nodiscard]] Expected<double> block_area_m2(double thrust_N, double soil_bearing_Pa);

/// Air that must be let in when a pipe of that bore drains by its own slope (fall over length, above 0 to 1), m3/s: the
/// flow 0.0007872 C sqrt(S D^5) in ft3/s and inches, C = 110. Source: an air-valve maker's application notes (the form
/// of AWWA M51). Refuses a slope above 1 (`power.pipe_slope_out_of_range`).
[[nodiscard]] Expected<double> draining_air_m3s(double slope, double bore_m);

/// Least earth above a buried pipe of that outside diameter (> 0), m: 18 in to 2.5 in of pipe, 24 in to 5 in, 30 in
/// above; and below the frost. From memory of USDA NRCS practice standard 430, unconfirmed.
[[nodiscard]] Expected<double> least_cover_m(double outside_m);

} // namespace rillmark
