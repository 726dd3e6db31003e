// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "expected.h"
#include "heights/measured_rise.h"
#include "water/gravity.h"

#include <optional>
#include <string>

namespace rillmark {

// Normal gravity is within 0.05 % of the true one (gravity.h), taken as the half-width of an even distribution.
inline constexpr double kNormalGravity_u_rel = 0.0005 / 1.7320508;
// Our choice, no source: water from the creek that has stood in a hose.
inline constexpr Estimate kHoseWater_C{15.0, 5.0};
// Our choice, no source: a creek that is worth a plant is hardly as warm; a hose in the sun is.
inline constexpr double kWarmHose_C = 25.0;
// Common practice, no source: the class holds of full scale, so choose a range that puts the reading in its upper half.
inline constexpr double kLeastOfRange = 0.5;
// Our choice, no source: weather and a badly known altitude move the pressure of the air less.
inline constexpr double kAirPressureMargin_rel = 0.15;

/// A pressure gauge. One that reads absolute pressure, or against air sealed in it, gives a right rise only with
/// zero_Pa.
struct PressureGauge {
    double full_scale_Pa = 0.0; // 1 kPa to 100 MPa
    double class_rel = 0.016;   // limit of error as part of full scale (class 1.6: 0.016), above 0 to 0.1
    double resolution_Pa =
        0.0; // the least step that can be read: a last digit, or what the eye divides a scale mark into
    /// Reading with the hose empty or off, in the open air at the lower point, -1 to 1 MPa and within full scale.
    std::optional<double> zero_Pa;
    std::string name; // part of the shared keys: one gauge with one zero has one name
};

/// A hose full of standing water, open above, with the gauge at its lower end.
struct HoseStretch {
    PressureGauge gauge;
    double pressure_Pa = 0.0;                    // as read; above zero_Pa, up to full scale
    Estimate gauge_above_lower_m;                // centre of the gauge above the lower point, -100 to 100
    Estimate water_above_upper_m;                // water surface in the hose above the upper point, -100 to 100
    Estimate water_temperature_C = kHoseWater_C; // of the water in the hose, not of the creek; 0 to 40
    Place place{45.0, 0.0};                      // for gravity and the air; height of the lower point
    std::optional<Estimate> gravity_ms2;         // where it is known better than by place; 9.7 to 9.9
    std::optional<Estimate>
        expected_rise_m;    // from other evidence, lower to upper point: shows absolute pressure booked
    bool downwards = false; // the line leads from the upper to the lower point: the rise is negative
    std::string run;        // stretches with water of the same temperature have the same; part of a shared key
};

/// Pressure, Pa, and density, kg/m3, of the standard atmosphere at a height above the sea, -500 to 9000 m: ISO
/// 2533:1975.
struct StandardAir {
    double pressure_Pa = 0.0;
    double density_kgm3 = 0.0;
};
[[nodiscard]] StandardAir standard_air(double height_m);

/// Height of the water surface above a gauge open to the air at its own height: p / ((rho_water - rho_air) g). The air
/// above is thinner, so that the rule without rho_air is 0.12 % low at sea level. From hydrostatics.
struct HosePressure {
    double pressure_Pa = 0.0; // above zero
    double water_kgm3 = 0.0;
    double air_kgm3 = 0.0;
    double gravity_ms2 = 0.0;
};
[[nodiscard]] double head_of(const HosePressure& pressure);

/// Rise from lower to upper point by hose and gauge:
/// (p - zero) / ((rho_water - rho_air) g) + gauge above lower point - water surface above upper point.
///
/// The density of water is that of the temperature in the hose (water.h), gravity that of the place (gravity.h).
/// Absolute pressure cannot be told from gauge pressure by one reading. It is told by a zero near the pressure of the
/// air: the zero is then taken off like any other and `levels.gauge_reads_absolute` warns; without a zero, by an excess
/// over expected_rise_m of the pressure of the air, give or take kAirPressureMargin_rel: `levels.gauge_maybe_absolute`
/// warns.
///
/// Random: resolution / sqrt(12) (JCGM 100:2008, F.2.2.1) and the two heights. Shared: "gauge-class:" + gauge.name,
/// class x full scale / sqrt(3) at any reading, which repeating does not lessen; "gauge-zero:" + gauge.name, resolution
/// / sqrt(12), or the class once more where no zero was noted; "hose-temperature:" + run; "gravity", one for all. Also
/// warns `levels.gauge_below_half_range`, `levels.gauge_zero_missing`, `levels.gauge_zero_large` (beyond the class);
/// notes `levels.hose_warm` from kWarmHose_C. Air in the hose, running water and a kink cannot be seen in the numbers.
/// Refuses: inputs outside the ranges above (`levels.input_out_of_range`), a reading above full scale
/// (`levels.gauge_over_range`) or not above zero_Pa (`levels.gauge_no_pressure`), and what normal_gravity_ms2 refuses.
/// Accuracy: 0.02 % as a formula; a gauge of class 1.6 and 10 bar is good to 1.6 m.
[[nodiscard]] Expected<MeasuredRise> hose_gauge(const HoseStretch& stretch);

} // namespace rillmark
