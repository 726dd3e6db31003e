// SPDX-License-Identifier: GPL-3.0-or-later
#include "levelling/reciprocal.h"

#include "books.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <random>

using namespace rillmark;

namespace {

const double kNan = std::numeric_limits<double>::quiet_NaN();
const double kInf = std::numeric_limits<double>::infinity();

std::string code_of(const ReciprocalObservation& observation, const ReciprocalOptions& options = {}) {
    const auto result = reciprocal(observation, options);
    return result ? "" : result.error().code;
}

/// What a level reads whose far reading is `error_m` too large.
ReciprocalObservation observed(double rise_m, double error_m, std::optional<double> distance_m = {}) {
    return {{1.5, 1.5 - rise_m + error_m}, {1.4 + rise_m + error_m, 1.4}, distance_m};
}

ReciprocalObservation observation_of(const nlohmann::json& in) {
    return {{in.at("at_a_reading_a_m"), in.at("at_a_reading_b_m")},
            {in.at("at_b_reading_a_m"), in.at("at_b_reading_b_m")},
            in.contains("distance_m") ? std::optional(in.at("distance_m").get<double>()) : std::nullopt};
}

} // namespace

TEST(Reciprocal, PublishedWithRefractionRecovered) {
    const auto check = checks::entry("level_instrument", "recip-1530m");
    const auto& in = check.at("inputs");
    const auto& expected = check.at("expected");
    const auto& tolerance = check.at("tolerance");
    ReciprocalOptions options;
    options.collimation = Estimate{in.at("collimation_m_per_100m").get<double>() / 100.0, 0.0};
    const auto r = reciprocal(observation_of(in), options);
    ASSERT_TRUE(r);
    EXPECT_NEAR(-r->rise.value, expected.at("true_difference_m"), tolerance.at("difference_m"));
    const double distance_m = in.at("distance_m");
    EXPECT_NEAR(-options.collimation->value * distance_m, expected.at("collimation_correction_m"), 1e-9);
    const double curvature_m = *curvature_refraction_m(distance_m, {kEarthRadius_m, 0.0});
    EXPECT_NEAR(curvature_m, expected.at("curvature_m"), tolerance.at("curvature_m"));
    EXPECT_NEAR(r->refraction_k->value * curvature_m, expected.at("refraction_m"), tolerance.at("refraction_m"));
    EXPECT_TRUE(r->findings.empty());
}

// The table books both readings at B under the wrong letter: B seems lower from A and higher from B by nearly as much. Its
// own result needs them swapped; as they stand they are refused.
TEST(Reciprocal, PublishedWithReadingsUnderTheWrongLetter) {
    const auto check = checks::entry("level_instrument", "recip-0770");
    const auto& expected = check.at("expected");
    ReciprocalObservation observation = observation_of(check.at("inputs"));
    EXPECT_EQ(code_of(observation), "levels.staves_swapped");
    std::swap(observation.from_b.reading_a_m, observation.from_b.reading_b_m);
    const auto r = reciprocal(observation);
    ASSERT_TRUE(r);
    const double tolerance = check.at("tolerance").at("abs_m");
    EXPECT_NEAR(-r->rise_from_a_m, expected.at("apparent_from_a_m"), tolerance);
    EXPECT_NEAR(-r->rise_from_b_m, expected.at("apparent_from_b_m"), tolerance);
    EXPECT_NEAR(-r->rise.value, expected.at("true_difference_m"), tolerance);
    EXPECT_LT(r->rise.value, 0.0); // A is the higher
    EXPECT_FALSE(r->refraction_k);
}

TEST(Reciprocal, AnyErrorOfTheLineOfSightCancels) {
    std::mt19937 random(9);
    std::uniform_real_distribution<double> rise_m(-1.2, 1.2);
    std::uniform_real_distribution<double> k(-1.0, 1.0);
    std::uniform_real_distribution<double> slope(-5e-4, 5e-4);
    std::uniform_real_distribution<double> length_m(50.0, 1500.0);
    for (int i = 0; i < 1000; ++i) {
        const double h = rise_m(random);
        const double refraction = k(random);
        const double distance_m = length_m(random);
        ReciprocalOptions options;
        options.collimation = Estimate{slope(random), 0.0};
        const double error_m = options.collimation->value * distance_m +
                               *curvature_refraction_m(distance_m, {kEarthRadius_m, refraction});
        const auto r = reciprocal(observed(h, error_m, distance_m), options);
        ASSERT_TRUE(r);
        EXPECT_NEAR(r->rise.value, h, 1e-12);
        EXPECT_NEAR(r->line_error.value, error_m, 1e-12);
        EXPECT_NEAR(r->refraction_k->value, refraction, 1e-9);
    }
}

