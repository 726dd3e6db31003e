// SPDX-License-Identifier: GPL-3.0-or-later
#include "levelling/three_wire.h"

#include "levelling/staff_checks.h"

#include <cmath>
#include <utility>

namespace rillmark {

namespace {

/// Rounding of a difference of two readings, as part of the last digit: 2 units as typed are not 2.0000001.
constexpr double kRoundingOfUnits = 1e-6;

Expected<void> check(const WireReadings& wires, const Stadia& stadia) {
    for (const auto& [reading_m, where] : {std::pair{wires.upper_m, "levels.wire_upper"},
                                           {wires.middle_m, "levels.wire_middle"},
                                           {wires.lower_m, "levels.wire_lower"}})
        if (const Expected<void> good = check_staff_reading(reading_m, {where, {}}); !good)
            return good;
    const auto above_zero = [](double number) { return std::isfinite(number) && number > 0.0; };
    if (!above_zero(stadia.factor))
        return refusal("levels.stadia_impossible", "levels.stadia_factor", {{"value", stadia.factor}});
    if (!(std::isfinite(stadia.constant_m) && stadia.constant_m >= 0.0))
        return refusal("levels.stadia_impossible", "levels.stadia_constant",
                       {{"value", stadia.constant_m, Quantity::Length}});
    if (!above_zero(wires.last_digit_m))
        return refusal("levels.stadia_impossible", "levels.last_digit",
                       {{"value", wires.last_digit_m, Quantity::Length}});
    return {};
}

} // namespace

Expected<ThreeWire> three_wire(const WireReadings& wires, const Stadia& stadia) {
    if (const Expected<void> good = check(wires, stadia); !good)
        return good.error();
    ThreeWire result;
    result.reversed = wires.upper_m < wires.lower_m;
    const double sign = result.reversed ? -1.0 : 1.0;
    result.upper_half_m = sign * (wires.upper_m - wires.middle_m);
    result.lower_half_m = sign * (wires.middle_m - wires.lower_m);
    const double interval_m = sign * (wires.upper_m - wires.lower_m);
    if (result.upper_half_m < 0.0 || result.lower_half_m < 0.0 || !(interval_m > 0.0))
        return refusal("levels.wires_out_of_order", "levels.wire_middle",
                       {{"upper", wires.upper_m, Quantity::Length},
                        {"middle", wires.middle_m, Quantity::Length},
                        {"lower", wires.lower_m, Quantity::Length}});
    result.mean_m = (wires.upper_m + wires.middle_m + wires.lower_m) / 3.0;
    result.distance_m = stadia.factor * interval_m + stadia.constant_m;
    const double units = std::abs(result.upper_half_m - result.lower_half_m) / wires.last_digit_m;
    if (units > kHalfIntervalUnits + kRoundingOfUnits)
        result.findings.push_back(
            warning("levels.half_intervals_differ", "levels.wire_middle",
                    {{"upper_half", result.upper_half_m, Quantity::Length},
                     {"lower_half", result.lower_half_m, Quantity::Length},
                     {"limit", kHalfIntervalUnits * wires.last_digit_m, Quantity::Length}}));
    return result;
}

} // namespace rillmark
