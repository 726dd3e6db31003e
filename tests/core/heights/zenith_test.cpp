// SPDX-License-Identifier: GPL-3.0-or-later
#include "heights/zenith.h"

#include "checks/checks.h"
#include "heights_fixtures.h"
#include "units/units.h"

namespace rillmark {
namespace {

using namespace heights_fixtures;

const double kFoot_m = find_unit(Quantity::Length, "ft")->factor;

double radians_of(const std::string& degrees_minutes_seconds) {
    double degrees = 0.0, minutes = 0.0, seconds = 0.0;
    std::sscanf(degrees_minutes_seconds.c_str() + 1, "%lf %lf %lf", &degrees, &minutes, &seconds);
    const double angle = (degrees + minutes / 60.0 + seconds / 3600.0) * kDegree_rad;
    return degrees_minutes_seconds.front() == '-' ? -angle : angle;
}

ZenithLine line_of(double zenith_deg, double distance_m, SightDistance is = SightDistance::Slope) {
    ZenithLine line;
    line.forward.zenith_rad = zenith_deg * kDegree_rad;
    line.forward.distance_m = distance_m;
    line.forward.distance_u_m = 0.005;
    line.forward.distance_is = is;
    line.forward.instrument_height_m = {1.55, 0.002};
    line.forward.target_height_m = {1.80, 0.002};
    line.run = "r";
    return line;
}

TEST(Zenith, TrigonometricLevellingExample) {
    const auto check = checks::entry("heights", "trig-mahun");
    const auto& in = check["inputs"];
    const double tolerance = check["tolerance"]["abs_ft"];
    for (std::size_t i = 0; i < in["points"].size(); ++i) {
        ZenithLine line = line_of(90.0, in["points"][i]["slope_ft"].get<double>() * kFoot_m);
        line.forward.zenith_rad = std::numbers::pi / 2.0 - radians_of(in["points"][i]["vertical_angle_dms"]);
        line.forward.instrument_height_m.value = in["hi_ft"].get<double>() * kFoot_m;
        line.forward.target_height_m.value = in["hr_ft"].get<double>() * kFoot_m;
        const auto result = zenith_line(line);
        ASSERT_TRUE(result.ok());
        EXPECT_NEAR(in["elev_q_ft"].get<double>() + result->rise.rise_m / kFoot_m,
                    check["expected"]["elev_ft"][i].get<double>(), tolerance);
        EXPECT_NEAR(result->level_distance_m.value / kFoot_m, check["expected"]["horizontal_ft"][i].get<double>(),
                    tolerance);
    }
}

TEST(Zenith, CurvatureAndRefractionTable) {
    const auto check = checks::entry("heights", "cr-table-feet");
    const double ratio = check["inputs"]["refraction_ratio"];
    EXPECT_EQ(kRefractionCoefficient, ratio);
    const double tolerance = check["tolerance"]["rel"];
    for (std::size_t i = 0; i < check["inputs"]["distance_ft"].size(); ++i) {
        const double distance_m = check["inputs"]["distance_ft"][i].get<double>() * kFoot_m;
        const double curvature_ft = check["expected"]["curvature_ft"][i];
        const double net_ft = check["expected"]["net_ft"][i];
        EXPECT_NEAR(curvature_and_refraction_m(distance_m, 0.0) / kFoot_m, curvature_ft, tolerance * curvature_ft);
        EXPECT_NEAR(curvature_and_refraction_m(distance_m, ratio) / kFoot_m, net_ft, tolerance * net_ft);
    }
}

TEST(Zenith, CurvatureInKilometres) {
    const auto check = checks::entry("heights", "cr-km");
    for (std::size_t i = 0; i < check["inputs"]["distance_km"].size(); ++i) {
        const double refraction = check["inputs"]["what"][i] == "combined" ? 1.0 / 7.0 : 0.0;
        EXPECT_NEAR(curvature_and_refraction_m(1000.0 * check["inputs"]["distance_km"][i].get<double>(), refraction),
                    check["expected"]["correction_m"][i].get<double>(), check["tolerance"]["abs_m"].get<double>());
    }
}

TEST(Zenith, SlopeAndLevelDistanceAgree) {
    const auto slope = zenith_line(line_of(78.0, 200.0));
    const auto level = zenith_line(line_of(78.0, 200.0 * std::sin(78.0 * kDegree_rad), SightDistance::Level));
    ASSERT_TRUE(slope.ok() && level.ok());
    EXPECT_NEAR(slope->rise.rise_m, level->rise.rise_m, 1e-9);
    EXPECT_NEAR(slope->slope_distance_m.value, level->slope_distance_m.value, 1e-9);
}

TEST(Zenith, BothWaysCancelIndexCurvatureAndRefraction) {
    const double rise_m = 30.0, level_m = 500.0, index_rad = 1e-4;
    const double bent_m = curvature_and_refraction_m(level_m, 0.3); // not the refraction assumed
    ZenithLine line = line_of(90.0, level_m, SightDistance::Level);
    line.forward.zenith_rad = std::numbers::pi / 2 - std::atan((rise_m - bent_m + 0.25) / level_m) + index_rad;
    const auto one_way = zenith_line(line);
    line.reverse = line.forward;
    line.reverse->zenith_rad = std::numbers::pi / 2 - std::atan((-rise_m - bent_m + 0.25) / level_m) + index_rad;
    const auto both = zenith_line(line);
    ASSERT_TRUE(one_way.ok() && both.ok());
    EXPECT_GT(std::abs(one_way->rise.rise_m - rise_m), 0.04);
    EXPECT_NEAR(both->rise.rise_m, rise_m, 1e-5);
    EXPECT_NEAR(effect_of(both->rise, "zenith-index:r"), 0.0, 1e-5);
    EXPECT_NEAR(effect_of(both->rise, "refraction:r"), 0.0, 1e-12);
    EXPECT_LT(effect_of(one_way->rise, "refraction:r"), 0.0);
}

TEST(Zenith, SwappingTheEndsChangesTheSign) {
    ZenithLine line = line_of(84.0, 300.0);
    line.reverse = line.forward;
    line.reverse->zenith_rad = 96.01 * kDegree_rad;
    const auto there = zenith_line(line);
    std::swap(line.forward, *line.reverse);
    const auto back = zenith_line(line);
    ASSERT_TRUE(there.ok() && back.ok());
    EXPECT_NEAR(there->rise.rise_m, -back->rise.rise_m, 1e-12);
    EXPECT_NEAR(there->rise.random_m, back->rise.random_m, 1e-12);
    EXPECT_NEAR(there->level_distance_m.value, back->level_distance_m.value, 1e-9);
}

TEST(Zenith, WarnsWhenTheTwoWaysDisagree) {
    ZenithLine line = line_of(88.0, 300.0);
    line.forward.target_height_m = line.forward.instrument_height_m;
    line.reverse = line.forward;
    line.reverse->zenith_rad = 92.0 * kDegree_rad;
    EXPECT_TRUE(zenith_line(line)->rise.findings.empty());
    line.reverse->zenith_rad = 92.1 * kDegree_rad;
    EXPECT_TRUE(has_code(zenith_line(line)->rise.findings, "levels.both_ways_disagree"));
    EXPECT_FALSE(has_code(zenith_line(line)->rise.findings, "levels.distances_disagree"));
    line.reverse->distance_m = 301.0;
    EXPECT_TRUE(has_code(zenith_line(line)->rise.findings, "levels.distances_disagree"));
}

TEST(Zenith, CoverageOfSimulatedLines) {
    const double angle_rad = 8.0 * kDegree_rad, slope_m = 400.0;
    const double level_m = slope_m * std::cos(angle_rad);
    for (const bool both_ways : {false, true}) {
        // the line of sight of a straight ray over a curved earth, seen from either end
        const double truth = slope_m * std::sin(angle_rad);
        const double seen = coverage(truth, 4103, [&](Errors& error) {
            const double bent_m = curvature_and_refraction_m(level_m, kRefractionCoefficient + error(kRefraction_u));
            const double index_rad = error(kZenithIndex_rad);
            const auto sight = [&](double rise_m) {
                ZenithSight one = line_of(90.0, 400.0).forward;
                const double line_m = rise_m - bent_m;
                one.zenith_rad = std::atan2(level_m, line_m) - index_rad + error(kZenithReading_rad);
                one.distance_m = std::hypot(level_m, line_m) + error(one.distance_u_m);
                one.target_height_m = {1.55 + error(0.002), 0.002};
                one.instrument_height_m.value += error(0.002);
                return one;
            };
            ZenithLine line = line_of(90.0, 400.0);
            line.forward = sight(truth);
            if (both_ways)
                line.reverse = sight(-truth);
            return zenith_line(line)->rise.estimate();
        });
        EXPECT_GT(seen, 0.93) << both_ways;
        EXPECT_LT(seen, 0.97) << both_ways;
    }
}

TEST(Zenith, RefusesBadInput) {
    for (const double bad : {kNaN, kInfinity, -kInfinity, -1.0, 1e300}) {
        expect_out_of_range(zenith_line(line_of(bad, 100.0)), "levels.zenith");
        expect_out_of_range(zenith_line(line_of(90.0, bad)), "levels.distance");
        ZenithLine line = line_of(90.0, 100.0);
        line.reverse = line.forward;
        line.reverse->distance_u_m = bad;
        expect_out_of_range(zenith_line(line), "levels.distance_uncertainty");
        line = line_of(90.0, 100.0);
        line.reading_u_rad = bad;
        expect_out_of_range(zenith_line(line), "levels.angle_uncertainty");
        line = line_of(90.0, 100.0);
        line.refraction.standard_uncertainty = bad;
        expect_out_of_range(zenith_line(line), "levels.refraction_uncertainty");
        line = line_of(90.0, 100.0);
        line.index_correction_rad.value = bad;
        expect_out_of_range(zenith_line(line), "levels.index_correction");
        line = line_of(90.0, 100.0);
        line.forward.target_height_m.standard_uncertainty = bad;
        expect_out_of_range(zenith_line(line), "levels.target_height_uncertainty");
    }
    expect_out_of_range(zenith_line(line_of(270.0, 100.0)), "levels.zenith"); // face right
}

} // namespace
} // namespace rillmark
