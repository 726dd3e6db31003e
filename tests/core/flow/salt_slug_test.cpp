// SPDX-License-Identifier: GPL-3.0-or-later
#include "flow/salt_slug.h"

#include "flow/salt_calibration.h"
#include "tracer_fixtures.h"

namespace rillmark {
namespace {

using namespace tracer_fixtures;

SaltDose dry(double mass_kg) {
    SaltDose dose;
    dose.mass_kg = mass_kg;
    return dose;
}

SlugProbe probe_of(const CloudTrace& cloud, const std::string& name = "left") {
    const PreparedTrace trace = prepared(readings_of(cloud));
    SlugProbe probe;
    probe.name = name;
    probe.integral = integrated(trace, suggest_windows(trace));
    probe.factor = {4.86, 0.02};
    return probe;
}

TEST(SaltSlug, LancasterWorksheet) {
    const auto published = check("salt-slug-lancaster");
    const auto& in = published["inputs"];
    std::vector<TraceReading> readings;
    const double background_Sm = in["background_ec_uS_cm"].get<double>() * kMicro;
    for (std::size_t i = 0; i < in["time_s"].size(); ++i) // 1 uS/cm stands for 1 mg/L here
        readings.push_back({in["time_s"][i], background_Sm + in["net_conc_mg_L"][i].get<double>() * kMicro, {}, false});
    SlugProbe probe;
    probe.integral = integrated(prepared(readings), {0.0, 480.0, TimeWindow{0.0, 90.0}, {}});
    probe.factor = {kFactor, 0.0};
    const double tolerance = published["tolerance"]["relative"];
    const double integral = published["expected"]["integral_mg_s_L"];
    EXPECT_NEAR(probe.integral.area_Ss_m / kMicro, integral, tolerance * integral);
    SaltDose dose;
    dose.solution_m3 = in["tracer_volume_L"].get<double>() * kMilli;
    dose.solution_kgm3 = in["tracer_conc_mg_L"].get<double>() * kMilli;
    const auto result = salt_slug(dose, {probe});
    ASSERT_TRUE(result.ok());
    const double expected = published["expected"]["discharge_L_s"];
    EXPECT_NEAR(result->flow.discharge.estimate.value / kMilli, expected, tolerance * expected);
    EXPECT_EQ(result->flow.method, FlowMethod::SaltSlug);
}

TEST(SaltSlug, UbcRiver) {
    const auto published = check("salt-slug-ubc-2012-A");
    std::vector<TraceReading> readings;
    for (const auto& [time_s, uScm] : file_columns("salt_ubc_2012_A_trace.csv"))
        readings.push_back({time_s, uScm * kMicro, {}, false});
    const PreparedTrace trace = prepared(readings);
    EXPECT_EQ(std::ranges::count_if(trace.marks, [](ReadingMark mark) { return mark != ReadingMark::Used; }),
              published["expected"]["bad_readings"].get<int>());
    const auto& window = published["inputs"]["background_window_s"];
    SlugProbe probe;
    probe.factor = {published["expected"]["slope_mg_L_per_uS_cm"].get<double>() * kFactor, 0.0};
    probe.integral =
        integrated(trace, {readings.front().time_s, readings.back().time_s, TimeWindow{window[0], window[1]}, {}});
    EXPECT_NEAR(probe.integral.background_start_Sm / kMicro, published["expected"]["background_ec_uS_cm"].get<double>(),
                1e-9);
    const double expected = published["expected"]["discharge_m3_s"];
    const auto result = salt_slug(dry(published["inputs"]["salt_mass_kg"]), {probe});
    ASSERT_TRUE(result.ok());
    EXPECT_NEAR(result->flow.discharge.estimate.value, expected,
                published["tolerance"]["relative"].get<double>() * expected);
    // another sensible choice of windows is allowed 1.5 %
    probe.integral = integrated(trace, suggest_windows(trace));
    EXPECT_NEAR(salt_slug(dry(100.0), {probe})->flow.discharge.estimate.value, expected, 0.015 * expected);
}

TEST(SaltSlug, ATraceScaledInTimeAndSaltGivesTheSameFlow) {
    const double flow = salt_slug(dry(1.0), {probe_of({})})->flow.discharge.estimate.value;
    EXPECT_NEAR(flow, 1.0 / (4.86 * 0.3), 0.002 * flow);
    for (const double k : {0.5, 3.0}) {
        CloudTrace scaled;
        scaled.tau_s *= k;
        scaled.arrives_s *= k;
        scaled.length_s *= k;
        scaled.step_s *= k;
        scaled.area_Ss_m *= k;
        EXPECT_NEAR(salt_slug(dry(k), {probe_of(scaled)})->flow.discharge.estimate.value, flow, 1e-9) << k;
        CloudTrace saltier;
        saltier.area_Ss_m *= k;
        EXPECT_NEAR(salt_slug(dry(k), {probe_of(saltier)})->flow.discharge.estimate.value, flow, 1e-3 * flow) << k;
    }
}

TEST(SaltSlug, TwoProbesAreAveragedAndCompared) {
    CloudTrace more;
    more.area_Ss_m = 0.33;
    const auto a = salt_slug(dry(1.0), {probe_of({})});
    const auto b = salt_slug(dry(1.0), {probe_of(more)});
    const auto both = salt_slug(dry(1.0), {probe_of({}), probe_of(more, "right")});
    ASSERT_TRUE(a.ok() && b.ok() && both.ok());
    EXPECT_NEAR(both->flow.discharge.estimate.value,
                0.5 * (a->flow.discharge.estimate.value + b->flow.discharge.estimate.value), 1e-12);
    EXPECT_TRUE(has_code(both->flow.findings, "flow.probes_disagree"));
    EXPECT_FALSE(has_code(both->flow.findings, "flow.one_probe"));
    EXPECT_TRUE(has_code(a->flow.findings, "flow.one_probe"));
    const auto agreeing = salt_slug(dry(1.0), {probe_of({}), probe_of({}, "right")});
    EXPECT_TRUE(agreeing->flow.findings.empty());
    EXPECT_LT(agreeing->flow.discharge.estimate.standard_uncertainty, a->flow.discharge.estimate.standard_uncertainty);
    EXPECT_GT(both->flow.discharge.estimate.standard_uncertainty,
              agreeing->flow.discharge.estimate.standard_uncertainty);
}

TEST(SaltSlug, TheFactorOfOneCalibrationDoesNotAverageOut) {
    SlugProbe one = probe_of({});
    one.factor.standard_uncertainty = 0.0486;
    SlugProbe two = one;
    two.name = "right";
    SlugOptions mixed;
    mixed.mixing_u_rel = 0.0;
    SaltDose exact = dry(1.0);
    exact.u_rel = 0.0;
    const auto result = salt_slug(exact, {one, two}, mixed);
    ASSERT_TRUE(result.ok());
    EXPECT_NEAR(result->flow.discharge.estimate.standard_uncertainty / result->flow.discharge.estimate.value, 0.01,
                1e-4);
}

TEST(SaltSlug, BudgetSharesSumToOne) {
    const auto result = salt_slug(dry(1.0), {probe_of({})});
    double sum = 0.0;
    for (const BudgetLine& line : result->flow.discharge.budget)
        sum += line.share;
    EXPECT_NEAR(sum, 1.0, 1e-12);
    EXPECT_EQ(result->flow.discharge.budget.front().input, "flow.salt_mixing");
}

TEST(SaltSlug, Findings) {
    SlugOptions options;
    options.reach_m = 40.0;
    options.width_m = 3.0;
    EXPECT_TRUE(has_code(salt_slug(dry(1.0), {probe_of({})}, options)->flow.findings, "flow.reach_short"));
    options.reach_m = 61.0;
    EXPECT_FALSE(has_code(salt_slug(dry(1.0), {probe_of({})}, options)->flow.findings, "flow.reach_short"));
    SlugProbe probe = probe_of({});
    probe.highest_calibrated_Sm = probe.integral.peak_Sm - 0.0001;
    EXPECT_TRUE(has_code(salt_slug(dry(1.0), {probe})->flow.findings, "flow.above_calibration"));
    CloudTrace mineral;
    mineral.background_Sm = 0.06;
    probe = probe_of(mineral);
    probe.generic_factor = true;
    EXPECT_TRUE(has_code(salt_slug(dry(1.0), {probe})->flow.findings, "flow.generic_factor_doubtful"));
    CloudTrace deadly;
    deadly.area_Ss_m = 15.0;
    EXPECT_TRUE(has_code(salt_slug(dry(1.0), {probe_of(deadly)})->flow.findings, "flow.chloride_above_limit"));
}

TEST(SaltSlug, RefusesBadInput) {
    const SlugProbe good = probe_of({});
    const auto code = [](const auto& result) { return result.ok() ? std::string("accepted") : result.error().code; };
    EXPECT_EQ(code(salt_slug(dry(1.0), {})), "flow.no_probe");
    EXPECT_EQ(code(salt_slug({}, {good})), "flow.dose_unclear");
    SaltDose both = dry(1.0);
    both.solution_m3 = 0.01;
    EXPECT_EQ(code(salt_slug(both, {good})), "flow.dose_unclear");
    SaltDose half;
    half.solution_m3 = 0.01;
    EXPECT_EQ(code(salt_slug(half, {good})), "flow.dose_unclear");
    EXPECT_EQ(code(salt_slug(dry(1.0), {SlugProbe{"", {}, {4.86, 0.0}, false, {}}})), "flow.bad_area");
    for (const double bad : {kNaN, kInfinity, -kInfinity, -1.0, 1e300}) {
        EXPECT_EQ(code(salt_slug(dry(bad), {good})), "flow.bad_mass") << bad;
        SaltDose solution;
        solution.solution_m3 = bad;
        solution.solution_kgm3 = 50.0;
        EXPECT_EQ(code(salt_slug(solution, {good})), "flow.bad_dose_volume") << bad;
        solution.solution_m3 = 0.01;
        solution.solution_kgm3 = bad;
        EXPECT_EQ(code(salt_slug(solution, {good})), "flow.bad_solution") << bad;
        SlugProbe probe = good;
        probe.factor.value = bad;
        EXPECT_EQ(code(salt_slug(dry(1.0), {probe})), "flow.bad_factor") << bad;
        probe = good;
        probe.factor.standard_uncertainty = bad;
        EXPECT_EQ(code(salt_slug(dry(1.0), {probe})), "flow.bad_factor") << bad;
        probe = good;
        probe.integral.area_Ss_m = bad;
        EXPECT_EQ(code(salt_slug(dry(1.0), {probe})), "flow.bad_area") << bad;
        SlugOptions options;
        options.mixing_u_rel = bad;
        EXPECT_EQ(code(salt_slug(dry(1.0), {good}, options)), "flow.bad_option") << bad;
    }
}

} // namespace
} // namespace rillmark
