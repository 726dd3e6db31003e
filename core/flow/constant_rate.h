// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "expected.h"
#include "flow/flow_result.h"
#include "uncertainty/estimate.h"

#include <optional>
#include <vector>

namespace rillmark {

/// A steady injection of salt or dye, read downstream before it and on its plateau.
struct ConstantRateInput {
    Estimate injection_m3s;         // rate of the solution; 1e-9 to 10
    Estimate tracer_kgm3;           // tracer in the solution; above 0 to 2000
    std::vector<double> background; // readings before, in kg/m3, or S/m with a factor
    std::vector<double> plateau;    // readings on the plateau, in the order of time
    /// Of a reading: (kg/m3) for each unit of it. None: the readings are concentrations.
    std::optional<Estimate> factor;
    double reading_u = 0.0;     // standard uncertainty of one reading, in its unit
    double mixing_u_rel = 0.03; // for incomplete mixing, 0 to 0.5; our own choice, as for a slug
};

struct ConstantRateResult {
    FlowResult flow;             // of the stream above the injection
    double at_sampler_m3s = 0.0; // the injected water included
    double rise_kgm3 = 0.0;
};

// Our own choice: readings of the plateau, and a change from its first to its second half relative to the rise.
inline constexpr int kMinimumPlateauReadings = 3;
inline constexpr double kLargePlateauChange_rel = 0.03;

/// Discharge by constant-rate injection: Q = q (C1 - C2)/(C2 - C0), the flow above the injection; at the sampler it is
/// q more (the two are often confused).
///
/// With a factor the rise C2 - C0 is factor x (plateau - background) and the background itself holds no tracer: C0 = 0.
/// Uncertainty: law of propagation (propagate.h) over injection, tracer, factor, background, plateau, mixing. A mean of
/// readings has s/sqrt(n) enlarged by student_factor, and reading_u/sqrt(n) at least.
/// Source of the form: Australian Government, Connected Water; a course exercise on the continuous dilution method.
/// Accuracy of the arithmetic: rounding.
///
/// Warns: a plateau that still changes (`flow.plateau_not_steady`); notes few readings (`flow.few_plateau_readings`).
/// Refuses: no readings (`flow.no_plateau`), a plateau not above the background by 4 times their uncertainty
/// (`flow.plateau_not_above`) or not below the solution (`flow.plateau_above_solution`), values that are not finite,
/// negative or out of range (`flow.bad_injection`, `flow.bad_solution`, `flow.bad_tracer_reading`, `flow.bad_factor`,
/// `flow.bad_option`).
[[nodiscard]] Expected<ConstantRateResult> constant_rate(const ConstantRateInput& input);

} // namespace rillmark
