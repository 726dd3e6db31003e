// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "expected.h"
#include "heights/measured_rise.h"
#include "uncertainty/estimate.h"

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace rillmark {

/// One reading of a barometer. It must be the pressure of the place, not one reduced to the level of the sea.
struct BarometerReading {
    std::int64_t id = 0;
    std::string point;
    double time_s = 0.0;                     // of any clock that runs on through the survey
    double pressure_Pa = 0.0;                // kLowestLandPressure_Pa .. kHighestLandPressure_Pa (atmosphere.h)
    std::optional<double> temperature_C;     // of the air in the shade, -60..60
    std::optional<double> relative_humidity; // 0..1
    bool struck = false;                     // struck out: stays legible, is not used
};

// Noise of one reading against others of the hour: small sensors are sold with 0.12 hPa (from memory, unconfirmed).
inline constexpr double kBarometerNoise_Pa = 12.0;
// Two such sensors against each other where nobody compared them: 1 hPa each as a limit, so 0.6 hPa standard (from
// memory, unconfirmed).
inline constexpr double kBarometerAbsolute_u_Pa = 60.0;
// By how much the pressure may change where there was no return: 1 hPa per hour is usual before a front.
inline constexpr double kOpenTendency_Pa_per_s = 100.0 / 3600.0;
// By how much the tendency may differ from its mean between two visits in steady weather (common practice, no source;
// the daily tide of the tropics gives that over an hour).
inline constexpr double kSteadyTendency_Pa_per_s = 30.0 / 3600.0;
// Drift of a loop that is warned of, the same 1 hPa per hour.
inline constexpr double kLargeDrift_Pa_per_s = 100.0 / 3600.0;
// Loop that is remarked upon (common practice, no source).
inline constexpr double kLongLoop_s = 7200.0;
// Mean of the air between two points from thermometers at its ends, in shade (common practice, no source).
inline constexpr double kAirTemperature_u_K = 2.0;
// Standard atmosphere in place of a thermometer: the tropics are 10 K warmer, frost 20 K colder (common practice, no
// source).
inline constexpr double kAssumedTemperature_u_K = 10.0;
// Humidity that nobody read: between 20 and 100 %, rectangular (GUM 4.3.7). Our choice, no source.
inline constexpr double kAssumedHumidity = 0.6;
inline constexpr double kAssumedHumidity_u = 0.23;
// Gravity at 45 degrees for any latitude: 0.27 % either way, rectangular (Somigliana's formula, see gravity.h).
inline constexpr double kAssumedGravity_u_rel = 0.0015;
// A log with longer gaps is warned of; beyond its ends readings are used this far (our choice, no source).
inline constexpr double kLongestLogGap_s = 1800.0;
inline constexpr double kBeyondLog_s = 600.0;
// Two instruments that show the pressure of the place differ less; one reduced to the level of the sea differs more
// (our choice, no source).
inline constexpr double kLargestOffset_Pa = 500.0;

struct BarometerOptions {
    std::optional<std::string> base; // its point; default: of the first reading
    std::string series; // one name a survey and instrument, so that shared effects of two surveys do not meet
    double noise_Pa = kBarometerNoise_Pa;                       // standard uncertainty of one reading, 0.1 to 1000
    double resolution_Pa = 0.0;                                 // last digit, 0 to 1000; adds resolution / sqrt(12)
    double temperature_u_K = kAirTemperature_u_K;               // 0 to 30
    double steady_tendency_Pa_per_s = kSteadyTendency_Pa_per_s; // standard uncertainties, 0 to 1
    double open_tendency_Pa_per_s = kOpenTendency_Pa_per_s;
    std::optional<double> latitude_deg; // for gravity, -90..90
};

/// A point above the base, from one reading.
struct BarometerRise {
    std::int64_t id = 0; // of the reading
    std::string point;
    double time_s = 0.0;
    MeasuredRise rise; // H(point) - H(base)
};

/// What the pressure at the base did between two visits that have readings between them.
struct BarometerDrift {
    double from_s = 0.0;
    double to_s = 0.0;
    double change_Pa = 0.0;
};

/// Another barometer minus that of the base, at the same place.
struct BarometerOffset {
    Estimate offset_Pa;
    std::size_t readings = 0;
    double change_Pa = 0.0; // last minus first
};

struct BarometerSurvey {
    std::string base;
    std::vector<BarometerRise> rises;      // in the order of the readings; those at the base are left out
    std::vector<BarometerDrift> drift;     // one instrument only
    std::optional<BarometerOffset> offset; // two instruments only, where they were compared
    Findings findings;
};

/// One barometer carried from the base to the points and back.
///
/// The pressure at the base at the time of a reading is shared out linearly in time between the visits before and
/// after; then rise = (R Tv / g) ln(p_base / p), column_height_m(). Tv is the mean of the virtual temperatures at the
/// base (shared out alike) and at the point, of one of them where the other has none, of the standard atmosphere where
/// neither has. g is that of the latitude and of the standard height of the pressure.
///
/// Uncertainty. Random: noise and resolution of the reading. Shared effects: each visit to the base
/// ("barometer-base:<series>:<visit>", its noise); between two visits t1 before and t2 after the reading a tendency
/// that was not even, r t1 t2 / (t1 + t2) ("barometer-drift:..."), r the larger of steady_tendency and of the drift
/// seen beyond the noise; before the first and after the last visit r t with open_tendency (the same formula with t2
/// endless); the air temperature with the humidity ("air-temperature:<series>"); gravity where there is no latitude
/// ("gravity"). Not in it: wind, doors, a sensor in a warm pocket, an instrument that creeps.
///
/// Warns: `levels.barometer_no_return`, `levels.barometer_drift_large`, `levels.barometer_no_temperature` and, of one
/// rise, `levels.barometer_rise_unsure` (less than its own plus-minus); notes `levels.barometer_loop_long`.
/// Refuses: nothing read (`levels.barometer_no_readings`), a point without name (`levels.point_unnamed`), times that
/// run back (`levels.clock_midnight` where it looks so, else `levels.clock_backwards`), `levels.time_impossible`,
/// `levels.pressure_impossible`, `levels.air_temperature_impossible`, `levels.humidity_impossible`, no reading at the
/// base
/// (`levels.barometer_base_missing`) or elsewhere (`levels.barometer_no_points`), `levels.barometer_option_impossible`.
/// Argument `row` counts the readings from 1, struck ones too.
[[nodiscard]] Expected<BarometerSurvey> barometer_with_returns(const std::vector<BarometerReading>& readings,
                                                               const BarometerOptions& options = {});

/// A barometer that logs at the base and another that is carried.
///
/// As above, the log being the visits. Rover readings at the base's point compare the two instruments; their mean
/// offset is taken off (shared effect "barometer-offset:<series>"). Without one the offset is unknown, with sqrt(2)
/// kBarometerAbsolute_u_Pa (`levels.barometer_offset_unknown`). A reading between two of the log further apart than
/// kLongestLogGap_s is used and warned of (`levels.base_log_gap`), as is one up to kBeyondLog_s before or after the log
/// (`levels.base_log_short`); one further out is left out
/// (`levels.reading_beyond_base_log`).
/// Warns of two instruments that came apart (`levels.barometers_apart`) or differ by more than kLargestOffset_Pa
/// (`levels.barometer_offset_large`). Refuses as above, `where` of the base log
/// beginning with "base."; and where no reading is left (`levels.barometer_no_points`). The base's point is
/// options.base, else that of the log.
[[nodiscard]] Expected<BarometerSurvey> barometer_base_and_rover(const std::vector<BarometerReading>& base_log,
                                                                 const std::vector<BarometerReading>& rover,
                                                                 const BarometerOptions& options = {});

/// Two barometers at one place: mean and standard uncertainty (the larger of scatter and noise, over sqrt(n)) of other
/// minus base, the base shared out in time. Readings of the other beyond the ends of the log are not used.
/// Refuses as above, and where nothing is common (`levels.barometers_nothing_common`). Points are not looked at.
[[nodiscard]] Expected<BarometerOffset> compare_barometers(const std::vector<BarometerReading>& base_log,
                                                           const std::vector<BarometerReading>& other,
                                                           const BarometerOptions& options = {});

} // namespace rillmark
