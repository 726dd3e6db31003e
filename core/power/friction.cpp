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
// S. E. Haaland, J. Fluids Eng. 105, 1983, 89.
constexpr double kHaalandFactor = -1.8;
constexpr double kHaalandExponent = 1.11;
constexpr double kHaalandSmooth = 6.9;
// Hagen and Poiseuille: f = 64 / Re.
constexpr double kLaminar = 64.0;
// Hazen-Williams in metres and seconds; common practice, no source.
constexpr double kHazenWilliams = 10.67;
constexpr double kHazenWilliamsFlowExponent = 1.852;
constexpr double kHazenWilliamsBoreExponent = 4.87;

constexpr double kRootAccuracy = 1e-13;
// From Haaland's value three or four steps do; the limit only guards against a fault.
constexpr int kNewtonSteps = 20;

double colebrook_white(double reynolds, double relative_roughness) {
    const double rough = relative_roughness / kColebrookRough;
    const double smooth = kColebrookSmooth / reynolds;
    double x = kHaalandFactor * std::log10(std::pow(rough, kHaalandExponent) + kHaalandSmooth / reynolds);
    for (int step = 0; step < kNewtonSteps; ++step) {
        const double inside = rough + smooth * x;
        const double residual = x + 2.0 * std::log10(inside);
        const double slope = 1.0 + 2.0 / std::numbers::ln10 * smooth / inside;
        const double change = residual / slope;
        x -= change;
        if (std::abs(change) < kRootAccuracy * x)
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
