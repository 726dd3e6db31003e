// SPDX-License-Identifier: GPL-3.0-or-later
#include "heights/receiver_heights.h"

#include "barometer_fixtures.h"
#include "checks/checks.h"

#include <gtest/gtest.h>

#include <cmath>
#include <random>

namespace rillmark {
namespace {

using namespace barometer_fixtures;

// Near 18n 531595 4468135 of GeoidEval(1), where N is -33.84 m.
ReceiverStay stay(const std::string& point) {
    ReceiverStay one;
    one.point = point;
    one.latitude_deg = 40.3625;
    one.longitude_deg = -74.628;
    one.u_up_m = 2.0;
    one.quality = FixQuality::Differential;
    one.source = "r1";
    return one;
}

ReceiverStay ellipsoidal(const std::string& point, double height_m) {
    ReceiverStay one = stay(point);
    one.height_ellipsoid_m = height_m;
    return one;
}

ReceiverStay above_sea(const std::string& point, double height_m, std::optional<double> separation_m = {}) {
    ReceiverStay one = stay(point);
    one.height_msl_m = height_m;
    one.geoid_separation_m = separation_m;
    return one;
}

TEST(ReceiverHeights, OfThePublishedPlace) {
    const auto check = checks::entry("geoid", "egm96-msl-to-hae");
    const auto heights = geoid_heights({ellipsoidal("a", check["expected"]["h_hae_m"])});
    ASSERT_TRUE(heights.ok());
    EXPECT_NEAR(heights->heights[0].height_m, check["inputs"]["H_msl_m"].get<double>(),
                check["tolerance"]["abs_m"].get<double>());
    EXPECT_TRUE(heights->findings.empty());
}

// A receiver whose separation is 5.5 m off: through its own separation nothing of that is left.
TEST(ReceiverHeights, SeparationOfTheReceiverCancels) {
    const double separation_m = egm96().separation_m({40.3625, -74.628}) + 5.5;
    const auto heights = geoid_heights({ellipsoidal("a", 100.0), above_sea("b", 100.0 - separation_m, separation_m),
                                        above_sea("c", 100.0 - separation_m)});
    ASSERT_TRUE(heights.ok());
    ASSERT_EQ(heights->heights.size(), 3u);
    EXPECT_NEAR(heights->heights[1].height_m, heights->heights[0].height_m, 1e-9);
    EXPECT_EQ(heights->heights[1].origin, HeightOrigin::FromSeparation);
    EXPECT_NEAR(heights->heights[1].estimate().standard_uncertainty,
                std::hypot(2.0, kGeoidModel_u_m, kGeoidInterpolation_u_m), 1e-12);
    EXPECT_NEAR(heights->heights[2].height_m, heights->heights[0].height_m - 5.5, 1e-9);
    EXPECT_EQ(heights->heights[2].origin, HeightOrigin::FromModel);
    EXPECT_NEAR(heights->heights[2].estimate().standard_uncertainty,
                std::hypot(std::hypot(2.0, kReceiverGeoid_u_m), std::hypot(kGeoidModel_u_m, kGeoidInterpolation_u_m)),
                1e-12);
    EXPECT_EQ(heights->heights[2].shared[0].key, "receiver-geoid:r1");
    EXPECT_EQ(heights->heights[2].shared[1].key, heights->heights[0].shared[0].key);
    EXPECT_EQ(number(*find_code(heights->findings, "levels.receiver_heights_converted"), "count"), 1.0);
    EXPECT_EQ(number(*find_code(heights->findings, "levels.receiver_heights_by_model"), "count"), 1.0);
}

TEST(ReceiverHeights, GeoidOfReceiversAsInRealLogs) {
    const auto expected = checks::entry("geoid", "geoid-sep-receivers")["expected"];
    const std::size_t count = expected["sep_in_gga_m"].size();
    double squares = 0.0;
    for (std::size_t i = 0; i < count; ++i) {
        const double off_m = expected["sep_in_gga_m"][i].get<double>() - expected["egm96_bilinear_m"][i].get<double>();
        squares += off_m * off_m;
    }
    EXPECT_NEAR(std::sqrt(squares / static_cast<double>(count)), kReceiverGeoid_u_m, 0.06);
}

TEST(ReceiverHeights, ShiftOfTheDatumMovesAllAlike) {
    std::mt19937 random(20240520);
    std::uniform_real_distribution<double> height(0.0, 500.0);
    for (int trial = 0; trial < 100; ++trial) {
        std::vector<ReceiverStay> stays{ellipsoidal("a", height(random)), above_sea("b", height(random), -33.0),
                                        above_sea("c", height(random))};
        const auto before = geoid_heights(stays);
        for (ReceiverStay& one : stays) {
            if (one.height_ellipsoid_m)
                *one.height_ellipsoid_m += 12.5;
            if (one.height_msl_m)
                *one.height_msl_m += 12.5;
        }
        const auto after = geoid_heights(stays);
        ASSERT_TRUE(before.ok() && after.ok());
        for (std::size_t i = 0; i < stays.size(); ++i)
            EXPECT_NEAR(after->heights[i].height_m - before->heights[i].height_m, 12.5, 1e-9);
    }
}

// Receivers with a geoid of their own (rms 2.7 m), heights above the sea only, 2 m of noise.
TEST(ReceiverHeights, Coverage) {
    std::mt19937 random(20240521);
    std::normal_distribution<double> normal;
    constexpr int kTrials = 2000;
    int covered = 0;
    for (int trial = 0; trial < kTrials; ++trial) {
        const double true_m = 300.0;
        const double read_m = true_m + std::hypot(kGeoidModel_u_m, kGeoidInterpolation_u_m) * normal(random) +
                              kReceiverGeoid_u_m * normal(random) + 2.0 * normal(random);
        const Estimate estimate = geoid_heights({above_sea("a", read_m)})->heights[0].estimate();
        covered += std::abs(estimate.value - true_m) <= estimate.expanded();
    }
    EXPECT_GE(covered, 0.93 * kTrials);
    EXPECT_LE(covered, 0.97 * kTrials);
}

TEST(ReceiverHeights, WhatIsNoHeightIsLeftOut) {
    std::vector<ReceiverStay> stays{ellipsoidal("good", 100.0),   stay("flat"),
                                    ellipsoidal("none", 100.0),   ellipsoidal("sim", 100.0),
                                    ellipsoidal("typed", 100.0),  ellipsoidal("nan", kNaN),
                                    ellipsoidal("unsure", 100.0), ellipsoidal("far", 100.0),
                                    ellipsoidal("high", 2e4)};
    stays[2].quality = FixQuality::None;
    stays[3].quality = FixQuality::Simulator;
    stays[4].quality = FixQuality::Manual;
    stays[6].u_up_m = 0.0;
    stays[7].latitude_deg = 91.0;
    const auto heights = geoid_heights(stays);
    ASSERT_TRUE(heights.ok());
    ASSERT_EQ(heights->heights.size(), 1u);
    EXPECT_EQ(heights->heights[0].point, "good");
    const std::vector<std::string> codes{"levels.receiver_no_height", "position.no_fix",
                                         "position.not_measured",     "position.not_measured",
                                         "position.not_finite",       "levels.receiver_uncertainty_impossible",
                                         "position.out_of_range",     "position.height_out_of_range"};
    ASSERT_EQ(heights->findings.size(), codes.size());
    for (std::size_t i = 0; i < codes.size(); ++i) {
        EXPECT_EQ(heights->findings[i].code, codes[i]);
        EXPECT_EQ(heights->findings[i].where, stays[i + 1].point);
        EXPECT_EQ(heights->findings[i].severity, Severity::Warning);
    }
    EXPECT_EQ(geoid_heights({stays[1]}).error().code, "levels.receiver_no_heights");
    EXPECT_EQ(geoid_heights({}).error().code, "levels.receiver_no_heights");
    stays[6].u_up_m = kInfinity;
    EXPECT_FALSE(geoid_heights({stays[6]}).ok());
}

TEST(ReceiverHeights, ContradictionsAreToldOf) {
    ReceiverStay one = ellipsoidal("a", 100.0);
    one.height_msl_m = 133.9;
    one.geoid_separation_m = -33.8;
    EXPECT_TRUE(geoid_heights({one})->findings.empty());
    one.height_msl_m = 140.0;
    const auto heights = geoid_heights({one});
    EXPECT_NEAR(number(*find_code(heights->findings, "levels.receiver_heights_disagree"), "off_by"), 6.2, 1e-9);
    EXPECT_EQ(heights->heights[0].height_m, geoid_heights({ellipsoidal("a", 100.0)})->heights[0].height_m);
}

TEST(ReceiverHeights, WithoutAClaimTheQualityDecides) {
    ReceiverStay one = ellipsoidal("a", 100.0);
    one.u_up_m.reset();
    EXPECT_EQ(geoid_heights({one})->heights[0].random_m, default_claim(FixQuality::Differential).up_m);
}

} // namespace
} // namespace rillmark
