// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "expected.h"

#include <cstdint>

namespace rillmark {

/// How a conductivity is brought to 25 degC.
enum class ConductivityCorrection : std::uint8_t {
    AsRead,    // the probe does it, or the calibration was made at the temperature of the stream
    Linear,    // EC / (1 + alpha (T - 25))
    NonLinear, // EC f25(T), for natural waters
};

// Richardson, Sentlinger, Moore & Zimmermann 2017, Confluence 1(2), equation 1: usual for NaCl; 0.019 to 0.021 occur.
inline constexpr double kSaltAlpha_per_K = 0.02;

/// The factor that brings the conductivity of a natural water to 25 degC, by its temperature: 1.918 at 0, 1 at 25 degC.
///
/// Linear between the whole degrees of the table. @param temperature_degC 0 to 35
/// Source: ISO 7888:1985 / EN 27888, table of correction factors, as reproduced in a conductivity meter's manual.
/// Accuracy: 3 decimals. Refuses other temperatures (`flow.bad_water_temperature`).
[[nodiscard]] Expected<double> natural_water_f25(double temperature_degC);

/// Conductivity at 25 degC.
///
/// @param ec_Sm 0 to 20 S/m
/// @param temperature_degC 0 to 35; not looked at for AsRead
/// @param alpha_per_K 0.015 to 0.025; looked at for Linear only
/// The linear form divides: to multiply instead is a common error (70 for 143 at 10 degC). Near 0 degC the two forms
/// differ by 4 %, and the non-linear one is to be preferred (Richardson and others 2017).
/// Refuses what is out of range (`flow.bad_conductivity`, `flow.bad_water_temperature`, `flow.bad_option`).
[[nodiscard]] Expected<double> conductivity_at_25(double ec_Sm, double temperature_degC,
                                                  ConductivityCorrection correction,
                                                  double alpha_per_K = kSaltAlpha_per_K);

} // namespace rillmark
