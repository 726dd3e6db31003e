// SPDX-License-Identifier: GPL-3.0-or-later
#include "flow/velocity_area.h"

#include "checks/checks.h"
#include "flow_fixtures.h"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <random>
#include <string>

namespace rillmark {
namespace {

using flow_fixtures::at_fraction;
using flow_fixtures::bank;
using flow_fixtures::creek;
using flow_fixtures::kInfinity;
using flow_fixtures::kNaN;
using flow_fixtures::number_arg;
using flow_fixtures::one_point;

double mid_m3s(const std::vector<Vertical>& verticals, const VelocityAreaOptions& options = {}) {
    const auto result = velocity_area(verticals, options);
    return result.ok() ? result->flow.discharge.estimate.value : kNaN;
}

void expect_near(double value, double expected, const nlohmann::json& check) {
    EXPECT_NEAR(value, expected, check["tolerance"]["relative"].get<double>() * std::abs(expected));
}

// Published segments have widths and no distances: verticals are placed so that each panel gets its width.
TEST(VelocityArea, SegmentsOfAnExamPaper) {
    const auto check = checks::entry("flow", "va-segments-gate-2023");
    const auto& in = check["inputs"];
    std::vector<Vertical> verticals{bank(0.0)};
    for (std::size_t i = 0; i < in["depth_m"].size(); ++i) {
        Vertical vertical;
        vertical.distance_m = 1.5 * static_cast<double>(i + 1);
        vertical.depth_m = in["depth_m"][i];
        if (in["v06_m_s"][i].is_null())
            vertical.points = {at_fraction(0.2, in["v02_m_s"][i]), at_fraction(0.8, in["v08_m_s"][i])};
        else
            vertical.points = {at_fraction(0.6, in["v06_m_s"][i])};
        verticals.push_back(vertical);
    }
    verticals.push_back(bank(12.0));
    const auto result = velocity_area(verticals);
    ASSERT_TRUE(result.ok());
    expect_near(result->flow.discharge.estimate.value, check["expected"]["discharge_m3_s"], check);
    for (std::size_t i = 0; i < in["depth_m"].size(); ++i) {
        expect_near(result->panels[i + 1].velocity_ms, check["expected"]["mean_velocity_m_s"][i], check);
        expect_near(result->panels[i + 1].discharge_m3s, check["expected"]["partial_discharge_m3_s"][i], check);
        expect_near(result->panels[i + 1].width_m, in["width_m"][i], check);
    }
}

TEST(VelocityArea, FiveSegments) {
    const auto check = checks::entry("flow", "va-segments-5");
    const auto& in = check["inputs"];
    const std::vector<double> distances{3.0, 6.0, 11.0, 16.0, 19.0}; // gaps 3 3 5 5 3 3: panels 3 4 5 4 3
    std::vector<Vertical> verticals{bank(0.0)};
    for (std::size_t i = 0; i < distances.size(); ++i)
        verticals.push_back(one_point(distances[i], in["depth_m"][i], in["velocity_m_s"][i]));
    verticals.push_back(bank(22.0));
    const auto result = velocity_area(verticals);
    ASSERT_TRUE(result.ok());
    expect_near(result->flow.discharge.estimate.value, check["expected"]["discharge_m3_s"], check);
    for (std::size_t i = 0; i < distances.size(); ++i) {
        expect_near(result->panels[i + 1].width_m, in["width_m"][i], check);
        expect_near(result->panels[i + 1].discharge_m3s, check["expected"]["partial_discharge_m3_s"][i], check);
    }
}

TEST(VelocityArea, RevolutionsAndSecondsOnTwelveStations) {
    const auto check = checks::entry("flow", "va-mid-rating-0.32");
    const auto& in = check["inputs"];
    std::vector<Vertical> verticals;
    for (std::size_t i = 0; i < in["distance_m"].size(); ++i) {
        PointReading reading;
        reading.revolutions = in["revolutions"][i].get<double>();
        reading.time_s = in["time_s"][i].get<double>();
        Vertical vertical;
        vertical.distance_m = in["distance_m"][i];
        vertical.depth_m = in["depth_m"][i];
        vertical.points = {reading};
        verticals.push_back(vertical);
    }
    VelocityAreaOptions options;
    options.meter = {"m", {{0.0, 0.32, 0.032}}, std::nullopt, std::nullopt, false};
    const auto result = velocity_area(verticals, options);
    ASSERT_TRUE(result.ok());
    expect_near(result->flow.discharge.estimate.value, check["expected"]["mid_section_m3_s"], check);
    expect_near(result->mean_section_m3s, check["expected"]["mean_section_m3_s"], check);
}

// Feet and feet a second: both rules are the same in any consistent unit.
TEST(VelocityArea, MidAndMeanSectionOnTwoCourseExamples) {
    for (const char* id : {"va-both-course-1", "va-both-course-2"}) {
        const auto check = checks::entry("flow", id);
        const auto& in = check["inputs"];
        std::vector<Vertical> verticals;
        for (std::size_t i = 0; i < in["distance_ft"].size(); ++i)
            verticals.push_back(one_point(in["distance_ft"][i], in["depth_ft"][i], in["velocity_ft_s"][i]));
        const auto result = velocity_area(verticals);
        ASSERT_TRUE(result.ok()) << id;
        expect_near(result->flow.discharge.estimate.value, check["expected"]["mid_section_ft3_s"], check);
        expect_near(result->mean_section_m3s, check["expected"]["mean_section_ft3_s"], check);
        // Within the published range for one standard error: 2 % ideal, 20 % poor.
        const auto range = checks::entry("flow", "unc-range-usgs")["expected"];
        const Estimate flow = result->flow.discharge.estimate;
        EXPECT_GT(100.0 * flow.standard_uncertainty / flow.value, range["standard_error_ideal_pct"].get<double>());
        EXPECT_LT(100.0 * flow.standard_uncertainty / flow.value, range["standard_error_poor_pct"].get<double>());
    }
}

TEST(VelocityArea, WidthAreaAndMeans) {
    const auto result = velocity_area({bank(10.0), one_point(12.0, 0.5, 0.4), bank(14.0)});
    ASSERT_TRUE(result.ok());
    EXPECT_DOUBLE_EQ(result->width_m, 4.0);
    EXPECT_DOUBLE_EQ(result->area_m2, 1.0);
    EXPECT_DOUBLE_EQ(result->mean_depth_m, 0.25);
    EXPECT_DOUBLE_EQ(result->mean_velocity_ms, 0.4);
    EXPECT_DOUBLE_EQ(result->mean_section_m3s, 0.2); // two triangles of half the area at half the velocity
    EXPECT_EQ(result->flow.method, FlowMethod::VelocityArea);
}

TEST(VelocityArea, WallsTakeAShareOfTheNeighbour) {
    // A flume 2 m wide, 0.5 m deep: half of it at 0.4 m/s, a quarter at each wall at 0.65 of that.
    const std::vector<Vertical> flume{bank(0.0, 0.5), one_point(1.0, 0.5, 0.4), bank(2.0, 0.5)};
    EXPECT_NEAR(mid_m3s(flume), 0.5 * 0.4 + 0.5 * 0.4 * 0.65, 1e-15);
    VelocityAreaOptions smooth;
    smooth.wall_velocity_share = 1.0;
    EXPECT_NEAR(mid_m3s(flume, smooth), 0.4, 1e-15);
    std::vector<Vertical> measured = flume;
    measured[0].points = {at_fraction(0.6, 0.3)};
    EXPECT_NEAR(mid_m3s(measured), 0.25 * 0.3 + 0.5 * 0.4 + 0.25 * 0.4 * 0.65, 1e-15);
}

TEST(VelocityArea, AngleOfFlowByTheCosine) {
    auto verticals = creek();
    const double straight = mid_m3s(verticals);
    for (Vertical& vertical : verticals)
        vertical.angle_rad = -std::acos(0.8);
    EXPECT_NEAR(mid_m3s(verticals), 0.8 * straight, 1e-12);
}

TEST(VelocityArea, IslandInTheSection) {
    const double without = mid_m3s({bank(0.0), one_point(1.0, 0.4, 0.5), bank(2.0)});
    Vertical rock;
    rock.distance_m = 2.0;
    EXPECT_NEAR(mid_m3s({bank(0.0), one_point(1.0, 0.4, 0.5), rock, one_point(3.0, 0.4, 0.5), bank(4.0)}),
                2.0 * without, 1e-12);
}

TEST(VelocityArea, OrderOfVerticalsDoesNotMatter) {
    auto verticals = creek();
    const auto sorted = velocity_area(verticals);
    ASSERT_TRUE(sorted.ok());
    const unsigned seed = 20250831;
    SCOPED_TRACE(seed);
    std::mt19937 random(seed);
    for (int turn = 0; turn < 20; ++turn) {
        std::ranges::shuffle(verticals, random);
        const auto shuffled = velocity_area(verticals);
        ASSERT_TRUE(shuffled.ok());
        EXPECT_EQ(shuffled->flow.discharge.estimate.value, sorted->flow.discharge.estimate.value);
        EXPECT_EQ(shuffled->flow.discharge.estimate.standard_uncertainty,
                  sorted->flow.discharge.estimate.standard_uncertainty);
        EXPECT_EQ(shuffled->panels.front().vertical_id, sorted->panels.front().vertical_id);
    }
}

TEST(VelocityArea, MirroredSectionHasTheSameFlow) {
    auto verticals = creek();
    verticals[3].points[0].velocity_ms = 0.9;
    verticals[0] = bank(0.0, 0.2);
    const auto one_way = velocity_area(verticals);
    for (Vertical& vertical : verticals)
        vertical.distance_m = 57.3 - vertical.distance_m;
    const auto other_way = velocity_area(verticals);
    ASSERT_TRUE(one_way.ok() && other_way.ok());
    EXPECT_NEAR(other_way->flow.discharge.estimate.value, one_way->flow.discharge.estimate.value, 1e-12);
    EXPECT_NEAR(other_way->flow.discharge.estimate.standard_uncertainty,
                one_way->flow.discharge.estimate.standard_uncertainty, 1e-12);
    EXPECT_NEAR(other_way->mean_section_m3s, one_way->mean_section_m3s, 1e-12);
}

TEST(VelocityArea, FlowScalesWithVelocity) {
    auto verticals = creek();
    const double once = mid_m3s(verticals);
    for (Vertical& vertical : verticals)
        for (PointReading& reading : vertical.points)
            reading.velocity_ms = 3.0 * *reading.velocity_ms;
    EXPECT_NEAR(mid_m3s(verticals), 3.0 * once, 1e-12);
}

TEST(VelocityArea, AMoreVerticalInEvenWaterChangesNothing) {
    const std::vector<Vertical> few{bank(0.0, 0.5), one_point(1.0, 0.5, 0.4), one_point(3.0, 0.5, 0.4), bank(4.0, 0.5)};
    auto more = few;
    more.push_back(one_point(2.0, 0.5, 0.4));
    EXPECT_NEAR(mid_m3s(more), mid_m3s(few), 1e-12);
    EXPECT_NEAR(velocity_area(more)->mean_section_m3s, velocity_area(few)->mean_section_m3s, 1e-12);
}

TEST(VelocityArea, BothSectionsHaveTheSameAreaAndAgreeInEvenVelocity) {
    auto verticals = creek();
    for (Vertical& vertical : verticals)
        vertical.points = {at_fraction(0.6, 0.5)};
    verticals.front() = one_point(0.0, 0.1, 0.5); // no dry edge, whose velocity is zero
    verticals.back() = one_point(4.0, 0.1, 0.5);
    const auto result = velocity_area(verticals);
    ASSERT_TRUE(result.ok());
    EXPECT_NEAR(result->mean_section_m3s, result->flow.discharge.estimate.value, 1e-12);
    EXPECT_NEAR(result->area_m2 * 0.5, result->mean_section_m3s, 1e-12);
}

TEST(VelocityArea, SharesSumToOne) {
    const auto result = velocity_area(creek());
    ASSERT_TRUE(result.ok());
    double flow = 0.0;
    double variance = 0.0;
    for (const Panel& panel : result->panels) {
        flow += panel.share;
        variance += panel.variance_share;
    }
    EXPECT_NEAR(flow, 1.0, 1e-12);
    EXPECT_NEAR(variance, 1.0, 1e-12);
}

TEST(VelocityArea, StruckVerticalsAreLeftOut) {
    auto verticals = creek();
    const double without = mid_m3s(verticals);
    Vertical struck = one_point(kNaN, -3.0, kInfinity);
    struck.struck = true;
    verticals.insert(verticals.begin() + 4, struck);
    EXPECT_EQ(mid_m3s(verticals), without);
    Vertical doubled = verticals[6];
    doubled.struck = true;
    verticals.push_back(doubled);
    EXPECT_EQ(mid_m3s(verticals), without);
}

TEST(VelocityArea, StillWaterIsNoFlowWithDoubt) {
    PointReading still;
    still.revolutions = 0.0;
    still.time_s = 60.0;
    Vertical vertical;
    vertical.distance_m = 1.0;
    vertical.depth_m = 0.5;
    vertical.points = {still};
    VelocityAreaOptions options;
    options.meter = {"m", {{0.0, 0.25, 0.03}}, std::nullopt, std::nullopt, false};
    const auto result = velocity_area({bank(0.0), vertical, bank(2.0)}, options);
    ASSERT_TRUE(result.ok());
    EXPECT_EQ(result->flow.discharge.estimate.value, 0.0);
    EXPECT_NEAR(result->flow.discharge.estimate.standard_uncertainty, 0.5 * 0.03 / std::sqrt(3.0), 1e-12);
}

std::string refused(std::vector<Vertical> verticals, const VelocityAreaOptions& options = {}) {
    const auto result = velocity_area(verticals, options);
    return result.ok() ? "accepted" : result.error().code;
}

TEST(VelocityArea, RefusesBadNumbersAndNamesTheRow) {
    for (const double bad : {kNaN, kInfinity, -kInfinity, 1e300, -1e300}) {
        auto verticals = creek();
        verticals[2].distance_m = bad;
        EXPECT_EQ(refused(verticals), "flow.bad_distance") << bad;
        verticals = creek();
        verticals[2].depth_m = bad;
        const auto result = velocity_area(verticals);
        ASSERT_FALSE(result.ok());
        EXPECT_EQ(result.error().code, "flow.bad_depth") << bad;
        EXPECT_EQ(number_arg(result.error(), "row"), 3.0);
        verticals = creek();
        verticals[2].angle_rad = bad;
        EXPECT_EQ(refused(verticals), "flow.bad_angle") << bad;
        verticals = creek();
        verticals[2].points[0].velocity_ms = bad;
        const auto velocity = velocity_area(verticals);
        ASSERT_FALSE(velocity.ok());
        EXPECT_EQ(velocity.error().code, "flow.bad_velocity") << bad;
        EXPECT_EQ(number_arg(velocity.error(), "row"), 3.0);
        VelocityAreaOptions options;
        options.wall_velocity_share = bad;
        EXPECT_EQ(refused(creek(), options), "flow.bad_option") << bad;
        options = {};
        options.depth_u_m = bad;
        EXPECT_EQ(refused(creek(), options), "flow.bad_option") << bad;
        options = {};
        options.meter.max_velocity_ms = bad;
        EXPECT_EQ(refused(creek(), options), "flow.bad_rating") << bad;
    }
    auto shallow = creek();
    shallow[2].depth_m = 1e-310;
    EXPECT_EQ(refused(shallow), "flow.bad_depth");
    auto right_angle = creek();
    right_angle[2].angle_rad = 1.6;
    EXPECT_EQ(refused(right_angle), "flow.bad_angle");
}

TEST(VelocityArea, RefusesSectionsThatDoNotHold) {
    EXPECT_EQ(refused({}), "flow.no_width");
    EXPECT_EQ(refused({one_point(0.0, 0.5, 0.4)}), "flow.no_width");
    EXPECT_EQ(refused({bank(0.0), bank(2.0)}), "flow.no_velocity");
    EXPECT_EQ(refused({bank(0.0, 0.5), bank(2.0, 0.5)}), "flow.no_velocity");
    EXPECT_EQ(refused({bank(0.0), one_point(1.0, 0.5, 0.4), one_point(1.0005, 0.4, 0.4), bank(2.0)}),
              "flow.same_distance");
    EXPECT_EQ(refused({bank(0.0), one_point(1.0, 0.5, 0.4), bank(2.0), one_point(3.0, 0.5, 0.4)}), "flow.bank_inside");
    EXPECT_EQ(refused({bank(0.0), one_point(1.0, 0.0, 0.4), one_point(1.5, 0.4, 0.4), bank(2.0)}),
              "flow.velocity_without_depth");
    EXPECT_EQ(refused({bank(0.0), one_point(1.0, 0.5, -0.4), bank(2.0)}), "flow.runs_backwards");
    Vertical edge = bank(0.0);
    edge.depth_m = 0.3;
    EXPECT_EQ(refused({edge, one_point(1.0, 0.5, 0.4), bank(2.0)}), "flow.edge_with_depth");
    Vertical wall = bank(0.0, 0.3);
    wall.depth_m = 0.0;
    EXPECT_EQ(refused({wall, one_point(1.0, 0.5, 0.4), bank(2.0)}), "flow.wall_without_depth");
    Vertical unread = one_point(1.0, 0.5, 0.4);
    unread.points.clear();
    EXPECT_EQ(refused({bank(0.0), unread, one_point(1.5, 0.5, 0.4), bank(2.0)}), "flow.vertical_without_velocity");
    std::vector<Vertical> many;
    for (int i = 0; i < 2001; ++i)
        many.push_back(one_point(0.1 * i, 0.5, 0.4));
    EXPECT_EQ(refused(many), "flow.too_many_rows");
}

// The limit has room for a slow machine and a sanitizer; the aim is 1 ms for 40 verticals.
TEST(VelocityArea, FortyVerticalsAreQuick) {
    std::vector<Vertical> verticals{bank(0.0)};
    for (int i = 1; i <= 40; ++i) {
        Vertical vertical = one_point(0.25 * i, 0.9, 0.5);
        vertical.points = {at_fraction(0.2, 0.6), at_fraction(0.6, 0.5), at_fraction(0.8, 0.4)};
        verticals.push_back(vertical);
    }
    verticals.push_back(bank(10.25));
    double best_ms = 1e9;
    for (int turn = 0; turn < 20; ++turn) {
        const auto start = std::chrono::steady_clock::now();
        const auto result = velocity_area(verticals);
        const std::chrono::duration<double, std::milli> took = std::chrono::steady_clock::now() - start;
        ASSERT_TRUE(result.ok());
        best_ms = std::min(best_ms, took.count());
    }
    RecordProperty("best_us", static_cast<int>(best_ms * 1000.0));
    EXPECT_LT(best_ms, 10.0);
}

} // namespace
} // namespace rillmark
