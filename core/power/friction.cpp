// SPDX-License-Identifier: GPL-3.0-or-later
#include "power/friction.h"

#include "power/input_checks.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace rillmark {

namespace {

// C. F. Colebrook, J. Inst. Civil Engrs. 11, 1939, 133.
constexpr double kColebrookRough = 3.7;
constexpr double kColebrookSmooth = 2.51;
// Hagen and Poiseuille: f = 64 / Re.
constexpr double kLaminar = 64.0;
// Hazen-Williams in metres and seconds; common practice, no source.
constexpr double kHazenWilliams = 10.67;
constexpr double kHazenWilliamsFlowExponent = 1.852;
constexpr double kHazenWilliamsBoreExponent = 4.87;

// Where the search begins, 1/sqrt(f) in the middle of its range (3.5 to 14); one turn of the formula takes it within
// 0.5.
constexpr double kStart = 7.0;
constexpr double kFactorAccuracy = 1e-13;
// Two steps of third order reach the last digits; the limit only guards against a fault.
constexpr int kSteps = 20;

/// Halley's method on x + 2 log10(rough + smooth x) = 0, x = 1/sqrt(f): the second derivative costs no further
/// logarithm, and one turn from a fixed start is cheaper than an explicit formula with its powers.
double colebrook_white(double reynolds, double relative_roughness) {
    constexpr double kTwoOverLn10 = 2.0 / std::numbers::ln10;
    const double rough = relative_roughness / kColebrookRough;
    const double smooth = kColebrookSmooth / reynolds;
    double x = -kTwoOverLn10 * std::log(rough + smooth * kStart);
    for (int step = 0; step < kSteps; ++step) {
        const double inside = rough + smooth * x;
        const double residual = x + kTwoOverLn10 * std::log(inside);
        const double bend = kTwoOverLn10 * smooth / inside; // slope less one
        const double newton = residual / (1.0 + bend);
        // F'' = -bend^2 / (2/ln 10); Halley divides Newton's step by 1 - N F''/(2 F')
        const double curve = bend * bend / (kTwoOverLn10 * (1.0 + bend));
        const double change = newton / (1.0 + 0.5 * newton * curve);
        x -= change;
        // of third order: what is left is of the order of the cube of the change
        if (change * change * std::abs(change) < kFactorAccuracy * x)
            break;
    }
    return 1.0 / (x * x);
}

} // namespace

Expected<FrictionFactor> darcy_friction(double reynolds, double relative_roughness) {
    if (const Expected<void> check = first_refusal(check_not_negative("power.reynolds", reynolds),
                                                   check_not_negative("power.roughness", relative_roughness));
        !check)
        return check.error();
    if (relative_roughness > kRelativeRoughnessMax)
        return refusal("power.too_rough_for_formula", "power.roughness",
                       {{"relative_roughness", relative_roughness, Quantity::Ratio},
                        {"limit", kRelativeRoughnessMax, Quantity::Ratio}});
    if (reynolds == 0.0)
        return FrictionFactor{};
    if (reynolds < kLaminarBelow)
        return FrictionFactor{kLaminar / reynolds, Regime::Laminar};
    const double turbulent = colebrook_white(reynolds, relative_roughness);
    if (reynolds < kTurbulentFrom)
        return FrictionFactor{std::max(kLaminar / reynolds, turbulent), Regime::Transition};
    return FrictionFactor{turbulent, Regime::Turbulent};
}

Expected<double> hazen_williams_loss_m(const HazenWilliamsPipe& pipe, double discharge_m3s) {
    if (const Expected<void> check =
            first_refusal(check_positive("power.pipe_length", pipe.length_m, Quantity::Length),
                          check_positive("power.bore", pipe.bore_m, Quantity::Bore),
                          check_positive("power.hazen_williams_c", pipe.coefficient),
                          check_not_negative("power.flow", discharge_m3s, Quantity::Discharge));
        !check)
        return check.error();
    const double loss_m = kHazenWilliams * pipe.length_m *
                          std::pow(discharge_m3s / pipe.coefficient, kHazenWilliamsFlowExponent) /
                          std::pow(pipe.bore_m, kHazenWilliamsBoreExponent);
    if (!std::isfinite(loss_m))
        return refusal("uncertainty.not_finite", "power.friction_loss");
    return loss_m;
}

} // namespace rillmark
