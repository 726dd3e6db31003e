// SPDX-License-Identifier: GPL-3.0-or-later
#include "flow/container.h"

#include "checks/checks.h"
#include "flow/student_factor.h"
#include "flow_fixtures.h"

#include <cmath>

namespace rillmark {
namespace {

using flow_fixtures::find_code;
using flow_fixtures::has_code;
using flow_fixtures::kInfinity;
using flow_fixtures::kNaN;
using flow_fixtures::number_arg;

std::vector<ContainerFill> fills_of(double volume_m3, const std::vector<double>& times_s) {
    std::vector<ContainerFill> fills;
    for (const double time_s : times_s)
        fills.push_back({static_cast<std::int64_t>(fills.size() + 1), volume_m3, time_s, false});
    return fills;
}

// Computed independently from the law of propagation (GUM); the example is constructed.
TEST(Container, UncertaintyCheck) {
    const auto check = checks::entry("flow", "container-uncertainty");
    const auto& in = check["inputs"];
    const auto& out = check["expected"];
    const double tolerance = check["tolerance"]["relative"];
    const auto result = container(fills_of(in["volume_L"].get<double>() / 1000.0, in["times_s"]),
                                  {in["volume_u_rel"], in["reaction_half_width_s"]});
    ASSERT_TRUE(result.ok());
    const Estimate flow = result->discharge.estimate;
    const double flow_l_s = out["flow_L_s"];
    EXPECT_NEAR(flow.value * 1000.0, flow_l_s, tolerance * flow_l_s);
    // The example leaves Student's factor out: 4 degrees for the scatter alone are 37 for the whole, a factor of 1.03.
    const double u_pct = out["u_rel_pct"];
    double variance = 0.0;
    for (const BudgetLine& line : result->discharge.budget)
        variance += std::pow(line.contribution / (line.input == "flow.fill_scatter" ? student_factor(37) : 1.0), 2);
    EXPECT_NEAR(100.0 * std::sqrt(variance) / flow.value, u_pct, tolerance * u_pct);
    const double expanded_pct = out["U95_pct"];
    EXPECT_NEAR(200.0 * std::sqrt(variance) / flow.value, expanded_pct, tolerance * expanded_pct);
    EXPECT_GT(100.0 * flow.standard_uncertainty / flow.value, u_pct);
    ASSERT_EQ(result->findings.size(), 1U); // one fill took 9.8 s
    EXPECT_EQ(result->findings[0].code, "flow.fill_short");
    EXPECT_EQ(result->method, FlowMethod::Container);
}

// The source averages V/t (biased high); each fill by itself agrees, and the sum rule is a little lower than its mean.
// Volumes in ounces and the source's constant: the rule is the same in any unit.
TEST(Container, GallonsPerMinuteCheck) {
    const auto check = checks::entry("flow", "container-gpm");
    const double tolerance = check["tolerance"]["relative"];
    const double gpm_per_oz_s = 0.469; // as in the source
    const std::vector<double> times = check["inputs"]["time_s"];
    const double volume = check["inputs"]["volume_oz"];
    for (std::size_t i = 0; i < times.size(); ++i) {
        const auto one = container(fills_of(volume, {times[i]}));
        ASSERT_TRUE(one.ok());
        const double expected = check["expected"]["flow_gpm"][i];
        EXPECT_NEAR(one->discharge.estimate.value * gpm_per_oz_s, expected, tolerance * expected);
    }
    const auto all = container(fills_of(volume, times));
    ASSERT_TRUE(all.ok());
    const double mean_of_ratios = check["expected"]["mean_gpm"];
    EXPECT_LT(all->discharge.estimate.value * gpm_per_oz_s, mean_of_ratios);
    EXPECT_NEAR(all->discharge.estimate.value * gpm_per_oz_s, mean_of_ratios, 0.001 * mean_of_ratios);
}

TEST(Container, GuidanceOfTheSource) {
    const auto check = checks::entry("flow", "container-rules");
    EXPECT_EQ(kShortestFill_s, check["expected"]["min_fill_time_s"].get<double>());
    EXPECT_EQ(kMinimumFills, check["expected"]["min_repeats"].get<int>());
}

TEST(Container, DifferentVolumesAreAddedUp) {
    const auto result = container({{1, 0.010, 10.0, false}, {2, 0.020, 21.0, false}, {3, 0.030, 29.0, false}});
    ASSERT_TRUE(result.ok());
    EXPECT_DOUBLE_EQ(result->discharge.estimate.value, 0.060 / 60.0);
}

TEST(Container, SteadyFillsOfDifferentVolumesDoNotScatter) {
    const auto result =
        container({{1, 0.010, 10.0, false}, {2, 0.020, 20.0, false}, {3, 0.030, 30.0, false}}, {0.0, 0.0});
    ASSERT_TRUE(result.ok());
    EXPECT_NEAR(result->discharge.estimate.standard_uncertainty, 0.0, 1e-15);
}

TEST(Container, OrderDoesNotMatter) {
    const auto a = container(fills_of(0.02, {10.2, 9.8, 10.1, 10.4}));
    const auto b = container(fills_of(0.02, {10.4, 10.1, 9.8, 10.2}));
    ASSERT_TRUE(a.ok() && b.ok());
    EXPECT_NEAR(a->discharge.estimate.value, b->discharge.estimate.value, 1e-15);
    EXPECT_NEAR(a->discharge.estimate.standard_uncertainty, b->discharge.estimate.standard_uncertainty, 1e-15);
}

TEST(Container, FlowScalesWithVolume) {
    const auto a = container(fills_of(0.02, {10.2, 9.8, 10.1}));
    const auto b = container(fills_of(0.06, {10.2, 9.8, 10.1}));
    ASSERT_TRUE(a.ok() && b.ok());
    EXPECT_NEAR(b->discharge.estimate.value, 3.0 * a->discharge.estimate.value, 1e-15);
    EXPECT_NEAR(b->discharge.estimate.standard_uncertainty, 3.0 * a->discharge.estimate.standard_uncertainty, 1e-15);
}

TEST(Container, MoreFillsNeverLessenTheWatchAndTheVolume) {
    std::vector<double> many(400, 10.0);
    const auto result = container(fills_of(0.02, many), {0.01, 0.2});
    ASSERT_TRUE(result.ok());
    const double floor = std::hypot(0.01, 0.2 / std::sqrt(3.0) / 10.0);
    EXPECT_NEAR(result->discharge.estimate.standard_uncertainty / result->discharge.estimate.value, floor, 1e-12);
}

TEST(Container, FewFillsAreNotTrusted) {
    const auto two_equal = container(fills_of(0.02, {10.0, 10.0}), {0.0, 0.0});
    ASSERT_TRUE(two_equal.ok());
    EXPECT_NEAR(two_equal->discharge.estimate.standard_uncertainty / two_equal->discharge.estimate.value,
                kAssumedFillScatter_rel / std::sqrt(2.0), 1e-12);
    EXPECT_TRUE(has_code(two_equal->findings, "flow.few_fills"));
}

TEST(Container, StruckFillsAreLeftOut) {
    auto fills = fills_of(0.02, {10.2, 9.8, 10.1});
    const auto without = container(fills);
    fills.insert(fills.begin(), {9, -5.0, kNaN, true});
    const auto with = container(fills);
    ASSERT_TRUE(without.ok() && with.ok());
    EXPECT_EQ(with->discharge.estimate.value, without->discharge.estimate.value);
    EXPECT_EQ(with->discharge.estimate.standard_uncertainty, without->discharge.estimate.standard_uncertainty);
}

TEST(Container, WarnsOfShortFillsAndScatter) {
    const auto brief = container(fills_of(0.02, {2.0, 2.1, 2.05}));
    ASSERT_TRUE(brief.ok());
    EXPECT_TRUE(has_code(brief->findings, "flow.fill_too_short"));
    EXPECT_FALSE(has_code(brief->findings, "flow.fill_short"));
    const auto rather_brief = container(fills_of(0.02, {6.0, 6.0, 6.1}));
    ASSERT_TRUE(rather_brief.ok());
    EXPECT_TRUE(has_code(rather_brief->findings, "flow.fill_short"));
    EXPECT_FALSE(has_code(rather_brief->findings, "flow.fills_scatter"));
    const auto scattered = container(fills_of(0.02, {12.0, 12.1, 15.0, 11.9}));
    ASSERT_TRUE(scattered.ok());
    ASSERT_TRUE(has_code(scattered->findings, "flow.fills_scatter"));
    EXPECT_EQ(number_arg(*find_code(scattered->findings, "flow.fills_scatter"), "row"), 3.0);
}

TEST(Container, BudgetSharesSumToOneAndAreSorted) {
    const auto result = container(fills_of(0.02, {10.2, 9.8, 10.1}));
    ASSERT_TRUE(result.ok());
    const auto& budget = result->discharge.budget;
    ASSERT_EQ(budget.size(), 3U);
    EXPECT_NEAR(budget[0].share + budget[1].share + budget[2].share, 1.0, 1e-12);
    EXPECT_GE(budget[0].share, budget[1].share);
    EXPECT_GE(budget[1].share, budget[2].share);
}

TEST(Container, RefusesImpossibleFills) {
    for (const double bad : {kNaN, kInfinity, -kInfinity, -1.0, 0.0, 1e-320, 1e300}) {
        const auto volume = container({{1, 0.02, 10.0, false}, {2, bad, 10.0, false}});
        ASSERT_FALSE(volume.ok()) << bad;
        EXPECT_EQ(volume.error().code, "flow.bad_volume");
        EXPECT_EQ(number_arg(volume.error(), "row"), 2.0);
        const auto time = container({{1, 0.02, bad, false}});
        ASSERT_FALSE(time.ok()) << bad;
        EXPECT_EQ(time.error().code, "flow.bad_time");
        EXPECT_EQ(time.error().where, "time_s");
    }
    EXPECT_EQ(container({}).error().code, "flow.no_fills");
    EXPECT_EQ(container({{1, 0.02, 10.0, true}}).error().code, "flow.no_fills");
}

TEST(Container, RefusesImpossibleOptions) {
    for (const double bad : {kNaN, kInfinity, -0.01, 99.0}) {
        EXPECT_EQ(container(fills_of(0.02, {10.0}), {bad, 0.2}).error().code, "flow.bad_option") << bad;
        EXPECT_EQ(container(fills_of(0.02, {10.0}), {0.01, bad}).error().where, "reaction_half_width_s") << bad;
    }
}

// Density of water at 10 and 25 deg C: 999.7026 and 997.0470 kg/m3 (Tanaka 2001, computed independently).
TEST(Container, VolumeByWeight) {
    EXPECT_NEAR(weighed_volume_m3(10.797, 0.8).value(), 0.009997 / 0.9997026, 1e-8);
    EXPECT_NEAR(weighed_volume_m3(10.797, 0.8, 25.0).value(), 0.009997 / 0.997047, 1e-8);
    EXPECT_LT(weighed_volume_m3(10.797, 0.8, 10.0).value(), weighed_volume_m3(10.797, 0.8, 25.0).value());
}

TEST(Container, RefusesWeightsOfNoWater) {
    for (const double bad : {flow_fixtures::kNaN, flow_fixtures::kInfinity, -1.0, 0.8, 0.5, 1e9})
        EXPECT_EQ(weighed_volume_m3(bad, 0.8).error().code, "flow.bad_weight") << bad;
    for (const double bad : {flow_fixtures::kNaN, -0.1, 11.0})
        EXPECT_EQ(weighed_volume_m3(10.0, bad).error().code, "flow.bad_weight") << bad;
    EXPECT_EQ(weighed_volume_m3(10.0, 0.8, 60.0).error().code, "power.water_temperature_out_of_range");
}

} // namespace
} // namespace rillmark
