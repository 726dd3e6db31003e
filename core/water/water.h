// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "expected.h"

namespace rillmark {

// Range of all functions here, in degC: that of both sources. Outside it they refuse with
// `power.water_temperature_out_of_range`; not finite is refused with `uncertainty.not_finite`.
inline constexpr double kWaterTemperatureMin_C = 0.0;
inline constexpr double kWaterTemperatureMax_C = 40.0;

/// Density of air-free fresh water at 101 325 Pa, kg/m3, from its temperature (0..40 degC).
/// Source: M. Tanaka et al., Recommended table for the density of water, Metrologia 38 (2001) 301-309.
/// Accuracy: 0.001 kg/m3; air-saturated water is some 0.003 kg/m3 lighter (Jones and Harris, J. Res. NIST 97, 1992,
/// 335), silt makes it heavier; neither is included.
[[nodiscard]] Expected<double> water_density_kgm3(double temperature_C);

/// Dynamic viscosity of water, Pa s, from its temperature (0..40 degC).
/// Source: J. Kestin, M. Sokolov, W. A. Wakeham, Viscosity of liquid water in the range -8 to 150 degC,
/// J. Phys. Chem. Ref. Data 7 (1978) 941; constants from memory, confirmed by a table of values. Accuracy: 0.3 %.
[[nodiscard]] Expected<double> water_dynamic_viscosity_Pas(double temperature_C);

/// Kinematic viscosity of water, m2/s: dynamic viscosity divided by density, same range.
[[nodiscard]] Expected<double> water_kinematic_viscosity_m2s(double temperature_C);

} // namespace rillmark
