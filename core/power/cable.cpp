// SPDX-License-Identifier: GPL-3.0-or-later
#include "power/cable.h"

#include "power/input_checks.h"

#include <cmath>
#include <numbers>

namespace rillmark {

namespace {

// IEC 60228 temperature factor 250/(230 + t): as tabulated by cable makers; the closed form from memory.
constexpr double kIecZeroResistance_C = -230.0;
constexpr double kConductorTemperatureMin_C = -50.0;
constexpr double kConductorTemperatureMax_C = 150.0;
// Losing more than half of what is put in, more put in brings less out.
constexpr double kLossShareMax = 0.5;

/// The cable as one loop: two wires, or three phases counted from line to line, whose current is the line current times
/// the square root of three. Then drop = I R cos + I X sin and loss = I^2 R for every system.
struct Loop {
    double resistance_ohm = 0.0;
    double reactance_ohm = 0.0;
    double power_factor = 1.0;
    double current_scale = 1.0; // line current per loop current

    [[nodiscard]] double drop_per_ampere() const {
        return resistance_ohm * power_factor + reactance_ohm * std::sqrt(1.0 - power_factor * power_factor);
    }
};

Loop loop_of(const CableRun& cable) {
    const double wires = cable.system == Current::ThreePhase ? 1.0 : 2.0;
    const bool direct = cable.system == Current::Direct;
    return {wires * cable.length_m * cable.resistance_ohm_per_m,
            direct ? 0.0 : wires * cable.length_m * cable.reactance_ohm_per_m, cable.power_factor,
            cable.system == Current::ThreePhase ? 1.0 / std::numbers::sqrt3 : 1.0};
}

Expected<void> check_cable(const CableRun& cable, double power_W) {
    if (const Expected<void> check =
            first_refusal(check_positive("power.cable_length", cable.length_m, Quantity::Length),
                          check_positive("power.voltage", cable.voltage_V, Quantity::Voltage),
                          check_not_negative("power.cable_resistance", cable.resistance_ohm_per_m),
                          check_not_negative("power.cable_reactance", cable.reactance_ohm_per_m),
                          check_positive("power.power_factor", cable.power_factor),
                          check_not_negative("power.cable_power", power_W, Quantity::Power));
        !check)
        return check;
    if (cable.power_factor > 1.0 || (cable.system == Current::Direct && cable.power_factor != 1.0))
        return refusal("power.power_factor_out_of_range", "power.power_factor", {{"value", cable.power_factor}});
    return {};
}

Finding cannot_carry(const CableRun& cable, double power_W) {
    return refusal("power.cable_cannot_carry", "power.cable_power",
                   {{"power", power_W, Quantity::Power}, {"voltage", cable.voltage_V, Quantity::Voltage}});
}

struct LoopState {
    double current_A = 0.0;
    double power_at_generator_W = 0.0;
};

Expected<CableLoss> result(const CableRun& cable, const Loop& loop, const LoopState& state) {
    CableLoss loss;
    loss.current_A = state.current_A * loop.current_scale;
    loss.drop_V = state.current_A * loop.drop_per_ampere();
    loss.drop_ratio = loss.drop_V / cable.voltage_V;
    loss.loss_W = state.current_A * state.current_A * loop.resistance_ohm;
    loss.sent_W = state.power_at_generator_W;
    loss.delivered_W = loss.sent_W - loss.loss_W;
    loss.house_voltage_V = cable.voltage_at == CableEnd::Generator ? cable.voltage_V - loss.drop_V : cable.voltage_V;
    if (!std::isfinite(loss.loss_W) || loss.house_voltage_V <= 0.0 || loss.loss_W > kLossShareMax * loss.sent_W)
        return cannot_carry(cable, state.power_at_generator_W);
    return loss;
}

/// Current in the loop when power and voltage are known at different ends: V_other = V +- I z with I V_other cos = P.
Expected<double> current_across_ends(const CableRun& cable, const Loop& loop, double power_W) {
    const double z = loop.drop_per_ampere();
    const double sign = cable.voltage_at == CableEnd::Generator ? -1.0 : 1.0;
    const double apparent_VA = power_W / cable.power_factor;
    const double discriminant = cable.voltage_V * cable.voltage_V + 4.0 * sign * z * apparent_VA;
    if (!(discriminant >= 0.0))
        return cannot_carry(cable, power_W);
    return 2.0 * apparent_VA / (cable.voltage_V + std::sqrt(discriminant));
}

} // namespace

Expected<double> resistance_at_ohm_per_m(const Conductor& conductor, double temperature_C) {
    if (!std::isfinite(temperature_C))
        return refusal("uncertainty.not_finite", "power.conductor_temperature");
    if (temperature_C < kConductorTemperatureMin_C || temperature_C > kConductorTemperatureMax_C)
        return refusal("power.conductor_temperature_out_of_range", "power.conductor_temperature",
                       {{"temperature", temperature_C, Quantity::Temperature},
                        {"lowest", kConductorTemperatureMin_C, Quantity::Temperature},
                        {"highest", kConductorTemperatureMax_C, Quantity::Temperature}});
    return conductor.resistance_ohm_per_m * (temperature_C - kIecZeroResistance_C) /
           (conductor.resistance_temperature_C - kIecZeroResistance_C);
}

Expected<CableLoss> cable_from_sent(const CableRun& cable, double sent_W) {
    if (const Expected<void> check = check_cable(cable, sent_W); !check)
        return check.error();
    const Loop loop = loop_of(cable);
    if (cable.voltage_at == CableEnd::Generator)
        return result(cable, loop, {sent_W / (cable.voltage_V * cable.power_factor), sent_W});
    const Expected<double> current_A = current_across_ends(cable, loop, sent_W);
    if (!current_A)
        return current_A.error();
    return result(cable, loop, {*current_A, sent_W});
}

Expected<CableLoss> cable_from_delivered(const CableRun& cable, double delivered_W) {
    if (const Expected<void> check = check_cable(cable, delivered_W); !check)
        return check.error();
    const Loop loop = loop_of(cable);
    double current_A = delivered_W / (cable.voltage_V * cable.power_factor);
    if (cable.voltage_at == CableEnd::Generator) {
        const Expected<double> solved = current_across_ends(cable, loop, delivered_W);
        if (!solved)
            return solved.error();
        current_A = *solved;
    }
    return result(cable, loop, {current_A, delivered_W + current_A * current_A * loop.resistance_ohm});
}

} // namespace rillmark
