// SPDX-License-Identifier: GPL-3.0-or-later
#include "levelling/three_wire.h"

#include "books.h"

#include <gtest/gtest.h>

#include <limits>
#include <random>

using namespace rillmark;
using namespace rillmark::books;

namespace {

constexpr double kHundredthFoot = 0.01;
const double kNan = std::numeric_limits<double>::quiet_NaN();
const double kInf = std::numeric_limits<double>::infinity();

ThreeWire read(const nlohmann::json& wires, double unit_m, double last_digit, const Stadia& stadia = {}) {
    const auto result = three_wire({wires[0].get<double>() * unit_m, wires[1].get<double>() * unit_m,
                                    wires[2].get<double>() * unit_m, last_digit * unit_m},
                                   stadia);
    EXPECT_TRUE(result);
    return result.value_or({});
}

std::string code_of(const WireReadings& wires, const Stadia& stadia = {}) {
    const auto result = three_wire(wires, stadia);
    return result ? "" : result.error().code;
}

} // namespace

TEST(ThreeWire, PublishedReading) {
    const auto check = checks::entry("level_instrument", "lev-3wire-one");
    const auto& in = check.at("inputs");
    const auto& expected = check.at("expected");
    const ThreeWire r = read({in.at("upper_ft"), in.at("middle_ft"), in.at("lower_ft")}, kFoot_m, kHundredthFoot,
                             {in.at("stadia_multiplier"), 0.0});
    EXPECT_NEAR(r.mean_m / kFoot_m, expected.at("mean_ft"), check.at("tolerance").at("mean_ft"));
    EXPECT_NEAR(r.distance_m / kFoot_m, expected.at("distance_ft"), check.at("tolerance").at("distance_ft"));
    EXPECT_NEAR(r.upper_half_m / kFoot_m, expected.at("upper_half_ft"), 1e-9);
    EXPECT_NEAR(r.lower_half_m / kFoot_m, expected.at("lower_half_ft"), 1e-9);
    EXPECT_TRUE(r.findings.empty());
    EXPECT_FALSE(r.reversed);
}

TEST(ThreeWire, PublishedSetup) {
    const auto check = checks::entry("levelling", "lev-3wire-setup");
    const ThreeWire r = read(check.at("inputs").at("bs_wires_ft"), kFoot_m, kHundredthFoot);
    const double tolerance = check.at("tolerance").at("abs_ft");
    const auto& expected = check.at("expected");
    EXPECT_NEAR(r.mean_m / kFoot_m, expected.at("bs_mean_ft"), tolerance);
    EXPECT_NEAR(r.distance_m / kFoot_m, expected.at("bs_distance_ft"), 1e-6);
    EXPECT_NEAR(r.upper_half_m / kFoot_m, expected.at("bs_half_intervals_ft")[0], 1e-9);
    EXPECT_NEAR(r.lower_half_m / kFoot_m, expected.at("bs_half_intervals_ft")[1], 1e-9);
    EXPECT_TRUE(r.findings.empty());
}

TEST(ThreeWire, PublishedLines) {
    for (const auto& [id, unit, unit_m] : {std::tuple("lev-3wire-ghilani-524", "_m", 1.0),
                                           std::tuple("lev-3wire-ghilani-525", "_ft", kFoot_m)}) {
        SCOPED_TRACE(id);
        const auto check = checks::entry("levelling", id);
        for (const std::string side : {"bs", "fs"}) {
            double sum = 0.0;
            std::vector<double> distances_m;
            for (const auto& wires : check.at("inputs").at(side + "_wires" + unit)) {
                const ThreeWire r = read(wires, unit_m, 0.001);
                sum += r.mean_m / unit_m;
                distances_m.push_back(r.distance_m);
            }
            const auto& tolerance = check.at("tolerance");
            EXPECT_NEAR(sum, check.at("expected").at("sum_" + side + "_mean" + unit),
                        tolerance.value("sum_m", tolerance.value("abs_ft", 0.0)));
            EXPECT_LIST(distances_m, check.at("expected").at(side + "_distance" + unit), unit_m, 1e-6);
        }
    }
}

