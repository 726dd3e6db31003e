// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "expected.h"

namespace rillmark {

/// Specific speed in the systems in use: a number means nothing without its system.
struct SpecificSpeed {
    double ns_kW = 0.0; // N sqrt(P)/H^1.25, rpm, kW, m: the one meant where nothing else is said
    double ns_hp = 0.0; // the same with metric horsepower
    double ns_us = 0.0; // rpm, horsepower, ft
    double nq = 0.0;    // N sqrt(Q)/H^0.75, rpm, m3/s, m
    double nqe = 0.0;   // n sqrt(Q)/(g H)^0.75, 1/s, m3/s, J/kg
};

/// One runner, or one jet of an impulse wheel, which is how these numbers are counted.
struct TurbinePoint {
    double speed_rpm = 0.0;     // > 0
    double net_head_m = 0.0;    // > 0
    double flow_m3s = 0.0;      // > 0
    double power_W = 0.0;       // at the shaft, > 0
    double gravity_ms2 = 0.0;   // > 0
};
/// Specific speed of a point. Definitions, exact. Refuses what is not above zero (`power.not_positive`) or not finite.
[[nodiscard]] Expected<SpecificSpeed> specific_speed(const TurbinePoint& point);
/// The speed (rpm) that gives a specific speed (rpm, kW, m). Refuses as specific_speed.
[[nodiscard]] Expected<double> speed_for_specific_rpm(double ns_kW, double power_W, double net_head_m);
/// The specific speed in rpm, horsepower and ft of one in rpm, kW and m.
[[nodiscard]] double us_specific_speed(double ns_kW);

/// The same machine at another head: speed and flow go with H^0.5, power with H^1.5 (similarity; efficiency taken as the
/// same). Refuses as specific_speed.
[[nodiscard]] Expected<TurbinePoint> at_another_head(const TurbinePoint& point, double net_head_m);

/// Speed of a generator without gear: 120 f / poles. Refuses a frequency that is not above zero and poles that are not an
/// even number from 2 (`power.bad_poles`).
[[nodiscard]] Expected<double> synchronous_rpm(double frequency_Hz, int poles);

} // namespace rillmark
