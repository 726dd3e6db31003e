// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "expected.h"
#include "units/constants.h"

#include <optional>

namespace rillmark {

// ISO 2533:1975, Standard Atmosphere, table 1 and clause 2; US Standard Atmosphere 1976, tables 1 and 2.
inline constexpr double kStandardPressure_Pa = 101325.0;
inline constexpr double kStandardTemperature_K = 288.15;
inline constexpr double kStandardLapse_K_per_m = 0.0065;
inline constexpr double kMolarMassOfAir_kg_per_mol = 0.0289644;
// US Standard Atmosphere 1976 keeps the gas constant of its time; 8.31446 would change heights by 0.002 %.
inline constexpr double kGasConstant_J_per_mol_K = 8.31432;
inline constexpr double kGasConstantOfDryAir_J_per_kg_K = kGasConstant_J_per_mol_K / kMolarMassOfAir_kg_per_mol;
inline constexpr double kZeroCelsius_K = 273.15;

// Where the standard atmosphere has one lapse rate, and deeper than any dry land, geopotential m.
inline constexpr double kStandardLowest_m = -2000.0;
inline constexpr double kStandardHighest_m = 11000.0;

// Air that people work in, degrees Celsius. Our choice, no source.
inline constexpr double kColdestAir_C = -60.0;
inline constexpr double kWarmestAir_C = 60.0;

/// Geopotential height of a geometric one: H = r Z / (r + Z), r = 6356766 m (US Standard Atmosphere 1976, equation 18).
/// Metres; for Z above -r only. Their difference is 0.8 m at 2300 m.
[[nodiscard]] double geopotential_height_m(double geometric_height_m);

/// Pressure of the standard atmosphere, p = p0 (1 - L H / T0)^(g M / (R L)) (US Standard Atmosphere 1976, equation
/// 33a). Refuses a geopotential height outside kStandardLowest_m .. kStandardHighest_m or not finite
/// (`levels.standard_height_out_of_range`). Accuracy: exact as a definition, 0.04 Pa at 11 km by the rounded constants.
[[nodiscard]] Expected<double> standard_pressure_Pa(double geopotential_height_m);

/// Geopotential height of a pressure in the standard atmosphere: what an altimeter set to 1013.25 hPa shows. Its
/// differences are wrong by the ratio of the true temperature to the standard one, 0.35 % per kelvin.
/// Refuses pressures of heights outside the same range or not finite (`levels.standard_pressure_out_of_range`).
[[nodiscard]] Expected<double> standard_height_m(double pressure_Pa);

/// T0 - L H. Any height; physical only within the range above.
[[nodiscard]] double standard_temperature_K(double geopotential_height_m);

/// Moist air at one place.
struct AirState {
    double temperature_C = 0.0; // in the shade
    double pressure_Pa = 0.0;
    double relative_humidity = 0.0; // 0..1
};

/// Of the Magnus form below against steam tables, 0 to 40 C (from memory, unconfirmed).
inline constexpr double kSaturationError_rel = 0.005;

/// Saturation vapour pressure over water, Magnus form 611.2 exp(17.62 t / (243.12 + t)) Pa. Source: WMO-No. 8, Guide to
/// Instruments and Methods of Observation, annex 4.B (from memory, unconfirmed). Accuracy kSaturationError_rel, which
/// is 0.01 % of a height in saturated warm air. Stated for -45..60 C; used from -60 C on, where there is next to no
/// vapour. Not for ice. For finite temperatures above -243.12 C.
[[nodiscard]] double saturation_vapour_pressure_Pa(double temperature_C);

/// Temperature at which dry air has the density of this air: Tv = T / (1 - (1 - 0.622) e / p), e = humidity times
/// saturation (the gas law for two gases; the form T (1 + 0.61 r) with the mixing ratio r agrees within 0.1 %).
/// Refuses a temperature outside kColdestAir_C .. kWarmestAir_C, a humidity outside 0..1 and a pressure that no air on
/// land has (`levels.air_impossible`, `where` the field).
[[nodiscard]] Expected<double> virtual_temperature_K(const AirState& air);

// Air pressure on land: some 1080 hPa at the Dead Sea, 330 hPa on the highest summit (from memory, unconfirmed; rounded
// outwards).
inline constexpr double kLowestLandPressure_Pa = 30000.0;
inline constexpr double kHighestLandPressure_Pa = 110000.0;

/// A column of air between two levels.
struct AirColumn {
    double lower_pressure_Pa = 0.0;          // > 0
    double upper_pressure_Pa = 0.0;          // > 0; the larger of the two gives a column downwards, negative
    double mean_virtual_temperature_K = 0.0; // > 0
    double gravity_ms2 =
        kStandardGravity_ms2; // > 0; that of the place gives metres, the standard one geopotential metres
};

/// Height of the column: dz = (R Tv / g) ln(p_lower / p_upper) (hypsometric equation; US Standard Atmosphere 1976,
/// equation 33b for one layer of even temperature). Refuses values that are not finite or not above zero
/// (`levels.air_column_impossible`). Accuracy: with the mean of the temperatures at both ends of a column of 1000 m
/// with an even lapse rate 0.01 %; the temperature is what limits it.
[[nodiscard]] Expected<double> column_height_m(const AirColumn& column);

} // namespace rillmark
