// SPDX-License-Identifier: GPL-3.0-or-later
#include "position/average.h"

#include "checks/checks.h"
#include "fixes.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <random>

namespace rillmark {

namespace {

using fixes::good;

std::vector<PositionFix> one_a_second(int n, double claim_m = 2.0) {
    std::vector<PositionFix> fixes;
    for (int i = 0; i < n; ++i) {
        fixes.push_back(good(i));
        fixes.back().u_east_m = fixes.back().u_north_m = claim_m;
        fixes.back().u_up_m = 2.0 * claim_m;
    }
    return fixes;
}

bool has(const AveragedPosition& average, const std::string& code) {
    return std::any_of(average.findings.begin(), average.findings.end(),
                       [&code](const Finding& finding) { return finding.code == code; });
}

TEST(Average, ARealStaticLogAsComputedElsewhere) {
    const nlohmann::json check = checks::entry("position", "gnss-average-m9n");
    const std::string file = check["inputs"]["file"];
    const std::optional<std::string> bytes =
        fixes::file_bytes(std::string(RILLMARK_REFERENCE_DIR) + "/head/" + file);
    if (!bytes)
        GTEST_SKIP() << "reference logs are not here";
    NmeaReader reader;
    const AveragedPosition average = average_position(fixes::read_all(reader, *bytes)).value();
    const nlohmann::json& expected = check["expected"];
    const double degrees = check["tolerance"]["lat_deg"];
    const double metres = check["tolerance"]["m"];
    const double n = expected["n"];
    const double population = std::sqrt((n - 1.0) / n); // the table divides by n
    EXPECT_EQ(average.n, static_cast<std::size_t>(n));
    EXPECT_EQ(average.n_height, expected["mean"]["n_alt"]);
    EXPECT_NEAR(average.latitude_deg, expected["mean"]["lat_deg"], degrees);
    EXPECT_NEAR(average.longitude_deg, expected["mean"]["lon_deg"], degrees);
    EXPECT_NEAR(*average.height_msl_m, expected["mean"]["alt_msl_m"], metres);
    EXPECT_NEAR(*average.geoid_separation_m, expected["mean"]["geoid_sep_m"], metres);
    EXPECT_NEAR(average.scatter_north_m * population, expected["scatter"]["rms_north_m"], metres);
    EXPECT_NEAR(average.scatter_east_m * population, expected["scatter"]["rms_east_m"], metres);
    EXPECT_NEAR(*average.scatter_up_m * population, expected["scatter"]["alt_std_pop_m"], metres);
    // A minute at rest is worth one fix: no better than the receiver says of itself (GST).
    EXPECT_EQ(average.effective_n, 1.0);
    EXPECT_GE(average.u_north_m, expected["gst"]["mean_sigma_lat_m"].get<double>());
    EXPECT_GE(average.u_east_m, expected["gst"]["mean_sigma_lon_m"].get<double>());
    EXPECT_GE(*average.u_up_m, expected["gst"]["mean_sigma_alt_m"].get<double>());
}

TEST(Average, ManyFixesInOneCorrelationTimeAreWorthOne) {
    for (const int n : {1, 10, 600}) {
        const AveragedPosition average = average_position(one_a_second(n)).value();
        EXPECT_DOUBLE_EQ(average.effective_n, 1.0);
        EXPECT_DOUBLE_EQ(average.u_east_m, 2.0);
        EXPECT_DOUBLE_EQ(*average.u_up_m, 4.0);
        EXPECT_TRUE(has(average, "position.short_average"));
    }
}

TEST(Average, FourCorrelationTimesHalveIt) {
    const AveragedPosition average = average_position(one_a_second(2401)).value();
    EXPECT_DOUBLE_EQ(average.effective_n, 4.0);
    EXPECT_DOUBLE_EQ(average.u_north_m, 1.0);
    EXPECT_DOUBLE_EQ(average.seconds, 2400.0);
    EXPECT_FALSE(has(average, "position.short_average"));
}

TEST(Average, TwoVisitsHoursApartAreTwo) {
    std::vector<PositionFix> visits = one_a_second(30);
    for (PositionFix fix : one_a_second(30)) {
        fix.time_s += 4.0 * 3600.0;
        visits.push_back(fix);
    }
    const AveragedPosition average = average_position(visits).value();
    EXPECT_DOUBLE_EQ(average.effective_n, 2.0);
    EXPECT_DOUBLE_EQ(average.u_east_m, 2.0 / std::sqrt(2.0));
    EXPECT_DOUBLE_EQ(average.seconds, 58.0); // the hours between are not time on the station
}

TEST(Average, ScatterBeyondTheClaimCounts) {
    std::vector<PositionFix> fixes = one_a_second(100, 0.02);
    for (std::size_t i = 0; i < fixes.size(); ++i)
        fixes[i].latitude_deg += (i % 2 == 0 ? 1.0 : -1.0) * 1e-5; // +-1.1 m
    const AveragedPosition average = average_position(fixes).value();
    EXPECT_NEAR(average.u_north_m, 1.117, 0.01);
    EXPECT_DOUBLE_EQ(average.u_east_m, 0.02);
    EXPECT_TRUE(has(average, "position.moved_while_averaging"));
}

// Claim and scatter are checked against many simulated stays whose errors go together as the docstring says.
TEST(Average, TheClaimHoldsForCorrelatedErrors) {
    constexpr unsigned kSeed = 20260514;
    SCOPED_TRACE(kSeed);
    std::mt19937 random(kSeed);
    std::normal_distribution<double> normal;
    constexpr double kSigma_m = 2.0;
    constexpr double kStep_s = 10.0;
    constexpr double kMetresPerDegree = 111130.0; // near enough for a simulated error
    const double keep = std::exp(-kStep_s / (kGnssCorrelationTime_s / 2.0));
    int within = 0;
    constexpr int kRuns = 400;
    for (int run = 0; run < kRuns; ++run) {
        std::vector<PositionFix> fixes;
        double error_m = kSigma_m * normal(random);
        for (int i = 0; i < 120; ++i) {
            fixes.push_back(good(i * kStep_s));
            fixes.back().u_east_m = fixes.back().u_north_m = kSigma_m;
            fixes.back().latitude_deg += error_m / kMetresPerDegree;
            error_m = keep * error_m + kSigma_m * std::sqrt(1.0 - keep * keep) * normal(random);
        }
        const AveragedPosition average = average_position(fixes).value();
        const double missed_m = std::abs(average.latitude_deg - good().latitude_deg) * kMetresPerDegree;
        within += missed_m <= kCoverageFactor * average.u_north_m;
    }
    EXPECT_GE(within, kRuns * 93 / 100);
    EXPECT_LT(within, kRuns); // and it is not so wide that it says nothing
}

TEST(Average, AcrossTheDateLine) {
    std::vector<PositionFix> fixes = one_a_second(2);
    fixes[0].longitude_deg = 179.99999;
    fixes[1].longitude_deg = -179.99997;
    const AveragedPosition average = average_position(fixes).value();
    EXPECT_NEAR(average.longitude_deg, -179.99999, 1e-9);
    EXPECT_LT(average.scatter_east_m, 3.0);
}

TEST(Average, TheOrderOfTheFixesDoesNotMatter) {
    std::vector<PositionFix> fixes = one_a_second(50);
    for (std::size_t i = 0; i < fixes.size(); ++i)
        fixes[i].latitude_deg += 1e-6 * static_cast<double>(i * i % 17);
    const AveragedPosition forward = average_position(fixes).value();
    std::reverse(fixes.begin(), fixes.end());
    const AveragedPosition backward = average_position(fixes).value();
    EXPECT_NEAR(forward.latitude_deg, backward.latitude_deg, 1e-12);
    EXPECT_DOUBLE_EQ(forward.effective_n, backward.effective_n);
    EXPECT_EQ(forward.time_utc, backward.time_utc);
}

TEST(Average, LeavesOutWhatIsNoFixAndSaysSo) {
    std::vector<PositionFix> fixes = one_a_second(5);
    fixes[1].quality = FixQuality::None;
    fixes[2].latitude_deg = fixes[2].longitude_deg = 0.0;
    fixes[3].latitude_deg = std::numeric_limits<double>::quiet_NaN();
    const AveragedPosition average = average_position(fixes).value();
    EXPECT_EQ(average.n, 2u);
    EXPECT_EQ(average.left_out, 3u);
    EXPECT_NEAR(average.latitude_deg, good().latitude_deg, 1e-12);
    EXPECT_TRUE(has(average, "position.fixes_left_out"));
}

TEST(Average, HeightsOnlyOfFixesThatHaveThem) {
    std::vector<PositionFix> fixes = one_a_second(4);
    fixes[0].height_msl_m = fixes[0].height_ellipsoid_m = std::nullopt;
    fixes[1].height_msl_m = 1044.0;
    const AveragedPosition some = average_position(fixes).value();
    EXPECT_EQ(some.n_height, 3u);
    EXPECT_NEAR(some.msl_height()->value, (1044.0 + 2 * 1042.0) / 3.0, 1e-9);
    for (PositionFix& fix : fixes)
        fix.height_msl_m = fix.height_ellipsoid_m = std::nullopt;
    const AveragedPosition none = average_position(fixes).value();
    EXPECT_FALSE(none.msl_height());
    EXPECT_FALSE(none.ellipsoid_height());
    EXPECT_FALSE(none.u_up_m);
    EXPECT_TRUE(has(none, "position.no_height"));
}

TEST(Average, MixedQualityAndHopelessClaimsAreSaid) {
    std::vector<PositionFix> fixes = one_a_second(3, 324.0);
    fixes[1].quality = FixQuality::RtkFloat;
    const AveragedPosition average = average_position(fixes).value();
    EXPECT_EQ(average.best_quality, FixQuality::RtkFloat);
    EXPECT_EQ(average.worst_quality, FixQuality::Autonomous);
    EXPECT_TRUE(has(average, "position.mixed_quality"));
    EXPECT_TRUE(has(average, "position.receiver_unsure"));
}

TEST(Average, Refusals) {
    EXPECT_EQ(average_position({}).error().code, "position.nothing_to_average");
    std::vector<PositionFix> fixes = one_a_second(2);
    fixes[1].latitude_deg += 1.0;
    EXPECT_EQ(average_position(fixes).error().code, "position.spread_too_wide");
    fixes.pop_back();
    for (const double bad : {0.0, -1.0, std::numeric_limits<double>::infinity(), std::nan("")})
        EXPECT_EQ(average_position(fixes, {bad}).error().code, "position.bad_correlation_time");
    fixes[0].quality = FixQuality::Simulator;
    EXPECT_EQ(average_position(fixes).error().code, "position.nothing_to_average");
}

} // namespace

} // namespace rillmark
