// SPDX-License-Identifier: GPL-3.0-or-later
#include "power/pipe_laying.h"

#include "power/input_checks.h"
#include "units/units.h"

#include <cmath>
#include <numbers>

namespace rillmark {

Expected<double> bend_thrust_N(double pressure_Pa, double outside_m, double angle_rad) {
    if (!std::isfinite(angle_rad))
        return refusal("uncertainty.not_finite", "power.bend_angle");
    if (angle_rad < 0.0 || angle_rad > std::numbers::pi)
        return refusal("power.bend_out_of_range", "power.bend_angle",
                       {{"angle", angle_rad, Quantity::Angle}, {"highest", std::numbers::pi, Quantity::Angle}});
    const Expected<double> end = end_thrust_N(pressure_Pa, outside_m);
    if (!end)
        return end.error();
    return 2.0 * *end * std::sin(angle_rad / 2.0);
}

Expected<double> end_thrust_N(double pressure_Pa, double outside_m) {
    if (const Expected<void> check =
            first_refusal(check_not_negative("power.pressure", pressure_Pa, Quantity::Pressure),
                          check_positive("power.outside", outside_m, Quantity::Bore));
        !check)
        return check.error();
    return pressure_Pa * std::numbers::pi / 4.0 * outside_m * outside_m;
}

Expected<double> block_area_m2(double thrust_N, double soil_bearing_Pa) {
    if (const Expected<void> check =
            first_refusal(check_not_negative("power.thrust", thrust_N),
                          check_positive("power.soil_bearing", soil_bearing_Pa, Quantity::Pressure));
        !check)
        return check.error();
    return kThrustSafetyFactor * thrust_N / soil_bearing_Pa;
}

Expected<double> draining_air_m3s(double slope, double bore_m) {
    if (const Expected<void> check = first_refusal(check_positive("power.pipe_slope", slope, Quantity::Slope),
                                                   check_positive("power.bore", bore_m, Quantity::Bore));
        !check)
        return check.error();
    if (slope > 1.0)
        return refusal("power.pipe_slope_out_of_range", "power.pipe_slope", {{"value", slope, Quantity::Slope}});
    // The formula in its own units, see the header.
    constexpr double kCoefficient = 0.0007872 * 110.0;
    const double bore_in = from_si(find_unit(Quantity::Bore, "in").value(), bore_m);
    return to_si(find_unit(Quantity::Discharge, "cfs").value(),
                 kCoefficient * std::sqrt(slope * std::pow(bore_in, 5.0)));
}

Expected<double> least_cover_m(double outside_m) {
    if (const Expected<void> check = check_positive("power.outside", outside_m, Quantity::Bore); !check)
        return check.error();
    // inches of pipe and of cover, see the header
    constexpr double kSmall = 2.5, kMiddle = 5.0;
    constexpr double kCoverSmall = 18.0, kCoverMiddle = 24.0, kCoverLarge = 30.0;
    const double outside_in = from_si(find_unit(Quantity::Bore, "in").value(), outside_m);
    const double cover_in = outside_in <= kSmall ? kCoverSmall : outside_in <= kMiddle ? kCoverMiddle : kCoverLarge;
    return to_si(find_unit(Quantity::Length, "in").value(), cover_in);
}

} // namespace rillmark
