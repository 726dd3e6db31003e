// SPDX-License-Identifier: GPL-3.0-or-later
#include "flow/slope_area.h"

#include "checks/checks.h"
#include "checks/coverage.h"
#include "flow/roughness_table.h"
#include "flow_fixtures.h"
#include "structures_fixtures.h"

#include <string>

namespace rillmark {
namespace {

using flow_fixtures::has_code;
using flow_fixtures::kInfinity;
using flow_fixtures::kNaN;

const Estimate kCobbles{0.05, 0.006};

std::vector<SectionPoint> rectangle(double width_m, double bed_m, double wall_m = 3.0) {
    return {{0.0, bed_m + wall_m}, {0.0, bed_m}, {width_m, bed_m}, {width_m, bed_m + wall_m}};
}

std::vector<HighWaterMark> marks_on_line(double level_m, double slope, const std::vector<double>& distances_m) {
    std::vector<HighWaterMark> marks;
    for (const double distance_m : distances_m)
        marks.push_back({static_cast<std::int64_t>(marks.size() + 1), distance_m, level_m - slope * distance_m, false});
    return marks;
}

/// A reach of 120 m in three sections, 0.9 m of fall, wider in the middle.
std::vector<SurveyedSection> reach() {
    return {{1, 0.0, rectangle(6.0, 10.0)}, {2, 60.0, rectangle(6.5, 9.5)}, {3, 120.0, rectangle(6.0, 9.1)}};
}
const std::vector<double> kMarkPlaces_m{0.0, 20.0, 45.0, 60.0, 85.0, 100.0, 120.0};

TEST(SlopeAreaChecks, RectangularChannel) {
    const auto check = checks::entry("flow_structures", "manning-rect-1");
    const auto& in = check["inputs"];
    const auto& out = check["expected"];
    const double relative = check["tolerance"]["relative"];
    const auto result = slope_area(
        {{1, 500.0, rectangle(in["width_m"], 0.0)}},
        marks_on_line(in["depth_m"].get<double>() + 500.0 * in["slope"].get<double>(), in["slope"], {0.0, 1000.0}),
        {in["n"], 0.0});
    ASSERT_TRUE(result.ok()) << result.error().code;
    const SlopeAreaSection& section = result->sections.at(0);
    EXPECT_NEAR(section.wetted.area_m2, out["area_m2"].get<double>(), relative * 4.0);
    EXPECT_NEAR(section.wetted.hydraulic_radius_m(), out["hydraulic_radius_m"].get<double>(), relative * 0.606);
    EXPECT_NEAR(section.velocity_ms, out["velocity_m_s"].get<double>(), relative * 2.387);
    EXPECT_NEAR(result->flow.discharge.estimate.value, out["discharge_m3_s"].get<double>(), relative * 9.548);
    EXPECT_EQ(result->flow.method, FlowMethod::SlopeArea);
    EXPECT_FALSE(flow_method_info(FlowMethod::SlopeArea).for_power);
}

TEST(SlopeAreaChecks, Velocities) {
    const auto check = checks::entry("flow_structures", "manning-lib");
    for (std::size_t i = 0; i < 2; ++i) {
        const double velocity_ms =
            manning_conveyance_m3s(1.0, check["inputs"]["hydraulic_radius_m"][i], check["inputs"]["n"][i]) *
            std::sqrt(check["inputs"]["slope"][i].get<double>());
        const double expected = check["expected"]["velocity_m_s"][i];
        EXPECT_NEAR(velocity_ms, expected, check["tolerance"]["relative"].get<double>() * expected);
    }
}

TEST(SlopeAreaChecks, RatioOfSlopes) {
    const auto check = checks::entry("flow_structures", "slope-ratio");
    const auto flow = [&](double slope) {
        const auto result = slope_area({{1, 0.0, rectangle(50.0, 0.0, 9.0)}},
                                       marks_on_line(3.0, slope, {-5000.0, 0.0, 5000.0}), {0.03, 0.0});
        EXPECT_TRUE(result.ok());
        return result.ok() ? result->flow.discharge.estimate.value : kNaN;
    };
    const double expected = check["expected"]["discharge_2_m3_s"];
    EXPECT_NEAR(check["inputs"]["discharge_m3_s"].get<double>() * flow(check["inputs"]["slope_2"]) /
                    flow(check["inputs"]["slope_1"]),
                expected,
                check["tolerance"]["relative"].get<double>() * expected + 0.0005); // printed to three decimals
}

TEST(SlopeAreaChecks, RoughnessOfMinorStreams) {
    const auto out = checks::entry("flow_structures", "manning-n-chow")["expected"]["n"];
    const auto table = read_channel_roughness();
    ASSERT_TRUE(table.ok()) << table.error().code;
    ASSERT_EQ(table->size(), out.size());
    for (const auto& [label, n] : out.items()) {
        const auto same = [&](const ChannelRoughness& one) {
            return one.lowest == n[0] && one.usual == n[1] && one.highest == n[2];
        };
        EXPECT_EQ(std::ranges::count_if(*table, same), 1) << label;
    }
    EXPECT_EQ(channel_roughness("mountain-boulders")->usual, 0.05);
    EXPECT_NEAR(channel_roughness("mountain-boulders")->estimate().standard_uncertainty, 0.03 / std::sqrt(12.0), 1e-12);
    EXPECT_EQ(channel_roughness("lava").error().code, "flow.unknown_channel");
    EXPECT_EQ(read_channel_roughness({}).error().code, "flow.table_missing");
    const std::vector<EmbeddedText> bad{
        {"manning_n.csv", "id,label,n_min,n_normal,n_max,source,provenance\na,b,0.05,0.04,0.06,s,seen\n"}};
    EXPECT_EQ(read_channel_roughness(bad).error().code, "flow.table_bad_row");
}

TEST(WettedSection, Triangle) {
    const std::vector<SectionPoint> v{{0.0, 2.0}, {2.0, 0.0}, {4.0, 2.0}};
    const WettedSection wet = wetted_section(v, 1.0);
    EXPECT_NEAR(wet.area_m2, 1.0, 1e-12);
    EXPECT_NEAR(wet.width_m, 2.0, 1e-12);
    EXPECT_NEAR(wet.perimeter_m, 2.0 * std::sqrt(2.0), 1e-12);
    EXPECT_FALSE(wet.open);
    const WettedSection over = wetted_section(v, 3.0); // walls of 1 m taken at both ends
    EXPECT_TRUE(over.open);
    EXPECT_NEAR(over.area_m2, 8.0, 1e-12);
    EXPECT_NEAR(over.perimeter_m, 2.0 * std::sqrt(8.0) + 2.0, 1e-12);
    EXPECT_EQ(wetted_section(v, -1.0).area_m2, 0.0);
    EXPECT_EQ(wetted_section({}, 1.0).area_m2, 0.0);
}

TEST(SlopeArea, UniformReachGivesWhatOneSectionGives) {
    const double slope = 0.005;
    const auto at = [&](double distance_m) {
        return SurveyedSection{1, distance_m, rectangle(5.0, -slope * distance_m)};
    };
    const auto marks = marks_on_line(1.0, slope, kMarkPlaces_m);
    const auto one = slope_area({at(60.0)}, marks, kCobbles);
    const auto three = slope_area({at(0.0), at(70.0), at(120.0)}, marks, kCobbles);
    const auto reversed = slope_area({at(120.0), at(0.0), at(70.0)}, marks, kCobbles);
    ASSERT_TRUE(one.ok() && three.ok() && reversed.ok());
    EXPECT_NEAR(three->flow.discharge.estimate.value, one->flow.discharge.estimate.value, 1e-9);
    EXPECT_EQ(reversed->flow.discharge.estimate.value, three->flow.discharge.estimate.value);
    EXPECT_NEAR(structures_fixtures::share_sum(three->flow.discharge), 1.0, 1e-12);
}

// The result put back into the energy equation.
TEST(SlopeArea, EnergyIsKept) {
    const auto result = slope_area(reach(), marks_on_line(11.5, 0.0075, kMarkPlaces_m), kCobbles);
    ASSERT_TRUE(result.ok()) << result.error().code;
    const double flow_m3s = result->flow.discharge.estimate.value;
    const auto head = [](const SlopeAreaSection& s) {
        return s.velocity_ms * s.velocity_ms / (2.0 * kStandardGravity_ms2);
    };
    const auto& s = result->sections;
    double lost_m = 0.0;
    for (std::size_t i = 1; i < s.size(); ++i) {
        lost_m += flow_m3s * flow_m3s * (s[i].distance_m - s[i - 1].distance_m) /
                  (s[i].conveyance_m3s * s[i - 1].conveyance_m3s);
        lost_m += 0.5 * std::max(head(s[i - 1]) - head(s[i]), 0.0); // widening
    }
    EXPECT_NEAR(s[0].level_m + head(s[0]), s[2].level_m + head(s[2]) + lost_m, 1e-9);
}

TEST(SlopeArea, HeightsAndPlacesMayStartAnywhere) {
    const auto marks = marks_on_line(11.5, 0.0075, kMarkPlaces_m);
    const auto plain = slope_area(reach(), marks, kCobbles);
    auto moved = reach();
    auto moved_marks = marks;
    for (SurveyedSection& section : moved) {
        section.distance_m += 1000.0;
        for (SectionPoint& point : section.points) {
            point.height_m += 250.0;
            point.offset_m -= 30.0;
        }
    }
    for (HighWaterMark& mark : moved_marks) {
        mark.distance_m += 1000.0;
        mark.height_m += 250.0;
    }
    const auto other = slope_area(moved, moved_marks, kCobbles);
    ASSERT_TRUE(plain.ok() && other.ok());
    EXPECT_NEAR(other->flow.discharge.estimate.value, plain->flow.discharge.estimate.value, 1e-8);
}

TEST(SlopeArea, IsAlwaysAFloodEstimateWithALargeUncertainty) {
    const auto result = slope_area(reach(), marks_on_line(11.5, 0.0075, kMarkPlaces_m), kCobbles);
    ASSERT_TRUE(result.ok());
    EXPECT_TRUE(has_code(result->flow.findings, "flow.slope_area_flood_only"));
    const Estimate& flow = result->flow.discharge.estimate;
    EXPECT_GT(flow.standard_uncertainty, 0.15 * flow.value);
    EXPECT_LT(flow.standard_uncertainty, 0.30 * flow.value);
}

TEST(SlopeArea, Findings) {
    const auto one =
        slope_area({{1, 60.0, rectangle(5.0, 0.0, 0.5)}}, marks_on_line(1.6, 0.01, kMarkPlaces_m), kCobbles);
    ASSERT_TRUE(one.ok());
    EXPECT_TRUE(has_code(one->flow.findings, "flow.slope_area_one_section"));
    EXPECT_TRUE(has_code(one->flow.findings, "flow.section_open"));
    const auto fast =
        slope_area({{1, 60.0, rectangle(5.0, 0.0)}}, marks_on_line(3.4, 0.04, kMarkPlaces_m), {0.02, 0.002});
    EXPECT_TRUE(has_code(fast->flow.findings, "flow.slope_area_supercritical"));
    auto marks = marks_on_line(11.5, 0.0075, kMarkPlaces_m);
    marks[3].height_m += 0.3;
    const auto off = slope_area(reach(), marks, kCobbles);
    EXPECT_TRUE(has_code(off->flow.findings, "flow.marks_scatter"));
    marks[3].struck = true;
    EXPECT_FALSE(has_code(slope_area(reach(), marks, kCobbles)->flow.findings, "flow.marks_scatter"));
    SlopeAreaOptions exact;
    exact.mark_u_m = 0.001;
    const auto brief = slope_area({{1, 0.0, rectangle(5.0, 0.0)}, {2, 20.0, rectangle(5.0, -0.1)}},
                                  marks_on_line(1.0, 0.005, {0.0, 10.0, 20.0}), kCobbles, exact);
    ASSERT_TRUE(brief.ok());
    EXPECT_TRUE(has_code(brief->flow.findings, "flow.slope_area_fall_small"));
    EXPECT_TRUE(has_code(brief->flow.findings, "flow.slope_area_reach_short"));
}

TEST(SlopeArea, BadInput) {
    const auto good = marks_on_line(11.5, 0.0075, kMarkPlaces_m);
    const auto refused = [](const std::vector<SurveyedSection>& sections, const std::vector<HighWaterMark>& marks,
                            const Estimate& n = kCobbles, const SlopeAreaOptions& options = {}) {
        const auto result = slope_area(sections, marks, n, options);
        EXPECT_FALSE(result.ok());
        return result.ok() ? std::string() : result.error().code;
    };
    EXPECT_EQ(refused({}, good), "flow.slope_area_sections");
    EXPECT_EQ(refused({4, reach()[0]}, good), "flow.slope_area_sections");
    EXPECT_EQ(refused({reach()[0], reach()[0]}, good), "flow.same_section");
    EXPECT_EQ(refused({{1, 0.0, {{0.0, 1.0}, {1.0, 0.0}}}}, good), "flow.section_bad");
    EXPECT_EQ(refused({{1, 0.0, {{0.0, 1.0}, {2.0, 0.0}, {1.0, 1.0}}}}, good), "flow.section_bad");
    EXPECT_EQ(refused({{1, kNaN, rectangle(5.0, 0.0)}}, good), "flow.section_bad");
    EXPECT_EQ(refused({{1, 0.0, rectangle(5.0, kInfinity)}}, good), "flow.section_bad");
    EXPECT_EQ(refused(reach(), {}), "flow.few_marks");
    EXPECT_EQ(refused(reach(), marks_on_line(11.5, 0.0075, {10.0, 10.0})), "flow.few_marks");
    EXPECT_EQ(refused(reach(), {{1, 0.0, kNaN, false}, {2, 9.0, 1.0, false}}), "flow.bad_mark");
    EXPECT_EQ(refused(reach(), marks_on_line(11.5, -0.0075, kMarkPlaces_m)), "flow.slope_not_clear");
    EXPECT_EQ(refused(reach(), marks_on_line(11.5, 0.0001, kMarkPlaces_m)), "flow.slope_not_clear");
    EXPECT_EQ(refused(reach(), marks_on_line(9.0, 0.0075, kMarkPlaces_m)), "flow.section_dry");
    EXPECT_EQ(refused({{1, 0.0, rectangle(60.0, 0.0)}, {2, 20.0, rectangle(0.5, 0.0)}},
                      marks_on_line(1.0, -0.002, kMarkPlaces_m)),
              "flow.slope_not_clear");
    // a narrow, deep section feeding one so much wider that the recovered head exceeds the friction
    EXPECT_EQ(refused({{1, 0.0, rectangle(1.0, 0.0)}, {2, 5.0, rectangle(30.0, -2.0)}},
                      marks_on_line(1.0, 0.0075, kMarkPlaces_m), {0.011, 0.001}),
              "flow.slope_area_no_solution");
    for (const double n : {0.0, -0.05, 1.0, kNaN})
        EXPECT_EQ(refused(reach(), good, {n, 0.0}), "flow.bad_option");
    EXPECT_EQ(refused(reach(), good, {0.05, -0.01}), "flow.bad_option");
    SlopeAreaOptions options;
    options.mark_u_m = 0.0;
    EXPECT_EQ(refused(reach(), good, kCobbles, options), "flow.bad_option");
}

// Marks drawn about the true line; n, the areas and the method about what is taken, since there the truth is what is
// not known.
TEST(SlopeArea, ReportedUncertaintyCoversTheTruth) {
    for (const std::size_t count : {1U, 3U})
        checks::expect_coverage(4303, [&](checks::Errors& error) {
            const SlopeAreaOptions options;
            std::vector<SurveyedSection> sections = reach();
            sections.resize(count);
            const auto marks = marks_on_line(11.5, 0.0075, kMarkPlaces_m);
            const double area = 1.0 + error.normal(options.area_u_rel);
            SlopeAreaOptions exact;
            exact.area_u_rel = exact.method_u_rel = 0.0;
            exact.mark_u_m = 0.001;
            const Estimate true_n{kCobbles.value + error.normal(kCobbles.standard_uncertainty), 0.0};
            const auto truth = slope_area(sections, marks, true_n, exact);
            EXPECT_TRUE(truth.ok());
            // conveyance goes with the area to the power 5/3; velocity heads are small in this reach
            const double truth_m3s = truth.value_or({}).flow.discharge.estimate.value * std::pow(area, 5.0 / 3.0) *
                                     (1.0 + error.normal(options.method_u_rel));
            auto seen = marks;
            for (HighWaterMark& mark : seen)
                mark.height_m += error.normal(options.mark_u_m);
            const auto result = slope_area(sections, seen, kCobbles, options);
            EXPECT_TRUE(result.ok());
            return checks::Simulated{truth_m3s, result.value_or({}).flow.discharge.estimate};
        });
}

} // namespace
} // namespace rillmark