TEST(Reciprocal, FromTheOtherEndTheRiseTurns) {
    const ReciprocalObservation there = observed(0.8, 0.02, 300.0);
    const ReciprocalObservation back{{there.from_b.reading_b_m, there.from_b.reading_a_m},
                                     {there.from_a.reading_b_m, there.from_a.reading_a_m},
                                     there.distance_m};
    const auto a = reciprocal(there);
    const auto b = reciprocal(back);
    ASSERT_TRUE(a && b);
    EXPECT_NEAR(b->rise.value, -a->rise.value, 1e-12);
    EXPECT_NEAR(b->line_error.value, a->line_error.value, 1e-12);
}

TEST(Reciprocal, UncertaintyCoversReadingsAndChangingRefraction) {
    std::mt19937 random(31);
    constexpr double kDistance_m = 800.0;
    const ReciprocalOptions options;
    std::normal_distribution<double> near_m(0.0, options.near_uncertainty_m);
    std::normal_distribution<double> far_m(0.0, options.far_uncertainty_m);
    std::normal_distribution<double> change(0.0, options.refraction_change);
    const double curvature_m = *curvature_refraction_m(kDistance_m, {kEarthRadius_m, 0.0});
    constexpr int kTests = 4000;
    int covered = 0;
    for (int i = 0; i < kTests; ++i) {
        ReciprocalObservation o = observed(0.5, 0.04, kDistance_m);
        o.from_a.reading_a_m += near_m(random);
        o.from_a.reading_b_m += far_m(random);
        o.from_b.reading_b_m += near_m(random);
        o.from_b.reading_a_m += far_m(random) + change(random) * curvature_m;
        const auto r = reciprocal(o);
        ASSERT_TRUE(r);
        covered += std::abs(r->rise.value - 0.5) <= r->rise.expanded();
    }
    EXPECT_NEAR(covered / double(kTests), 0.9545, 0.01); // three standard deviations of the count
}

TEST(Reciprocal, ADoubtfulErrorIsWarnedOf) {
    EXPECT_TRUE(reciprocal(observed(1.0, 0.1, 100.0))->findings.empty());
    const auto r = reciprocal(observed(1.0, 0.15, 100.0));
    ASSERT_TRUE(r);
    ASSERT_EQ(r->findings.size(), 1u);
    EXPECT_EQ(r->findings[0].code, "levels.line_error_large");
    EXPECT_EQ(reciprocal(observed(1.0, 0.31))->findings.size(), 1u);
    EXPECT_TRUE(reciprocal(observed(1.0, 0.29))->findings.empty());
    // Staves of one height: a large error alone cannot tell a swap from the earth's curve over a wide river.
    EXPECT_EQ(code_of(observed(0.0, 0.18, 1530.0)), "");
}

TEST(Reciprocal, ARefractionThatAirHasNotIsWarnedOf) {
    ReciprocalOptions options;
    options.collimation = Estimate{0.0, 0.0};
    const double curvature_m = *curvature_refraction_m(1500.0, {kEarthRadius_m, 0.0});
    const auto r = reciprocal(observed(0.5, 3.0 * curvature_m, 1500.0), options);
    ASSERT_TRUE(r);
    EXPECT_NEAR(r->refraction_k->value, -2.0, 1e-9);
    EXPECT_EQ(std::ranges::count(r->findings, "levels.refraction_unlikely", &Finding::code), 1);
    // Over a short distance the same error of the line says nothing of the air.
    EXPECT_EQ(std::ranges::count(reciprocal(observed(0.5, 0.003, 60.0), options)->findings, "levels.refraction_unlikely",
                                 &Finding::code),
              0);
}

TEST(Reciprocal, Refusals) {
    for (const double bad : {kNan, kInf, -kInf, 10.5, 1e300}) {
        ReciprocalObservation o = observed(0.5, 0.01);
        o.from_a.reading_a_m = bad;
        EXPECT_EQ(code_of(o), "levels.field_reading_impossible");
        o = observed(0.5, 0.01);
        o.from_b.reading_b_m = bad;
        EXPECT_EQ(reciprocal(o).error().where, "levels.reading_b");
    }
    for (const double bad : {kNan, kInf, -5.0, 0.0, 20000.0})
        EXPECT_EQ(code_of(observed(0.5, 0.01, bad)), "levels.sight_length_impossible");
    for (const double bad : {kNan, kInf, 0.0, -1.0}) {
        ReciprocalOptions options;
        options.near_uncertainty_m = bad;
        EXPECT_EQ(code_of(observed(0.5, 0.01), options), "levels.uncertainty_impossible");
        options = {};
        options.far_uncertainty_m = bad;
        EXPECT_EQ(code_of(observed(0.5, 0.01), options), "levels.uncertainty_impossible");
        options = {};
        options.earth_radius_m = bad;
        EXPECT_EQ(code_of(observed(0.5, 0.01, 100.0), options), "levels.curvature_impossible");
    }
    ReciprocalOptions options;
    options.refraction_change = -0.1;
    EXPECT_EQ(code_of(observed(0.5, 0.01), options), "levels.uncertainty_impossible");
    options = {};
    options.collimation = Estimate{0.02, 0.0};
    EXPECT_EQ(code_of(observed(0.5, 0.01), options), "levels.collimation_impossible");
}
