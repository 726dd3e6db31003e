// SPDX-License-Identifier: GPL-3.0-or-later
#include "uncertainty/chi_squared.h"

#include "checks/checks.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

using namespace rillmark;

TEST(ChiSquared, QuantilesAt95PerCent) {
    const auto check = checks::entry("levelling", "chi2-95");
    const std::vector<std::size_t> degrees = check.at("inputs").at("degrees_of_freedom");
    const std::vector<double> quantiles = check.at("expected").at("quantile");
    for (std::size_t i = 0; i < degrees.size(); ++i)
        EXPECT_NEAR(chi_squared_quantile(check.at("inputs").at("probability"), degrees[i]), quantiles[i],
                    check.at("tolerance").at("abs"));
}

TEST(ChiSquared, ExactFormsHoldToTheStatedAccuracy) {
    for (const double p : {0.001, 0.05, 0.5, 0.95, 0.999}) {
        const double exact = -2.0 * std::log1p(-p); // 2 degrees of freedom: P = 1 - exp(-x/2)
        EXPECT_NEAR(chi_squared_quantile(p, 2), exact, kChiSquaredError * exact);
    }
    for (const double x : {0.1, 1.0, 3.0, 10.0, 30.0}) {
        const double one = std::erf(std::sqrt(x / 2.0)); // 1 degree
        const double four = 1.0 - std::exp(-x / 2.0) * (1.0 + x / 2.0);
        EXPECT_NEAR(chi_squared_probability(x, 1), one, kChiSquaredError * one);
        EXPECT_NEAR(chi_squared_probability(x, 4), four, kChiSquaredError * four);
    }
}

TEST(ChiSquared, QuantileTurnsProbabilityBack) {
    for (const std::size_t f : {1U, 2U, 7U, 50U, 2000U, 20000U})
        for (const double p : {0.001, 0.5, 0.95, 0.999})
            EXPECT_NEAR(chi_squared_probability(chi_squared_quantile(p, f), f), p, 1e-9) << f << " " << p;
}

TEST(ChiSquared, Edges) {
    EXPECT_EQ(chi_squared_probability(-1.0, 3), 0.0);
    EXPECT_EQ(chi_squared_probability(std::numeric_limits<double>::quiet_NaN(), 3), 0.0);
    EXPECT_EQ(chi_squared_probability(1.0, 0), 1.0);
    EXPECT_EQ(chi_squared_quantile(0.95, 0), 0.0);
    EXPECT_TRUE(std::isfinite(chi_squared_quantile(1.0, 1)));
    EXPECT_GE(chi_squared_quantile(0.0, 1), 0.0);
}