TEST(ThreeWire, AReversedImageGivesTheSame) {
    std::mt19937 random(20240611);
    std::uniform_int_distribution<int> middle_mm(300, 3500);
    std::uniform_int_distribution<int> half_mm(1, 299);
    for (int i = 0; i < 1000; ++i) {
        const double m = middle_mm(random) / 1000.0;
        const double up = half_mm(random) / 1000.0;
        const double down = half_mm(random) / 1000.0;
        const auto upright = three_wire({m + up, m, m - down});
        const auto turned = three_wire({m - down, m, m + up});
        const auto hanging = three_wire({-(m + up), -m, -(m - down)});
        ASSERT_TRUE(upright && turned && hanging);
        EXPECT_TRUE(turned->reversed && hanging->reversed && !upright->reversed);
        EXPECT_NEAR(turned->mean_m, upright->mean_m, 1e-12);
        EXPECT_NEAR(turned->distance_m, upright->distance_m, 1e-9);
        EXPECT_NEAR(turned->upper_half_m, upright->lower_half_m, 1e-12);
        EXPECT_NEAR(hanging->mean_m, -upright->mean_m, 1e-12);
        EXPECT_EQ(turned->findings.size(), upright->findings.size());
        EXPECT_EQ(upright->findings.empty(), std::lround(std::abs(up - down) * 1000.0) <= 2);
    }
}

TEST(ThreeWire, TwoUnitsOfTheLastPlacePassAndThreeDoNot) {
    EXPECT_TRUE(three_wire({1.502, 1.400, 1.300})->findings.empty());
    const auto warned = three_wire({1.503, 1.400, 1.300});
    ASSERT_EQ(warned->findings.size(), 1u);
    EXPECT_EQ(warned->findings[0].code, "levels.half_intervals_differ");
    EXPECT_EQ(warned->findings[0].severity, Severity::Warning);
    EXPECT_TRUE(three_wire({1.503, 1.400, 1.300, 0.01})->findings.empty());
}

TEST(ThreeWire, StadiaConstantIsAdded) {
    EXPECT_NEAR(three_wire({1.5, 1.4, 1.3}, {98.0, 0.3})->distance_m, 98.0 * 0.2 + 0.3, 1e-12);
}

TEST(ThreeWire, Refusals) {
    EXPECT_EQ(code_of({1.5, 1.2, 1.3}), "levels.wires_out_of_order");
    EXPECT_EQ(code_of({1.3, 1.6, 1.5}), "levels.wires_out_of_order");
    EXPECT_EQ(code_of({1.3, 1.2, 1.5}), "levels.wires_out_of_order");
    EXPECT_EQ(code_of({1.4, 1.4, 1.4}), "levels.wires_out_of_order");
    EXPECT_EQ(code_of({kNan, 1.4, 1.3}), "levels.field_reading_impossible");
    EXPECT_EQ(code_of({1.5, kInf, 1.3}), "levels.field_reading_impossible");
    EXPECT_EQ(code_of({1.5, 1.4, -10.5}), "levels.field_reading_impossible");
    EXPECT_EQ(three_wire({1.5, 1.4, 1e30}).error().where, "levels.wire_lower");
    EXPECT_EQ(code_of({1.5, 1.4, 1.3, 0.0}), "levels.stadia_impossible");
    EXPECT_EQ(code_of({1.5, 1.4, 1.3, kNan}), "levels.stadia_impossible");
    EXPECT_EQ(code_of({1.5, 1.4, 1.3}, {0.0, 0.0}), "levels.stadia_impossible");
    EXPECT_EQ(code_of({1.5, 1.4, 1.3}, {kInf, 0.0}), "levels.stadia_impossible");
    EXPECT_EQ(code_of({1.5, 1.4, 1.3}, {100.0, -0.1}), "levels.stadia_impossible");
}
