// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "heights/barometer.h"

#include <algorithm>
#include <limits>
#include <string>
#include <vector>

namespace rillmark::barometer_fixtures {

inline constexpr double kNaN = std::numeric_limits<double>::quiet_NaN();
inline constexpr double kInfinity = std::numeric_limits<double>::infinity();
inline constexpr double kMinute_s = 60.0;

/// Minutes and hPa, in dry air where a temperature is given.
inline BarometerReading at(const std::string& point, double minutes, double pressure_hPa,
                           std::optional<double> temperature_C = {}) {
    BarometerReading reading;
    reading.point = point;
    reading.time_s = kMinute_s * minutes;
    reading.pressure_Pa = 100.0 * pressure_hPa;
    reading.temperature_C = temperature_C;
    if (temperature_C)
        reading.relative_humidity = 0.0;
    return reading;
}

inline const Finding* find_code(const Findings& findings, const std::string& code) {
    const auto hit = std::ranges::find(findings, code, &Finding::code);
    return hit == findings.end() ? nullptr : &*hit;
}

inline double number(const Finding& finding, const std::string& name) {
    const auto hit = std::ranges::find(finding.args, name, &Arg::name);
    if (hit == finding.args.end())
        return kNaN;
    if (const auto* whole = std::get_if<std::int64_t>(&hit->value))
        return static_cast<double>(*whole);
    const auto* real = std::get_if<double>(&hit->value);
    return real == nullptr ? kNaN : *real;
}

/// Sum of the effects whose source it is.
inline double effect(const MeasuredRise& rise, const std::string& source) {
    double sum_m = 0.0;
    for (const SharedEffect& one : rise.shared)
        if (one.source == source)
            sum_m += one.effect_m;
    return sum_m;
}

} // namespace rillmark::barometer_fixtures
