// SPDX-License-Identifier: GPL-3.0-or-later
#include "power/specific_speed.h"

#include "power/input_checks.h"
#include "units/constants.h"
#include "units/units.h"

#include <cmath>

namespace rillmark {

namespace {

constexpr double kKilowatt_W = 1000.0;
// Metric horsepower, 75 kgf m/s (definition).
constexpr double kMetricHorsepower_W = 75.0 * 9.80665;
constexpr double kPolePairSeconds = 120.0;

double ns(double speed_rpm, double power, double head) {
    return speed_rpm * std::sqrt(power) / std::pow(head, 1.25);
}

Expected<void> check_point(const TurbinePoint& point) {
    return first_refusal(check_positive("power.turbine_speed", point.speed_rpm),
                         check_positive("power.net_head", point.net_head_m, Quantity::Length),
                         check_positive("power.flow", point.flow_m3s, Quantity::Discharge),
                         check_positive("power.shaft_power", point.power_W, Quantity::Power),
                         check_positive("power.gravity", point.gravity_ms2));
}

} // namespace

double us_specific_speed(double ns_kW) {
    const double horsepower_W = to_si(*find_unit(Quantity::Power, "hp"), 1.0);
    const double foot_m = to_si(*find_unit(Quantity::Length, "ft"), 1.0);
    return ns_kW * std::sqrt(kKilowatt_W / horsepower_W) * std::pow(foot_m, 1.25);
}

Expected<SpecificSpeed> specific_speed(const TurbinePoint& point) {
    if (const Expected<void> check = check_point(point); !check)
        return check.error();
    SpecificSpeed result;
    result.ns_kW = ns(point.speed_rpm, point.power_W / kKilowatt_W, point.net_head_m);
    result.ns_hp = ns(point.speed_rpm, point.power_W / kMetricHorsepower_W, point.net_head_m);
    result.ns_us = us_specific_speed(result.ns_kW);
    result.nq = point.speed_rpm * std::sqrt(point.flow_m3s) / std::pow(point.net_head_m, 0.75);
    result.nqe = result.nq / kSecondsPerMinute / std::pow(point.gravity_ms2, 0.75);
    if (!std::isfinite(result.ns_kW) || !std::isfinite(result.nq))
        return refusal("uncertainty.not_finite", "power.specific_speed");
    return result;
}

Expected<double> speed_for_specific_rpm(double ns_kW, double power_W, double net_head_m) {
    if (const Expected<void> check = first_refusal(check_positive("power.specific_speed", ns_kW),
                                                   check_positive("power.shaft_power", power_W, Quantity::Power),
                                                   check_positive("power.net_head", net_head_m, Quantity::Length));
        !check)
        return check.error();
    return ns_kW / ns(1.0, power_W / kKilowatt_W, net_head_m);
}

Expected<TurbinePoint> at_another_head(const TurbinePoint& point, double net_head_m) {
    if (const Expected<void> check =
            first_refusal(check_point(point), check_positive("power.net_head", net_head_m, Quantity::Length));
        !check)
        return check.error();
    const double ratio = net_head_m / point.net_head_m;
    TurbinePoint other = point;
    other.net_head_m = net_head_m;
    other.speed_rpm *= std::sqrt(ratio);
    other.flow_m3s *= std::sqrt(ratio);
    other.power_W *= ratio * std::sqrt(ratio);
    return other;
}

Expected<double> synchronous_rpm(double frequency_Hz, int poles) {
    if (const Expected<void> check = check_positive("power.frequency", frequency_Hz); !check)
        return check.error();
    if (poles < 2 || poles % 2 != 0)
        return refusal("power.bad_poles", "power.frequency");
    return kPolePairSeconds * frequency_Hz / poles;
}

} // namespace rillmark
