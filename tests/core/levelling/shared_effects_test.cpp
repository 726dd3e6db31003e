// SPDX-License-Identifier: GPL-3.0-or-later
// Errors that several observations share, against generalised least squares with the full covariance of the
// observations in long double: the same model without extra unknowns (A. C. Aitken, 1935; any text on statistics).
#include "levelling/height_network.h"

#include "networks.h"

#include <gtest/gtest.h>

#include <cmath>

using namespace rillmark;
using namespace rillmark::networks;

namespace {

using Matrix = std::vector<std::vector<long double>>;

/// Heights and their covariance; the fixed point is left out.
struct Generalised {
    std::map<std::string, std::size_t> index;
    std::vector<long double> heights_m;
    Matrix covariance;
};

Generalised solve_generalised(const RandomNetwork& network) {
    const std::string& fixed = network.known[0].point;
    const long double fixed_m = network.known[0].height.value;
    Generalised s;
    for (const HeightDifference& d : network.differences)
        for (const std::string& point : {d.from, d.to})
            if (point != fixed)
                s.index.try_emplace(point, s.index.size());
    const std::size_t n = s.index.size();
    const std::size_t m = network.differences.size();
    Matrix design(m, std::vector<long double>(n, 0.0L));
    std::vector<long double> observed(m);
    Matrix covariance(m, std::vector<long double>(m, 0.0L));
    for (std::size_t i = 0; i < m; ++i) {
        const HeightDifference& d = network.differences[i];
        observed[i] = d.rise_m;
        if (d.to == fixed)
            observed[i] -= fixed_m;
        else
            design[i][s.index.at(d.to)] += 1.0L;
        if (d.from == fixed)
            observed[i] += fixed_m;
        else
            design[i][s.index.at(d.from)] -= 1.0L;
        covariance[i][i] += static_cast<long double>(d.standard_uncertainty_m) * d.standard_uncertainty_m;
        for (std::size_t j = 0; j < m; ++j)
            for (const SharedEffect& a : d.shared)
                for (const SharedEffect& b : network.differences[j].shared)
                    if (a.key == b.key)
                        covariance[i][j] += static_cast<long double>(a.effect_m) * b.effect_m;
    }
    const Matrix weight = inverse(covariance);
    Matrix normal(n, std::vector<long double>(n, 0.0L));
    std::vector<long double> right(n, 0.0L);
    for (std::size_t i = 0; i < m; ++i)
        for (std::size_t j = 0; j < m; ++j)
            for (std::size_t a = 0; a < n; ++a) {
                if (design[i][a] == 0.0L)
                    continue;
                right[a] += design[i][a] * weight[i][j] * observed[j];
                for (std::size_t b = 0; b < n; ++b)
                    normal[a][b] += design[i][a] * weight[i][j] * design[j][b];
            }
    s.covariance = inverse(normal);
    s.heights_m.assign(n, 0.0L);
    for (std::size_t a = 0; a < n; ++a)
        for (std::size_t b = 0; b < n; ++b)
            s.heights_m[a] += s.covariance[a][b] * right[b];
    return s;
}

/// Some observations share an eye height, some a gauge zero, some both.
RandomNetwork with_shared_effects(std::mt19937& random, int points, int extra) {
    RandomNetwork network = random_network(random, points, extra);
    network.known.pop_back();
    std::uniform_real_distribution<double> effect(-0.3, 0.3);
    for (std::size_t i = 0; i < network.differences.size(); ++i) {
        if (i % 2 == 0)
            network.differences[i].shared.push_back({"eye-height:1", "levels.eye_height", effect(random)});
        if (i % 3 == 0)
            network.differences[i].shared.push_back({"gauge-zero:2", "levels.gauge_zero", effect(random)});
    }
    return network;
}

} // namespace

TEST(SharedEffects, AgreeWithGeneralisedLeastSquares) {
    std::mt19937 random(20260411);
    for (int round = 0; round < 40; ++round) {
        const RandomNetwork given = with_shared_effects(random, 3 + round % 20, round % 23);
        const Generalised wanted = solve_generalised(given);
        const auto network = adjust(given.differences, given.known);
        ASSERT_TRUE(network);
        for (const auto& [point, i] : wanted.index) {
            const Estimate height = *network->height(point);
            EXPECT_NEAR(height.value, static_cast<double>(wanted.heights_m[i]), kAdjustmentError_m);
            const double u = static_cast<double>(std::sqrt(wanted.covariance[i][i]));
            EXPECT_NEAR(height.standard_uncertainty, u, 1e-6 * u);
        }
        const std::size_t a = wanted.index.at("P1");
        const std::size_t b = wanted.index.at("P2");
        const double u = static_cast<double>(
            std::sqrt(wanted.covariance[a][a] + wanted.covariance[b][b] - 2.0L * wanted.covariance[a][b]));
        EXPECT_NEAR(network->difference("P1", "P2")->standard_uncertainty, u, 1e-6 * u);
    }
}

TEST(SharedEffects, BudgetHoldsTheSharedErrorAndSumsToTheVariance) {
    std::mt19937 random(20260412);
    const RandomNetwork given = with_shared_effects(random, 12, 14);
    const auto budget = adjust(given.differences, given.known)->difference_budget("P1", "P9");
    ASSERT_TRUE(budget);
    double variance_m2 = 0.0;
    bool eye_height = false;
    for (const BudgetLine& line : budget->budget) {
        variance_m2 += line.contribution * line.contribution;
        eye_height = eye_height || (line.input == "levels.eye_height" && line.subject == "eye-height:1");
    }
    EXPECT_TRUE(eye_height);
    EXPECT_NEAR(std::sqrt(variance_m2), budget->difference.standard_uncertainty,
                1e-9 * budget->difference.standard_uncertainty);
}

TEST(SharedEffects, AWrongEyeHeightIsEstimatedWhereALevelTellsIt) {
    // Two lines of one observer over legs that were levelled as well: the eye height shows, and corrects a third leg.
    // Worked by hand: 10 sights at 1.60 m booked, the true eye height 1.62 m, so 16.00 m for 16.20 m.
    const std::vector<SharedEffect> ten_sights = {{"eye-height:1", "levels.eye_height", 10 * 0.02}};
    std::vector<HeightDifference> all = {difference(1, "A", "B", 16.20, 0.001), difference(2, "A", "B", 16.00, 0.01),
                                         difference(3, "B", "C", 16.00, 0.01)};
    all[1].shared = ten_sights;
    all[2].shared = ten_sights;
    const auto network = adjust(all, {fixed("A", 0.0)});
    ASSERT_TRUE(network);
    ASSERT_EQ(network->shared().size(), 1u);
    EXPECT_NEAR(network->shared()[0].value.value, -1.0, 0.01); // one standard uncertainty of 2 cm: read too low
    EXPECT_NEAR(network->height("C")->value, 32.40, 0.005);
    EXPECT_LT(network->height("C")->standard_uncertainty, 0.02);
    EXPECT_EQ(network->global_test()->degrees_of_freedom, 1u);
}

TEST(SharedEffects, RefuseAnEffectThatIsNoNumber) {
    HeightDifference one = difference(1, "A", "B", 1.0, 0.01);
    one.shared = {{"index:1", "levels.index", std::nan("")}};
    EXPECT_EQ(adjust({one}).error().code, "levels.uncertainty_impossible");
    one.shared = {{"", "levels.index", 0.1}};
    EXPECT_EQ(adjust({one}).error().code, "levels.uncertainty_impossible");
}
