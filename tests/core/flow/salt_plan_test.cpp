// SPDX-License-Identifier: GPL-3.0-or-later
#include "flow/salt_plan.h"

#include "flow/salt_calibration.h"
#include "flow/salt_slug.h"
#include "flow/salt_trace.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <limits>

namespace rillmark {
namespace {

SaltPlanInput brook() {
    SaltPlanInput input;
    input.width_m = 2.0;
    input.depth_m = 0.2;
    input.velocity_ms = 0.25;
    return input;
}

bool says(const SaltPlan& plan, const std::string& code) {
    return std::ranges::any_of(plan.findings, [&](const Finding& one) { return one.code == code; });
}

TEST(SaltPlan, OfABrookByHand) {
    const Expected<SaltPlan> plan = salt_plan(brook());
    ASSERT_TRUE(plan.ok());
    EXPECT_DOUBLE_EQ(plan->flow_m3s, 0.1);
    EXPECT_DOUBLE_EQ(plan->reach_m, 50.0); // 25 widths
    EXPECT_FALSE(plan->mixing_m.has_value());
    EXPECT_DOUBLE_EQ(plan->cloud_s, 200.0);
    // half of 0.1 m3/s x 4.86 x 0.005 S/m x 200 s
    EXPECT_NEAR(*plan->dose.for_rise_kg, 0.243, 1e-12);
    EXPECT_NEAR(plan->salt_kgs, 0.1 * 4.86 * 0.005, 1e-15);
    // 24.3 g/m3 of salt hold 14.74 g/m3 of chloride (35.453 of 58.443)
    EXPECT_NEAR(plan->chloride_kgm3, 0.01474, 1e-5);
    EXPECT_TRUE(plan->findings.empty());
}

TEST(SaltPlan, TheLongerOfTheTwoRulesOfMixing) {
    SaltPlanInput flat = brook();
    flat.slope = 1e-4;
    const Expected<SaltPlan> plan = salt_plan(flat);
    ASSERT_TRUE(plan.ok());
    EXPECT_GT(*plan->mixing_m, 50.0);
    EXPECT_DOUBLE_EQ(plan->reach_m, *plan->mixing_m);
    SaltPlanInput bank = flat;
    bank.from_the_bank = true;
    EXPECT_NEAR(*salt_plan(bank)->mixing_m / *plan->mixing_m, 4.0, 1e-12); // twice the width to cross
    flat.slope = 0.05;
    EXPECT_DOUBLE_EQ(salt_plan(flat)->reach_m, 50.0);
}

TEST(SaltPlan, TheMassForTheRiseRaisesTheProbeByIt) {
    SaltPlanInput input = brook();
    input.rise_Sm = 0.008;
    const Expected<SaltPlan> plan = salt_plan(input);
    ASSERT_TRUE(plan.ok());
    // a triangle of that height and time above a background, integrated and turned into a flow
    std::vector<TraceReading> readings;
    for (int second = 0; second <= 600; ++second) {
        const double off = std::abs(second - 300.0) / (0.5 * plan->cloud_s);
        readings.push_back({static_cast<double>(second), 0.01 + 0.008 * std::max(0.0, 1.0 - off), {}, false});
    }
    const Expected<PreparedTrace> trace = prepare_trace(readings);
    ASSERT_TRUE(trace.ok());
    TraceWindows windows{190.0, 410.0, TimeWindow{0.0, 190.0}, TimeWindow{410.0, 600.0}};
    SlugProbe probe;
    probe.integral = *integrate_trace(*trace, windows);
    probe.factor = kGenericSaltFactor;
    SaltDose dose;
    dose.mass_kg = *plan->dose.for_rise_kg;
    const Expected<SlugResult> slug = salt_slug(dose, {probe}, {});
    ASSERT_TRUE(slug.ok()) << slug.error().code;
    EXPECT_NEAR(slug->flow.discharge.estimate.value, plan->flow_m3s, 1e-4 * plan->flow_m3s);
}

TEST(SaltPlan, WarnsOfChlorideAndOfDoubtfulGuesses) {
    SaltPlanInput input = brook();
    input.rise_Sm = 0.25; // 737 mg/L of chloride: above 600, below 860
    EXPECT_TRUE(says(*salt_plan(input), "flow.chloride_above_limit"));
    input.rise_Sm = 0.05; // 147 mg/L: above 120 for days, below what a slug may hold
    EXPECT_FALSE(says(*salt_plan(input), "flow.chloride_above_long_limit"));
    input.steady = true;
    EXPECT_FALSE(says(*salt_plan(input), "flow.chloride_above_limit"));
    EXPECT_TRUE(says(*salt_plan(input), "flow.chloride_above_long_limit"));
    input = brook();
    input.background_Sm = 0.06;
    EXPECT_TRUE(says(*salt_plan(input), "flow.generic_factor_doubtful"));
    input = brook();
    input.rise_Sm = 0.0005;
    EXPECT_TRUE(says(*salt_plan(input), "flow.rise_small"));
    input = brook();
    input.rise_Sm = 0.2;
    EXPECT_TRUE(says(*salt_plan(input), "flow.dose_far_from_rule")); // 9.7 kg where 0.1 to 0.5 are usual
}

TEST(SaltPlan, RefusesWhatCannotBe) {
    const double bad[] = {0.0, -1.0, 1e9, std::numeric_limits<double>::infinity(), std::nan("")};
    for (const double value : bad) {
        for (double SaltPlanInput::*member :
             {&SaltPlanInput::width_m, &SaltPlanInput::depth_m, &SaltPlanInput::velocity_ms}) {
            SaltPlanInput input = brook();
            input.*member = value;
            EXPECT_EQ(salt_plan(input).error().code, "flow.bad_option") << value;
        }
        for (std::optional<double> SaltPlanInput::*member :
             {&SaltPlanInput::slope, &SaltPlanInput::flow_m3s, &SaltPlanInput::rise_Sm}) {
            SaltPlanInput input = brook();
            input.*member = value;
            EXPECT_EQ(salt_plan(input).error().code, "flow.bad_option") << value;
        }
    }
    SaltPlanInput input = brook();
    input.background_Sm = -0.1;
    EXPECT_EQ(salt_plan(input).error().code, "flow.bad_option");
}

} // namespace
} // namespace rillmark
