// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "finding.h"
#include "flow/velocity_area.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <limits>
#include <string>
#include <vector>

namespace rillmark::flow_fixtures {

inline constexpr double kNaN = std::numeric_limits<double>::quiet_NaN();
inline constexpr double kInfinity = std::numeric_limits<double>::infinity();

inline const Finding* find_code(const Findings& findings, const std::string& code) {
    const auto hit = std::ranges::find(findings, code, &Finding::code);
    return hit == findings.end() ? nullptr : &*hit;
}

inline bool has_code(const Findings& findings, const std::string& code) {
    return find_code(findings, code) != nullptr;
}

inline double number_arg(const Finding& finding, const std::string& name) {
    const auto hit = std::ranges::find(finding.args, name, &Arg::name);
    if (hit == finding.args.end())
        return kNaN;
    if (const auto* whole = std::get_if<std::int64_t>(&hit->value))
        return static_cast<double>(*whole);
    return std::get<double>(hit->value);
}

inline PointReading at_fraction(double fraction, double velocity_ms, double time_s = 60.0) {
    PointReading reading;
    reading.depth_fraction = fraction;
    reading.velocity_ms = velocity_ms;
    reading.time_s = time_s;
    return reading;
}

inline Vertical one_point(double distance_m, double depth_m, double velocity_ms) {
    Vertical vertical;
    vertical.distance_m = distance_m;
    vertical.depth_m = depth_m;
    vertical.points = {at_fraction(0.6, velocity_ms)};
    return vertical;
}

inline Vertical bank(double distance_m, double depth_m = 0.0) {
    Vertical vertical;
    vertical.distance_m = distance_m;
    vertical.depth_m = depth_m;
    vertical.edge = depth_m > 0.0 ? BankEdge::Vertical : BankEdge::Sloping;
    return vertical;
}

/// A creek 4 m wide between sloping banks, with 15 inner verticals: nothing in it to warn of but its velocity jumps.
inline std::vector<Vertical> creek() {
    std::vector<Vertical> verticals{bank(0.0)};
    for (int i = 1; i < 16; ++i) {
        const double x = i / 16.0;
        verticals.push_back(one_point(4.0 * x, 1.2 * x * (1.0 - x) + 0.1, 0.2 + 1.2 * x * (1.0 - x)));
    }
    verticals.push_back(bank(4.0));
    for (std::size_t i = 0; i < verticals.size(); ++i)
        verticals[i].id = static_cast<std::int64_t>(100 + i);
    return verticals;
}

} // namespace rillmark::flow_fixtures
