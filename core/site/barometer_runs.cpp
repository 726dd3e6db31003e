// SPDX-License-Identifier: GPL-3.0-or-later
#include "site/barometer_runs.h"

#include "heights/barometer.h"
#include "site/height_runs.h"
#include "units/iso_time.h"

namespace rillmark {

namespace {

BarometerReading reading_of(const HeightReadingRow& row) {
    BarometerReading reading;
    reading.id = row.id;
    reading.point = reading_node(row, false);
    reading.time_s = seconds_of_utc(row.observed_at).value_or(0.0);
    reading.pressure_Pa = row.pressure_Pa.value_or(0.0);
    reading.temperature_C = row.temperature_C;
    reading.relative_humidity = row.humidity;
    return reading;
}

} // namespace

std::vector<PressureRise> pressure_rises(const Survey& survey, const HeightRunRow& run,
                                         const std::vector<HeightReadingRow>& readings, HeightMethod method, Findings& findings) {
    std::vector<BarometerReading> base;
    std::vector<BarometerReading> rover;
    for (const HeightReadingRow& row : readings)
        (method == HeightMethod::BaseAndRover && row.role != "base" ? rover : base).push_back(reading_of(row));

    BarometerOptions options;
    options.series = std::to_string(run.id);
    options.base = run.station_id ? "s" + std::to_string(*run.station_id) : reading_node(readings.front(), false);
    if (run.pressure_u_Pa)
        options.noise_Pa = *run.pressure_u_Pa;
    if (const StationRow* intake = survey.first_of_kind("intake"); intake != nullptr)
        options.latitude_deg = intake->latitude_deg;

    const Expected<BarometerSurvey> heights = method == HeightMethod::BaseAndRover
                                                  ? barometer_base_and_rover(base, rover, options)
                                                  : barometer_with_returns(base, options);
    if (!heights) {
        findings.push_back(heights.error());
        findings.back().severity = Severity::Warning;
        return {};
    }
    findings.insert(findings.end(), heights->findings.begin(), heights->findings.end());
    std::vector<PressureRise> rises;
    for (const BarometerRise& one : heights->rises) {
        findings.insert(findings.end(), one.rise.findings.begin(), one.rise.findings.end());
        rises.push_back({one.id, heights->base, one.point, one.rise});
    }
    return rises;
}

} // namespace rillmark
