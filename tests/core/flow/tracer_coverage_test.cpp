// SPDX-License-Identifier: GPL-3.0-or-later
// The interval that is reported (k = 2) holds the truth in 93 to 97 % of simulated tests whose errors follow the
// budget.
#include "checks/coverage.h"
#include "flow/constant_rate.h"
#include "flow/float_gauging.h"
#include "flow/salt_slug.h"
#include "flow/student_factor.h"
#include "tracer_fixtures.h"

namespace rillmark {
namespace {

using namespace tracer_fixtures;
using checks::Errors;
using checks::expect_coverage;
using checks::Simulated;

TEST(TracerCoverage, Floats) {
    expect_coverage(31, [&](Errors& error) {
        const double k = 0.67 + error.normal(kFloatCoefficient_u); // the table's line for 0.5 m
        const double surface_ms = 0.4;
        const double truth_m3s = k * surface_ms * 4.0 * 0.5;
        const double wind = 1.0 + error.normal(kLightWind_u_rel);
        const double length = 1.0 + error.normal(0.01);
        const double reaction_s = error.within(0.2);
        std::vector<FloatRun> runs;
        for (int run = 0; run < 5; ++run)
            runs.push_back(
                {run, 20.0 / (surface_ms * wind * (1.0 + error.normal(0.12))) + reaction_s, 20.0 * length, {}, false});
        std::vector<FloatSection> sections;
        for (int section = 0; section < 2; ++section)
            sections.push_back({{}, 4.0 * (1.0 + error.normal(0.05)), 0.5});
        FloatOptions options;
        options.wind = FloatWind::Light;
        const auto result = float_gauging(runs, sections, options);
        EXPECT_TRUE(result.ok());
        return Simulated{truth_m3s, result->flow.discharge.estimate};
    });
}

/// The background between the two windows drifts by a power of the time, so that its area errs as the budget takes it.
double drift_at(double part, double error) {
    const double power = 2.0 / (1.0 + error) - 1.0; // area 1/(power + 1), off the straight line's 1/2 by error/2
    return std::pow(std::clamp(part, 0.0, 1.0), power);
}

TEST(TracerCoverage, SaltSlug) {
    const CloudTrace cloud;
    const std::vector<TraceReading> clean = readings_of(cloud);
    const double start_s = 50.0;
    const double end_s = 400.0;
    expect_coverage(32, [&](Errors& error) {
        const double truth_m3s = 1.0 / (4.86 * cloud.area_Ss_m);
        const double mixing = 1.0 + error.normal(0.02);
        const double drift_Sm = 0.00005;
        const double shape = error.triangular(0.98);
        std::vector<TraceReading> readings = clean;
        for (TraceReading& reading : readings) {
            const double part = (reading.time_s - start_s) / (end_s - start_s);
            *reading.ec_Sm = cloud.background_Sm + drift_Sm * drift_at(part, shape) +
                             mixing * (*reading.ec_Sm - cloud.background_Sm) + error.normal(0.00005);
        }
        const PreparedTrace trace = prepared(readings);
        SlugProbe probe;
        probe.integral = integrated(trace, {start_s, end_s, TimeWindow{0.0, start_s}, TimeWindow{end_s, 600.0}});
        probe.factor = {4.86 * (1.0 + error.normal(0.01)), 0.01 * 4.86};
        SaltDose dose;
        dose.mass_kg = 1.0 + error.normal(0.01);
        const auto result = salt_slug(dose, {probe}, {0.02, {}, {}});
        EXPECT_TRUE(result.ok());
        return Simulated{truth_m3s, result->flow.discharge.estimate};
    });
}

TEST(TracerCoverage, SaltSlugOfWhichTheNoiseIsTheLargestPart) {
    const CloudTrace cloud;
    const std::vector<TraceReading> clean = readings_of(cloud);
    expect_coverage(33, [&](Errors& error) {
        std::vector<TraceReading> readings = clean;
        for (TraceReading& reading : readings)
            *reading.ec_Sm += error.normal(0.0004);
        SlugProbe probe;
        probe.integral = integrated(prepared(readings), {50.0, 350.0, TimeWindow{0.0, 50.0}, TimeWindow{350.0, 600.0}});
        probe.integral.drift_u = 0.0; // there is none, and what the noise feigns of it is not to hide the rest
        probe.factor = {4.86, 0.0};
        SaltDose dose;
        dose.mass_kg = 1.0;
        dose.u_rel = 0.0;
        const auto result = salt_slug(dose, {probe}, {0.0, {}, {}});
        EXPECT_TRUE(result.ok());
        return Simulated{1.0 / (4.86 * cloud.area_Ss_m), result->flow.discharge.estimate};
    });
}

TEST(TracerCoverage, ConstantRate) {
    expect_coverage(34, [&](Errors& error) {
        const double truth_m3s = 0.0018 * (8.0 - 0.25) / (0.25 - 0.058);
        ConstantRateInput input;
        input.injection_m3s = {0.0018 * (1.0 + error.normal(0.01)), 0.000018};
        input.tracer_kgm3 = {8.0 * (1.0 + error.normal(0.01)), 0.08};
        const double mixing = error.normal(0.02);
        for (int reading = 0; reading < 5; ++reading) {
            input.background.push_back(0.058 + error.normal(0.004));
            input.plateau.push_back(0.058 + 0.192 * (1.0 + mixing) + error.normal(0.004));
        }
        input.mixing_u_rel = 0.02;
        const auto result = constant_rate(input);
        EXPECT_TRUE(result.ok());
        return Simulated{truth_m3s, result->flow.discharge.estimate};
    });
}

TEST(TracerCoverage, StudentFactorOfTheTable) {
    // JCGM 100:2008, table G.2, column 95.45 %
    for (const auto& [degrees, t] :
         {std::pair{1, 13.97}, {2, 4.53}, {5, 2.65}, {10, 2.28}, {15, 2.18}, {20, 2.13}, {50, 2.05}})
        EXPECT_NEAR(2.0 * student_factor(degrees), t, 0.006) << degrees;
    EXPECT_EQ(student_factor(0), student_factor(1));
}

} // namespace
} // namespace rillmark
