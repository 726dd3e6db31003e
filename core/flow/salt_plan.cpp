// SPDX-License-Identifier: GPL-3.0-or-later
#include "flow/salt_plan.h"

#include "flow/salt_calibration.h"
#include "flow/salt_trace.h"
#include "flow/tracer_input.h"
#include "units/in_range.h"

#include <algorithm>

namespace rillmark {

namespace {

constexpr double kSteepest = 1.0;
constexpr double kFlattest = 1e-6;

Expected<void> check_creek(const SaltPlanInput& input) {
    // with a slope in range it refuses what is wrong with width, depth and velocity
    const Expected<double> mixing = mixing_length_m(
        {input.width_m, input.depth_m, input.velocity_ms, input.slope.value_or(kSteepest), input.from_the_bank});
    if (!mixing)
        return mixing.error();
    if (input.slope && !in_range(*input.slope, kFlattest, kSteepest))
        return bad_option("slope", *input.slope, Quantity::Slope);
    if (input.background_Sm && !in_range(*input.background_Sm, 0.0, 20.0))
        return bad_option("background_Sm", *input.background_Sm, Quantity::Conductivity);
    return {};
}

void judge(const SaltPlanInput& input, SaltPlan& plan) {
    const auto add = [&plan](Findings more) { plan.findings.insert(plan.findings.end(), more.begin(), more.end()); };
    add(judge_chloride(plan.salt_kgm3));
    if (input.steady)
        add(judge_lasting_chloride(plan.salt_kgm3));
    if (input.background_Sm && *input.background_Sm > kGenericFactorBackground_Sm)
        add({warning("flow.generic_factor_doubtful", {},
                     {{"background", *input.background_Sm, Quantity::Conductivity},
                      {"limit", kGenericFactorBackground_Sm, Quantity::Conductivity}})});
    if (plan.rise_Sm < kSmallestRise_Sm)
        add({warning(
            "flow.rise_small", {},
            {{"rise", plan.rise_Sm, Quantity::Conductivity}, {"limit", kSmallestRise_Sm, Quantity::Conductivity}})});
    const double mass_kg = plan.dose.for_rise_kg.value_or(plan.dose.usual_kg);
    if (!input.steady &&
        (mass_kg * kFarFromRule < plan.dose.least_kg || mass_kg > kFarFromRule * plan.dose.long_reach_kg))
        add({note("flow.dose_far_from_rule", {},
                  {{"mass", mass_kg, Quantity::Mass},
                   {"least", plan.dose.least_kg, Quantity::Mass},
                   {"most", plan.dose.long_reach_kg, Quantity::Mass}})});
}

} // namespace

Expected<SaltPlan> salt_plan(const SaltPlanInput& input) {
    if (const Expected<void> sound = check_creek(input); !sound)
        return sound.error();
    SaltPlan plan;
    plan.flow_m3s = input.flow_m3s.value_or(input.width_m * input.depth_m * input.velocity_ms);
    plan.rise_Sm = input.rise_Sm.value_or(kUsualRise_Sm);
    plan.reach_m = kGoodMixing_widths * input.width_m;
    if (input.slope) {
        plan.mixing_m =
            *mixing_length_m({input.width_m, input.depth_m, input.velocity_ms, *input.slope, input.from_the_bank});
        plan.reach_m = std::max(plan.reach_m, *plan.mixing_m);
    }
    plan.cloud_s = std::clamp(kCloudPerTravel * plan.reach_m / input.velocity_ms, 1.0, 86400.0);
    const double factor = kGenericSaltFactor.value;
    const Expected<SaltDoseAdvice> dose = salt_dose(plan.flow_m3s, plan.cloud_s, plan.rise_Sm, factor);
    if (!dose)
        return dose.error();
    plan.dose = *dose;
    plan.salt_kgm3 = factor * plan.rise_Sm;
    plan.chloride_kgm3 = chloride_of_salt(plan.salt_kgm3);
    plan.salt_kgs = plan.flow_m3s * plan.salt_kgm3;
    judge(input, plan);
    return plan;
}

} // namespace rillmark
