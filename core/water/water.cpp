// SPDX-License-Identifier: GPL-3.0-or-later
#include "water/water.h"

#include <cmath>

namespace rillmark {

namespace {

// Tanaka et al. 2001, equation 1.
constexpr double kTanakaA1 = -3.983035;  // degC
constexpr double kTanakaA2 = 301.797;    // degC
constexpr double kTanakaA3 = 522528.9;   // degC^2
constexpr double kTanakaA4 = 69.34881;   // degC
constexpr double kTanakaA5 = 999.974950; // kg/m3

// Kestin, Sokolov, Wakeham 1978, with their reference value at 20 degC.
constexpr double kViscosityAt20_Pas = 1.002e-3;
constexpr double kKestinReference_C = 20.0;
constexpr double kKestinPole_C = 96.0;
constexpr double kKestinC0 = 1.2364;
constexpr double kKestinC1 = -1.37e-3;
constexpr double kKestinC2 = 5.7e-6;

Expected<void> check_range(double temperature_C) {
    if (!std::isfinite(temperature_C))
        return refusal("uncertainty.not_finite", "power.water_temperature");
    if (temperature_C < kWaterTemperatureMin_C || temperature_C > kWaterTemperatureMax_C)
        return refusal("power.water_temperature_out_of_range", "power.water_temperature",
                       {{"temperature", temperature_C, Quantity::Temperature},
                        {"lowest", kWaterTemperatureMin_C, Quantity::Temperature},
                        {"highest", kWaterTemperatureMax_C, Quantity::Temperature}});
    return {};
}

double density(double t) {
    return kTanakaA5 * (1.0 - (t + kTanakaA1) * (t + kTanakaA1) * (t + kTanakaA2) / (kTanakaA3 * (t + kTanakaA4)));
}

double dynamic_viscosity(double t) {
    const double below = kKestinReference_C - t;
    const double exponent = below / (t + kKestinPole_C) * (kKestinC0 + kKestinC1 * below + kKestinC2 * below * below);
    return kViscosityAt20_Pas * std::pow(10.0, exponent);
}

} // namespace

Expected<double> water_density_kgm3(double temperature_C) {
    if (const Expected<void> range = check_range(temperature_C); !range)
        return range.error();
    return density(temperature_C);
}

Expected<double> water_dynamic_viscosity_Pas(double temperature_C) {
    if (const Expected<void> range = check_range(temperature_C); !range)
        return range.error();
    return dynamic_viscosity(temperature_C);
}

Expected<double> water_kinematic_viscosity_m2s(double temperature_C) {
    if (const Expected<void> range = check_range(temperature_C); !range)
        return range.error();
    return dynamic_viscosity(temperature_C) / density(temperature_C);
}

} // namespace rillmark
