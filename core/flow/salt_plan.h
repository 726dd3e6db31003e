// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "expected.h"
#include "flow/salt_advice.h"

#include <optional>

namespace rillmark {

/// What is guessed of a creek before salt goes in.
struct SaltPlanInput {
    double width_m = 0.0;                // 0.05 to 1000
    double depth_m = 0.0;                // mean; 0.005 to 100
    double velocity_ms = 0.0;            // mean; 0.001 to 10
    std::optional<double> slope;         // of the water surface, 1e-6 to 1; none: the rule by widths alone
    std::optional<double> flow_m3s;      // guess, 0.0001 to 1000; none: width x depth x velocity
    std::optional<double> background_Sm; // conductivity of the creek, 0 to 20
    std::optional<double> rise_Sm;       // that the probe should see, 0.0001 to 1; none: kUsualRise_Sm
    bool from_the_bank = false;          // poured in at a bank, not in the middle
    bool steady = false;                 // a constant rate, not a slug
};

/// How far downstream to read, and how much salt to take.
struct SaltPlan {
    double flow_m3s = 0.0;
    double reach_m = 0.0;           // advised: the longer of kGoodMixing_widths and mixing_m
    std::optional<double> mixing_m; // by mixing_length_m
    double rise_Sm = 0.0;
    double salt_kgm3 = 0.0;     // at the peak, or on the plateau, where it is mixed
    double chloride_kgm3 = 0.0; // the same as chloride
    // Of a slug
    double cloud_s = 0.0; // guess of the time that it takes to go by
    SaltDoseAdvice dose;  // dry salt
    // Of a constant rate
    double salt_kgs = 0.0; // dry salt a second in the solution that runs in
    Findings findings;
};

// Our own choice: five times the least rise of the field rules, a quarter of what they call enough.
inline constexpr double kUsualRise_Sm = 0.005;
// Our own choice: a slug takes about as long to go by as it takes to arrive.
inline constexpr double kCloudPerTravel = 1.0;
// Our own choice: a mass for the rise that lies beyond the rules of thumb by this factor is told.
inline constexpr double kFarFromRule = 2.0;

/// Reach and salt for a test, before it is made; guesses in, guesses out.
///
/// The reach is the longer of 25 widths and Fischer's mixing length (salt_advice.h says where each comes from). Salt
/// for a slug: by the wanted rise and the time of the cloud, which is taken as its travel time along the reach, beside
/// the rule of thumb. Salt for a constant rate: flow x factor x rise. The generic factor of salt (salt_calibration.h).
///
/// Warns: the peak or plateau above a short-term limit of chloride (`flow.chloride_above_limit`), a constant rate also
/// where it exceeds a limit for days (`flow.chloride_above_long_limit`), a background too high for the generic factor
/// (`flow.generic_factor_doubtful`), a rise smaller than the field rules ask for (`flow.rise_small`). Notes a mass far
/// from the rule of thumb (`flow.dose_far_from_rule`). Refuses what is not finite or out of range (`flow.bad_option`).
[[nodiscard]] Expected<SaltPlan> salt_plan(const SaltPlanInput& input);

} // namespace rillmark
