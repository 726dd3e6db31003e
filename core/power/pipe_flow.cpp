// SPDX-License-Identifier: GPL-3.0-or-later
#include "power/pipe_flow.h"

#include "power/input_checks.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace rillmark {

namespace {

constexpr double kRootAccuracy = 1e-13;
// Enough to double or halve through the whole range of a double.
constexpr int kBracketSteps = 2000;
// Every third step halves the bracket, so this is enough to shrink it down to its last digit.
constexpr int kSearchSteps = 300;
// A usual friction factor, where the search for the flow begins.
constexpr double kStartingFactor = 0.02;
// Bores that are searched; our choice, beyond any pipe.
constexpr double kBoreLeast_m = 1e-4;
constexpr double kBoreMost_m = 100.0;

double bore_area_m2(double bore_m) {
    return std::numbers::pi / 4.0 * bore_m * bore_m;
}

double starting_discharge_m3s(std::span<const PipeRun> series, const PipeWater& water, double loss_m) {
    double resistance = 0.0; // loss over Q^2/2g
    for (const PipeRun& pipe : series) {
        const double area_m2 = bore_area_m2(pipe.bore_m);
        resistance += (kStartingFactor * pipe.length_m / pipe.bore_m + pipe.minor_k) / (area_m2 * area_m2);
    }
    return std::sqrt(2.0 * water.gravity_ms2 * loss_m / resistance);
}

/// An argument and its loss.
struct Tried {
    double x = 0.0;
    double loss_m = 0.0;
};
struct Bracket {
    Tried low;  // loses less than asked for
    Tried high; // loses as much or more
};

/// Shrinks a bracket of a loss that grows with x, and nearly with a power of it: by a straight line in logarithms, and
/// by halving every third step, which cannot be held up by a jump. `loss` gives Expected<double>.
template <class Loss>
Expected<double> root(Bracket b, double loss_m, const Loss& loss) {
    for (int step = 0; step < kSearchSteps; ++step) {
        if (b.high.x - b.low.x <= kRootAccuracy * b.high.x)
            return 0.5 * (b.low.x + b.high.x);
        double x = 0.5 * (b.low.x + b.high.x);
        if (step % 3 != 2 && b.low.x > 0.0 && b.low.loss_m > 0.0 && b.high.loss_m > b.low.loss_m) {
            const double along = std::log(loss_m / b.low.loss_m) / std::log(b.high.loss_m / b.low.loss_m);
            const double guess = b.low.x * std::pow(b.high.x / b.low.x, along);
            if (guess > b.low.x && guess < b.high.x)
                x = guess;
        }
        const Expected<double> here = loss(x);
        if (!here)
            return here.error();
        if (std::abs(*here - loss_m) <= kRootAccuracy * loss_m)
            return x;
        (*here < loss_m ? b.low : b.high) = Tried{x, *here};
    }
    return refusal("power.no_solution", "power.flow");
}

template <class Loss>
Expected<Bracket> bracket_discharge(double start, double loss_m, const Loss& loss) {
    const Expected<double> first = loss(start);
    if (!first)
        return first.error();
    Tried last{start, *first};
    const bool rising = last.loss_m < loss_m;
    for (int step = 0; step < kBracketSteps; ++step) {
        const double next = rising ? 2.0 * last.x : 0.5 * last.x;
        const Expected<double> here = loss(next);
        if (!here)
            return here.error();
        if (rising != (*here < loss_m))
            return rising ? Bracket{last, {next, *here}} : Bracket{{next, *here}, last};
        last = {next, *here};
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

Expected<PipeLoss> series_loss(std::span<const PipeRun> series, const PipeWater& water, double discharge_m3s) {
    if (series.empty())
        return refusal("power.no_section", "power.pipe_length");
    PipeLoss all;
    for (const PipeRun& pipe : series) {
        const Expected<PipeLoss> one = pipe_loss(pipe, water, discharge_m3s);
        if (!one)
            return one.error();
        if (one->speed_ms >= all.speed_ms) {
            all.speed_ms = one->speed_ms;
            all.reynolds = one->reynolds;
            all.factor = one->factor;
        }
        all.friction_m += one->friction_m;
        all.minor_m += one->minor_m;
    }
    if (!std::isfinite(all.total_m()))
        return refusal("uncertainty.not_finite", "power.friction_loss");
    return all;
}

Expected<double> discharge_for_loss_m3s(std::span<const PipeRun> series, const PipeWater& water, double loss_m) {
    if (const Expected<void> check = check_not_negative("power.friction_loss", loss_m, Quantity::Length); !check)
        return check.error();
    // Also refuses a bad pipe before the search begins.
    if (const Expected<PipeLoss> still = series_loss(series, water, 0.0); !still)
        return still.error();
    if (loss_m == 0.0)
        return 0.0;
    const auto loss = [&](double flow_m3s) -> Expected<double> {
        const Expected<PipeLoss> one = series_loss(series, water, flow_m3s);
        return one ? Expected<double>(one->total_m()) : Expected<double>(one.error());
    };
    const Expected<Bracket> bracket = bracket_discharge(starting_discharge_m3s(series, water, loss_m), loss_m, loss);
    return bracket ? root(*bracket, loss_m, loss) : Expected<double>(bracket.error());
}

Expected<double> discharge_for_loss_m3s(const PipeRun& pipe, const PipeWater& water, double loss_m) {
    return discharge_for_loss_m3s(std::span(&pipe, 1), water, loss_m);
}

Expected<double> bore_for_loss_m(const PipeRun& pipe, const PipeWater& water, double discharge_m3s, double loss_m) {
    if (const Expected<void> check = first_refusal(check_positive("power.friction_loss", loss_m, Quantity::Length),
                                                   check_positive("power.flow", discharge_m3s, Quantity::Discharge));
        !check)
        return check.error();
    // The loss falls with the bore: the search goes by one over it. Below twenty roughnesses there is no formula.
    const double narrowest_m = std::max(kBoreLeast_m, pipe.roughness_m / kRelativeRoughnessMax);
    const auto loss = [&](double x) -> Expected<double> {
        PipeRun tried = pipe;
        tried.bore_m = std::max(1.0 / x, narrowest_m);
        const Expected<PipeLoss> one = pipe_loss(tried, water, discharge_m3s);
        return one ? Expected<double>(one->total_m()) : Expected<double>(one.error());
    };
    const Expected<double> wide = loss(1.0 / kBoreMost_m);
    if (!wide)
        return wide.error();
    const Expected<double> narrow = loss(1.0 / narrowest_m);
    if (!narrow)
        return narrow.error();
    if (*wide >= loss_m || *narrow < loss_m)
        return refusal("power.no_solution", "power.bore");
    const Expected<double> x = root({{1.0 / kBoreMost_m, *wide}, {1.0 / narrowest_m, *narrow}}, loss_m, loss);
    return x ? Expected<double>(1.0 / *x) : Expected<double>(x.error());
}

Expected<double> greatest_power_discharge_m3s(std::span<const PipeRun> series, const PipeWater& water,
                                              double gross_head_m) {
    if (const Expected<void> check = check_positive("power.gross_head", gross_head_m, Quantity::Length); !check)
        return check.error();
    return discharge_for_loss_m3s(series, water, kLossAtGreatestPower * gross_head_m);
}

Expected<double> greatest_power_discharge_m3s(const PipeRun& pipe, const PipeWater& water, double gross_head_m) {
    return greatest_power_discharge_m3s(std::span(&pipe, 1), water, gross_head_m);
}

} // namespace rillmark
