// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "expected.h"
#include "heights/measured_rise.h"

#include <optional>
#include <vector>

namespace rillmark {

// From memory, unconfirmed: 2 to 5 mm a set-up; the larger, until the instrument has shown better.
inline constexpr double kTubeSetup_m = 0.005;
// Our choice, no source: below 2 mm temperature is lost in the readings.
inline constexpr double kTubeTemperatureMatters_m = 0.002;
// Our choice, no source: felt by hand or taken from the air.
inline constexpr double kTubeTemperature_u_C = 2.0;

/// The water in the two upright legs of a tube.
struct TubeLegs {
    double height_m = 0.0; // water column of the colder leg above the lowest part of the tube, 0 to 100
    double from_C = 0.0;   // 0 to 40
    double to_C = 0.0;
    double temperature_u_C = kTubeTemperature_u_C; // standard uncertainty of each, 0 to 20
};

/// One set-up of the tube: the water stands equally high at both staffs, so the staff that stands lower reads more.
struct TubeSetup {
    double from_reading_m = 0.0;  // staff at the point that the line comes from, 0 to 10, zero at the foot
    double to_reading_m = 0.0;    // staff at the point that it goes to
    std::optional<TubeLegs> legs; // given where one leg stood in the sun or in the creek
};

struct WaterTubeOptions {
    double setup_u_m = kTubeSetup_m; // standard uncertainty of the rise of one set-up, 0.0001 to 0.1
};

/// How much higher the water stands in the `to` leg than in the `from` leg: h (rho_cold / rho_warm - 1), positive where
/// the `to` leg is warmer. The density is that of water.h.
/// Refuses a height outside 0..100 m (`levels.input_out_of_range`) and what water_density_kgm3 refuses.
[[nodiscard]] Expected<double> tube_temperature_step_m(double leg_height_m, double from_C, double to_C);

/// Rise by water tube: the sum over the set-ups of (reading at from - reading at to), each corrected for the
/// temperature of its legs where they are given.
///
/// Random: setup_u_m x sqrt(set-ups), and the temperatures of the legs. Nothing is shared: each set-up is read anew.
/// Source: hydrostatics; density as in water.h. Accuracy: the correction 0.1 mm for legs of 1 m.
/// Notes `levels.tube_temperature` where a correction is above kTubeTemperatureMatters_m.
/// Refuses: no set-up (`levels.nothing_measured`), inputs outside the ranges above (`levels.input_out_of_range`,
/// argument `row` the set-up from 1), and what tube_temperature_step_m refuses.
[[nodiscard]] Expected<MeasuredRise> water_tube(const std::vector<TubeSetup>& setups,
                                                const WaterTubeOptions& options = {});

} // namespace rillmark
