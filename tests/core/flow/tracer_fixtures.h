// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "checks/checks.h"
#include "flow/salt_trace.h"
#include "flow_fixtures.h"

#include <cmath>
#include <string>
#include <vector>

namespace rillmark::tracer_fixtures {

using flow_fixtures::find_code;
using flow_fixtures::has_code;
using flow_fixtures::kInfinity;
using flow_fixtures::kNaN;
using flow_fixtures::number_arg;

inline constexpr double kMicro = 1e-4;  // uS/cm in S/m, the SI of a check's figures
inline constexpr double kMilli = 1e-3;  // mg/L in kg/m3, mL in L, L in m3
inline constexpr double kFactor = 10.0; // mg/L per uS/cm in (kg/m3)/(S/m)

inline nlohmann::json check(const std::string& id) {
    return checks::entry("flow_tracer", id);
}

/// The two columns of a table of tests/files, its comments and header left out.
inline std::vector<std::pair<double, double>> file_columns(const std::string& name) {
    std::ifstream file(std::string(RILLMARK_SOURCE_DIR) + "/tests/files/" + name);
    std::vector<std::pair<double, double>> rows;
    for (std::string line; std::getline(file, line);)
        if (!line.empty() && (std::isdigit(static_cast<unsigned char>(line[0])) != 0))
            rows.emplace_back(std::stod(line), std::stod(line.substr(line.find(',') + 1)));
    return rows;
}

/// A cloud of salt over time with the area 1: it rises fast and falls slowly.
inline double cloud(double t, double tau) {
    return t <= 0.0 ? 0.0 : t / (tau * tau) * std::exp(-t / tau);
}

struct CloudTrace {
    double area_Ss_m = 0.3; // of the salt
    double background_Sm = 0.01;
    double drift_Sm = 0.0; // over the whole trace, a straight line
    double tau_s = 20.0;
    double arrives_s = 60.0;
    double length_s = 600.0;
    double step_s = 1.0;
};

inline std::vector<TraceReading> readings_of(const CloudTrace& c) {
    std::vector<TraceReading> readings;
    for (double t = 0.0; t <= c.length_s; t += c.step_s)
        readings.push_back(
            {t,
             c.background_Sm + c.drift_Sm * t / c.length_s + c.area_Ss_m * cloud(t - c.arrives_s, c.tau_s),
             {},
             false});
    return readings;
}

inline PreparedTrace prepared(const std::vector<TraceReading>& readings, const TraceOptions& options = {}) {
    const Expected<PreparedTrace> trace = prepare_trace(readings, options);
    EXPECT_TRUE(trace.ok()) << (trace ? "" : trace.error().code);
    return trace.value_or({});
}

inline TraceIntegral integrated(const PreparedTrace& trace, const TraceWindows& windows) {
    const Expected<TraceIntegral> integral = integrate_trace(trace, windows);
    EXPECT_TRUE(integral.ok()) << (integral ? "" : integral.error().code);
    return integral.value_or({});
}

} // namespace rillmark::tracer_fixtures
