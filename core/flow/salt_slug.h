// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "expected.h"
#include "flow/flow_result.h"
#include "flow/salt_trace.h"

#include <optional>
#include <string>
#include <vector>

namespace rillmark {

/// The salt that was thrown in: dry, or dissolved.
struct SaltDose {
    std::optional<double> mass_kg;       // 0.0001 to 10000
    std::optional<double> solution_m3;   // 0.00001 to 100
    std::optional<double> solution_kgm3; // salt in it; 0.001 to 360
    /// Relative standard uncertainty of weighing, purity and moisture together; 0 to 0.5. Our own choice of default.
    double u_rel = 0.01;
};

/// What one probe saw.
struct SlugProbe {
    std::string name; // for the budget and the findings
    TraceIntegral integral;
    Estimate factor; // calibration factor, (kg/m3)/(S/m); the value 0.1 to 1000, for readings as the trace has them
    bool generic_factor = false;                 // kGenericSaltFactor, and not the stream's own
    std::optional<double> highest_calibrated_Sm; // the calibration reaches up to here
};

struct SlugOptions {
    /// Standard uncertainty of one probe's area for incomplete mixing, relative; 0 to 0.5. Our own choice of default:
    /// probes on opposite banks are accepted when they agree within 5 % (from memory, unconfirmed).
    double mixing_u_rel = 0.03;
    std::optional<double> reach_m; // from the pouring to the probe, 0.1 to 100000
    std::optional<double> width_m; // of the stream, 0.05 to 1000
};

// From memory, unconfirmed: probes on opposite banks.
inline constexpr double kLargeProbeDifference_rel = 0.05;

struct ProbeDischarge {
    std::string name;
    double discharge_m3s = 0.0;
};

struct SlugResult {
    FlowResult flow;
    std::vector<ProbeDischarge> probes;
    double mass_kg = 0.0;
    double peak_chloride_kgm3 = 0.0; // the highest of the probes
};

/// Discharge by a slug of salt: Q = M / (CF A), M the salt, CF the calibration factor, A the area under the
/// conductivity above its background (integrate_trace). A slug of solution is V c of salt. With several probes it is
/// their mean.
///
/// Uncertainty, in quadrature: mass; factor (taken as one calibration, shared by the probes); noise, background and
/// drift of each area; mixing: mixing_u_rel over the root of the number of probes, or the scatter of the probes,
/// s/sqrt(n), where that is larger. What the probe's cell constant is wrong by cancels if it also read the calibration.
/// Source of the form: Richardson and others 2017 (see salt_calibration.h); N. A. Chappell, Lancaster University,
/// worksheet on gulp injection. In practice 4 to 7 % (from memory, unconfirmed).
///
/// Warns: probes differ (`flow.probes_disagree`), reach shorter than 20 widths (`flow.reach_short`), readings above the
/// calibration (`flow.above_calibration`), the generic factor on water above 500 uS/cm
/// (`flow.generic_factor_doubtful`), chloride (judge_chloride). Notes one probe (`flow.one_probe`). Findings of the
/// integrals follow, with the probe's name as the place. Refuses: no probe (`flow.no_probe`), both or neither of mass
/// and solution (`flow.dose_unclear`), values out of range
/// (`flow.bad_mass`, `flow.bad_dose_volume`, `flow.bad_solution`, `flow.bad_factor`, `flow.bad_area`,
/// `flow.bad_option`).
[[nodiscard]] Expected<SlugResult> salt_slug(const SaltDose& dose, const std::vector<SlugProbe>& probes,
                                             const SlugOptions& options = {});

} // namespace rillmark
