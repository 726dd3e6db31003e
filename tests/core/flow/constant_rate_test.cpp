// SPDX-License-Identifier: GPL-3.0-or-later
#include "flow/constant_rate.h"

#include "tracer_fixtures.h"

namespace rillmark {
namespace {

using namespace tracer_fixtures;

ConstantRateInput exercise() {
    const auto in = check("salt-constant-rate")["inputs"];
    ConstantRateInput input;
    input.injection_m3s = {in["injection_L_s"].get<double>() * kMilli, 0.0};
    input.tracer_kgm3 = {in["tracer_mg_L"].get<double>() * kMilli, 0.0};
    input.background.assign(3, in["background_mg_L"].get<double>() * kMilli);
    input.plateau.assign(3, in["plateau_mg_L"].get<double>() * kMilli);
    return input;
}

TEST(ConstantRate, CourseExercise) {
    const auto published = check("salt-constant-rate");
    const auto result = constant_rate(exercise());
    ASSERT_TRUE(result.ok());
    const double tolerance = published["tolerance"]["relative"];
    const double upstream = published["expected"]["discharge_L_s"];
    const double sampler = published["expected"]["discharge_incl_injection_L_s"];
    EXPECT_NEAR(result->flow.discharge.estimate.value / kMilli, upstream, tolerance * upstream);
    EXPECT_NEAR(result->at_sampler_m3s / kMilli, sampler, tolerance * sampler);
    EXPECT_EQ(result->flow.method, FlowMethod::ConstantRate);
    EXPECT_TRUE(result->flow.findings.empty());
}

TEST(ConstantRate, ReadingsByAFactorAreRisesOnly) {
    ConstantRateInput by_factor = exercise();
    by_factor.factor = Estimate{4.86, 0.0};
    by_factor.background.assign(3, 0.02);
    by_factor.plateau.assign(3, 0.02 + 0.192 / 4.86);
    const auto result = constant_rate(by_factor);
    ASSERT_TRUE(result.ok());
    // the balance of the tracer that was added: q c = (Q + q) rise
    EXPECT_NEAR(result->at_sampler_m3s * 0.192, 0.0018 * 8.0, 1e-12);
}

TEST(ConstantRate, TheUnitOfTheReadingsDoesNotMatter) {
    ConstantRateInput input = exercise();
    input.background = {0.057, 0.058, 0.059};
    input.plateau = {0.249, 0.251, 0.250, 0.250};
    input.factor = Estimate{1.0, 0.01};
    ConstantRateInput other = input;
    for (std::vector<double>* readings : {&other.background, &other.plateau})
        for (double& reading : *readings)
            reading *= 50.0;
    other.factor = Estimate{0.02, 0.0002};
    const Estimate a = constant_rate(input)->flow.discharge.estimate;
    const Estimate b = constant_rate(other)->flow.discharge.estimate;
    EXPECT_NEAR(a.value, b.value, 1e-12);
    EXPECT_NEAR(a.standard_uncertainty, b.standard_uncertainty, 1e-9 * a.value);
}

TEST(ConstantRate, FlowScalesWithTheInjection) {
    ConstantRateInput input = exercise();
    input.injection_m3s.standard_uncertainty = 0.02 * input.injection_m3s.value;
    const Estimate once = constant_rate(input)->flow.discharge.estimate;
    input.injection_m3s.value *= 3.0;
    input.injection_m3s.standard_uncertainty *= 3.0;
    const Estimate thrice = constant_rate(input)->flow.discharge.estimate;
    EXPECT_NEAR(thrice.value, 3.0 * once.value, 1e-12);
    EXPECT_NEAR(thrice.standard_uncertainty, 3.0 * once.standard_uncertainty, 1e-9);
}

TEST(ConstantRate, Findings) {
    ConstantRateInput input = exercise();
    input.plateau = {0.25};
    input.reading_u = 0.001;
    EXPECT_TRUE(has_code(constant_rate(input)->flow.findings, "flow.few_plateau_readings"));
    input.plateau = {0.22, 0.23, 0.24, 0.245, 0.248, 0.25};
    EXPECT_TRUE(has_code(constant_rate(input)->flow.findings, "flow.plateau_not_steady"));
}

TEST(ConstantRate, RefusesBadInput) {
    const auto code = [](const ConstantRateInput& input) {
        const auto result = constant_rate(input);
        return result.ok() ? std::string("accepted") : result.error().code;
    };
    for (const double bad : {kNaN, kInfinity, -kInfinity, -1.0, 1e300}) {
        ConstantRateInput input = exercise();
        input.injection_m3s.value = bad;
        EXPECT_EQ(code(input), "flow.bad_injection") << bad;
        input = exercise();
        input.tracer_kgm3.standard_uncertainty = bad;
        EXPECT_EQ(code(input), "flow.bad_solution") << bad;
        input = exercise();
        input.factor = Estimate{bad, 0.0};
        EXPECT_EQ(code(input), "flow.bad_factor") << bad;
        input = exercise();
        input.plateau[1] = bad;
        EXPECT_EQ(code(input), "flow.bad_tracer_reading") << bad;
        input = exercise();
        input.reading_u = bad;
        EXPECT_EQ(code(input), "flow.bad_option") << bad;
        input = exercise();
        input.mixing_u_rel = bad;
        EXPECT_EQ(code(input), "flow.bad_option") << bad;
    }
    ConstantRateInput input = exercise();
    input.plateau.clear();
    EXPECT_EQ(code(input), "flow.no_plateau");
    input = exercise();
    input.background.clear();
    EXPECT_EQ(code(input), "flow.no_plateau");
    input = exercise();
    std::swap(input.plateau, input.background);
    EXPECT_EQ(code(input), "flow.plateau_not_above");
    input = exercise();
    input.reading_u = 0.2; // the rise drowns in it
    EXPECT_EQ(code(input), "flow.plateau_not_above");
    input = exercise();
    input.plateau.assign(3, 9.0);
    EXPECT_EQ(code(input), "flow.plateau_above_solution");
}

} // namespace
} // namespace rillmark
