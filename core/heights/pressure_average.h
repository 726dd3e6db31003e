// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "expected.h"
#include "uncertainty/estimate.h"

#include <cstddef>
#include <optional>
#include <span>

namespace rillmark {

/// One reading of a barometer.
struct PressureSample {
    double time_s = 0.0;                 // any steady clock
    double pressure_pa = 0.0;            // kLowestPressure_pa..kHighestPressure_pa
    std::optional<double> temperature_c; // of the sensor, not of the air
};

/// What barometers of phones are made for (from memory, unconfirmed); the ground lies within it from below sea level
/// to about 9000 m.
inline constexpr double kLowestPressure_pa = 30000.0;
inline constexpr double kHighestPressure_pa = 110000.0;
/// Short-term noise (standard deviation) of a phone's barometer as makers claim it, the larger of what was met: 0.2 to
/// 3 Pa (from memory, unconfirmed). 3 Pa are 0.25 m of height.
inline constexpr double kPressureNoise_pa = 3.0;
/// Shorter is remarked upon: gusts last some seconds (common practice, no source).
inline constexpr double kAdvisedPressureTime_s = 30.0;
/// Standard deviation above which the device was carried up or down, or the wind blew into it: 10 Pa, about 0.85 m
/// (common practice, no source).
inline constexpr double kPressureScatterLimit_pa = 10.0;

/// The pressure at one point.
struct AveragedPressure {
    Estimate pressure_pa;
    double scatter_pa = 0.0;  // standard deviation of the single readings
    double seconds = 0.0;     // from the first reading to the last
    double effective_n = 1.0; // independent readings (serial_mean.h)
    std::size_t n = 0;
    std::optional<double> temperature_c; // mean of those given: of the sensor, never to be used for the air
    Findings findings;
};

/// Averages the readings taken at one point, in the order taken at an even rate.
///
/// Uncertainty: the scatter, neighbours taken as alike (serial_mean.h), and never below `noise_pa`, the short-term
/// noise that the sensor claims for one reading: phones smooth and round before they hand out a reading, so a scatter
/// of nothing is the filter's and not the air's, and noise that is slower than the reading does not average out. Choice
/// taken: max of the two, not their quadratic sum, for the scatter already holds the noise.
/// Not in it: the sensor's offset (it falls out of a difference taken with one device), its drift with temperature and
/// the weather between two points.
///
/// @param noise_pa  standard deviation, above 0, up to 1000 Pa
/// Warns of a scatter above kPressureScatterLimit_pa (`levels.pressure_unsteady`); notes less than
/// kAdvisedPressureTime_s (`levels.pressure_short`).
/// Refuses: no reading (`levels.pressure_too_few`), a pressure outside the limits above
/// (`levels.pressure_out_of_range`), a time or temperature that is not finite, times that run backwards
/// (`levels.pressure_bad_reading`), a noise out of range (`levels.pressure_bad_noise`).
[[nodiscard]] Expected<AveragedPressure> average_pressure(std::span<const PressureSample> samples,
                                                          double noise_pa = kPressureNoise_pa);

} // namespace rillmark
