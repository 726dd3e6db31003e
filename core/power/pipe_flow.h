// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "expected.h"
#include "power/friction.h"

#include <span>

namespace rillmark {

/// A full pipe of one size.
struct PipeRun {
    double length_m = 0.0;    // true slope length, > 0
    double bore_m = 0.0;      // inner diameter, > 0
    double roughness_m = 0.0; // >= 0, at most 0.05 of the bore
    double minor_k = 0.0;     // sum of the loss coefficients of entrance, bends, valves; >= 0
};

/// The water in it and the gravity there.
struct PipeWater {
    double kinematic_viscosity_m2s = 0.0; // > 0
    double gravity_ms2 = 0.0;             // > 0
};

struct PipeLoss {
    double speed_ms = 0.0;
    double reynolds = 0.0;
    FrictionFactor factor;
    double friction_m = 0.0;
    double minor_m = 0.0;

    [[nodiscard]] double total_m() const { return friction_m + minor_m; }
};

/// Head that a flow loses in a pipe: Darcy-Weisbach, h = (f L/D + sum K) V^2/2g, with f of darcy_friction.
/// Refuses a length, bore, viscosity or gravity that is not above zero (`power.not_positive`), a negative flow,
/// roughness or coefficient (`power.negative`), too rough a wall (`power.too_rough_for_formula`) and what is not
/// finite.
[[nodiscard]] Expected<PipeLoss> pipe_loss(const PipeRun& pipe, const PipeWater& water, double discharge_m3s);

/// The same of pipes in series, one flow through all: losses added; speed, Reynolds number and factor of the fastest
/// section. A contraction or an expansion between them is a minor loss of one of them. Refuses no section
/// (`power.no_section`) and what pipe_loss refuses.
[[nodiscard]] Expected<PipeLoss> series_loss(std::span<const PipeRun> series, const PipeWater& water,
                                             double discharge_m3s);

/// The flow that pipes in series can carry for a head to lose (m, >= 0), m3/s: the root of series_loss in a bracket
/// that only shrinks, to 1e-12 of the flow. Where the loss jumps (Reynolds number 2000, from laminar to transition) it
/// is the flow at the jump. Refuses as series_loss does, and when the search does not end within its limit
/// (`power.no_solution`).
[[nodiscard]] Expected<double> discharge_for_loss_m3s(std::span<const PipeRun> series, const PipeWater& water,
                                                      double loss_m);
[[nodiscard]] Expected<double> discharge_for_loss_m3s(const PipeRun& pipe, const PipeWater& water, double loss_m);

/// The bore (m) of a single pipe that loses that head (m, > 0) at that flow (m3/s, > 0), to 1e-12; `pipe.bore_m` is not
/// looked at. The next larger size that is sold is the one to take. Refuses as pipe_loss does, and
/// `power.no_solution` where no bore between a tenth of a millimetre and a hundred metres does, or the roughness is too
/// much for the formula at the bore that would.
[[nodiscard]] Expected<double> bore_for_loss_m(const PipeRun& pipe, const PipeWater& water, double discharge_m3s,
                                               double loss_m);

/// The flow at which a pipe delivers the most power: a third of the gross head is lost. Exact for a loss that grows
/// with the square of the flow; for smooth pipe (power 1.8) the true maximum lies a little higher and is higher by less
/// than 0.5 %. Almost never the right design point: common practice is to lose 5 to 15 % of the gross head. Source: K.
/// Subramanya, 1000 Solved Problems in Fluid Mechanics, Tata McGraw-Hill, 2005, example 11.28. Refuses as
/// discharge_for_loss_m3s does.
[[nodiscard]] Expected<double> greatest_power_discharge_m3s(std::span<const PipeRun> series, const PipeWater& water,
                                                            double gross_head_m);
[[nodiscard]] Expected<double> greatest_power_discharge_m3s(const PipeRun& pipe, const PipeWater& water,
                                                            double gross_head_m);

// The part of the gross head that is lost at the greatest power.
inline constexpr double kLossAtGreatestPower = 1.0 / 3.0;

} // namespace rillmark
