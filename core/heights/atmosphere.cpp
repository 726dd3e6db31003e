// SPDX-License-Identifier: GPL-3.0-or-later
#include "heights/atmosphere.h"

#include "units/in_range.h"

#include <cmath>

namespace rillmark {

namespace {

// US Standard Atmosphere 1976, equation 18.
constexpr double kEffectiveEarthRadius_m = 6356766.0;
constexpr double kPressureExponent =
    kStandardGravity_ms2 * kMolarMassOfAir_kg_per_mol / (kGasConstant_J_per_mol_K * kStandardLapse_K_per_m);

// WMO-No. 8, annex 4.B (from memory, unconfirmed).
constexpr double kMagnusPressure_Pa = 611.2;
constexpr double kMagnusFactor = 17.62;
constexpr double kMagnusOffset_C = 243.12;
// Molar mass of water over that of dry air, 18.015 / 28.964.
constexpr double kMassRatioOfVapour = 0.622;

double pressure_at(double height_m) {
    return kStandardPressure_Pa *
           std::pow(standard_temperature_K(height_m) / kStandardTemperature_K, kPressureExponent);
}

} // namespace

double geopotential_height_m(double geometric_height_m) {
    return kEffectiveEarthRadius_m * geometric_height_m / (kEffectiveEarthRadius_m + geometric_height_m);
}

double standard_temperature_K(double geopotential_height_m) {
    return kStandardTemperature_K - kStandardLapse_K_per_m * geopotential_height_m;
}

Expected<double> standard_pressure_Pa(double geopotential_height_m) {
    if (!in_range(geopotential_height_m, kStandardLowest_m, kStandardHighest_m))
        return refusal("levels.standard_height_out_of_range", {},
                       {{"height", geopotential_height_m, Quantity::Length},
                        {"lowest", kStandardLowest_m, Quantity::Length},
                        {"highest", kStandardHighest_m, Quantity::Length}});
    return pressure_at(geopotential_height_m);
}

Expected<double> standard_height_m(double pressure_Pa) {
    const double lowest_Pa = pressure_at(kStandardHighest_m);
    const double highest_Pa = pressure_at(kStandardLowest_m);
    if (!in_range(pressure_Pa, lowest_Pa, highest_Pa))
        return refusal("levels.standard_pressure_out_of_range", {},
                       {{"pressure", pressure_Pa, Quantity::Pressure},
                        {"lowest", lowest_Pa, Quantity::Pressure},
                        {"highest", highest_Pa, Quantity::Pressure}});
    return kStandardTemperature_K / kStandardLapse_K_per_m *
           (1.0 - std::pow(pressure_Pa / kStandardPressure_Pa, 1.0 / kPressureExponent));
}

double saturation_vapour_pressure_Pa(double temperature_C) {
    return kMagnusPressure_Pa * std::exp(kMagnusFactor * temperature_C / (kMagnusOffset_C + temperature_C));
}

Expected<double> virtual_temperature_K(const AirState& air) {
    if (!in_range(air.temperature_C, kColdestAir_C, kWarmestAir_C))
        return refusal("levels.air_impossible", "temperature_C");
    if (!in_range(air.relative_humidity, 0.0, 1.0))
        return refusal("levels.air_impossible", "relative_humidity");
    if (!in_range(air.pressure_Pa, kLowestLandPressure_Pa, kHighestLandPressure_Pa))
        return refusal("levels.air_impossible", "pressure_Pa");
    const double vapour_Pa = air.relative_humidity * saturation_vapour_pressure_Pa(air.temperature_C);
    return (air.temperature_C + kZeroCelsius_K) / (1.0 - (1.0 - kMassRatioOfVapour) * vapour_Pa / air.pressure_Pa);
}

Expected<double> column_height_m(const AirColumn& column) {
    for (const double value :
         {column.lower_pressure_Pa, column.upper_pressure_Pa, column.mean_virtual_temperature_K, column.gravity_ms2})
        if (!std::isfinite(value) || value <= 0.0)
            return refusal("levels.air_column_impossible", {}, {{"value", value}});
    return kGasConstantOfDryAir_J_per_kg_K * column.mean_virtual_temperature_K / column.gravity_ms2 *
           std::log(column.lower_pressure_Pa / column.upper_pressure_Pa);
}

} // namespace rillmark
