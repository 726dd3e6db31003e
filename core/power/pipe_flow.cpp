// SPDX-License-Identifier: GPL-3.0-or-later
#include "power/pipe_flow.h"

#include "power/input_checks.h"

#include <cmath>
#include <numbers>

namespace rillmark {

namespace {

constexpr double kRootAccuracy = 1e-13;
// Enough to double or halve through the whole range of a double, and to halve a bracket down to its last digit.
constexpr int kBracketSteps = 2000;
constexpr int kHalvings = 100;
// A usual friction factor, where the search for the flow begins.
constexpr double kStartingFactor = 0.02;

double bore_area_m2(double bore_m) {
    return std::numbers::pi / 4.0 * bore_m * bore_m;
}

double starting_discharge_m3s(const PipeRun& pipe, const PipeWater& water, double loss_m) {
    const double k = kStartingFactor * pipe.length_m / pipe.bore_m + pipe.minor_k;
    return bore_area_m2(pipe.bore_m) * std::sqrt(2.0 * water.gravity_ms2 * loss_m / k);
}

struct Bracket {
    double low = 0.0;
    double high = 0.0;
};

Expected<Bracket> bracket_discharge(const PipeRun& pipe, const PipeWater& water, double loss_m) {
    double flow = starting_discharge_m3s(pipe, water, loss_m);
    const Expected<PipeLoss> start = pipe_loss(pipe, water, flow);
    if (!start)
        return start.error();
    const bool rising = start->total_m() < loss_m;
    for (int step = 0; step < kBracketSteps; ++step) {
        const double next = rising ? 2.0 * flow : 0.5 * flow;
        const Expected<PipeLoss> loss = pipe_loss(pipe, water, next);
        if (!loss)
            return loss.error();
        if (rising != (loss->total_m() < loss_m))
            return rising ? Bracket{flow, next} : Bracket{next, flow};
        flow = next;
    }
    return refusal("power.no_solution", "power.flow");
}

} // namespace

Expected<PipeLoss> pipe_loss(const PipeRun& pipe, const PipeWater& water, double discharge_m3s) {
    if (const Expected<void> check =
            first_refusal(check_positive("power.pipe_length", pipe.length_m, Quantity::Length),
                          check_positive("power.bore", pipe.bore_m, Quantity::Bore),
                          check_not_negative("power.roughness", pipe.roughness_m, Quantity::Bore),
                          check_not_negative("power.minor_k", pipe.minor_k),
                          check_positive("power.viscosity", water.kinematic_viscosity_m2s),
                          check_positive("power.gravity", water.gravity_ms2),
                          check_not_negative("power.flow", discharge_m3s, Quantity::Discharge));
        !check)
        return check.error();

    PipeLoss loss;
    loss.speed_ms = discharge_m3s / bore_area_m2(pipe.bore_m);
    loss.reynolds = loss.speed_ms * pipe.bore_m / water.kinematic_viscosity_m2s;
    const Expected<FrictionFactor> factor = darcy_friction(loss.reynolds, pipe.roughness_m / pipe.bore_m);
    if (!factor)
        return factor.error();
    loss.factor = *factor;
    const double velocity_head_m = loss.speed_ms * loss.speed_ms / (2.0 * water.gravity_ms2);
    loss.friction_m = loss.factor.darcy * pipe.length_m / pipe.bore_m * velocity_head_m;
    loss.minor_m = pipe.minor_k * velocity_head_m;
    if (!std::isfinite(loss.total_m()))
        return refusal("uncertainty.not_finite", "power.friction_loss");
    return loss;
}

Expected<double> discharge_for_loss_m3s(const PipeRun& pipe, const PipeWater& water, double loss_m) {
    if (const Expected<void> check = check_not_negative("power.friction_loss", loss_m, Quantity::Length); !check)
        return check.error();
    // Also refuses a bad pipe before the search begins.
    if (const Expected<PipeLoss> still = pipe_loss(pipe, water, 0.0); !still)
        return still.error();
    if (loss_m == 0.0)
        return 0.0;
    const Expected<Bracket> bracket = bracket_discharge(pipe, water, loss_m);
    if (!bracket)
        return bracket.error();
    Bracket b = *bracket;
    for (int step = 0; step < kHalvings && b.high - b.low > kRootAccuracy * b.high; ++step) {
        const double middle = 0.5 * (b.low + b.high);
        const Expected<PipeLoss> loss = pipe_loss(pipe, water, middle);
        if (!loss)
            return loss.error();
        (loss->total_m() < loss_m ? b.low : b.high) = middle;
    }
    return 0.5 * (b.low + b.high);
}

Expected<double> greatest_power_discharge_m3s(const PipeRun& pipe, const PipeWater& water, double gross_head_m) {
    if (const Expected<void> check = check_positive("power.gross_head", gross_head_m, Quantity::Length); !check)
        return check.error();
    return discharge_for_loss_m3s(pipe, water, kLossAtGreatestPower * gross_head_m);
}

} // namespace rillmark
