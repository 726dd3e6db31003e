// SPDX-License-Identifier: GPL-3.0-or-later
// Simulated tests whose errors follow their own budget.
#pragma once

#include "uncertainty/estimate.h"

#include <gtest/gtest.h>

#include <cmath>
#include <functional>
#include <random>

namespace rillmark::checks {

/// Errors drawn from a fixed seed.
class Errors {
public:
    explicit Errors(unsigned seed) : m_engine(seed) {}
    double normal(double standard_uncertainty) { return standard_uncertainty * m_normal(m_engine); }
    double within(double half_width) { return half_width * m_within(m_engine); }
    double triangular(double half_width) { return 0.5 * (within(half_width) + within(half_width)); }

private:
    std::mt19937 m_engine;
    std::normal_distribution<double> m_normal{0.0, 1.0};
    std::uniform_real_distribution<double> m_within{-1.0, 1.0};
};

/// One simulated test: what was to be found, and what was.
struct Simulated {
    double truth = 0.0;
    Estimate reported;
};

/// The +/- that is shown (k = 2) holds the truth in 93 to 97 % of 2,000 simulated tests.
inline void expect_coverage(unsigned seed, const std::function<Simulated(Errors&)>& simulate) {
    constexpr int kTests = 2000;
    Errors errors(seed);
    int covered = 0;
    for (int test = 0; test < kTests; ++test) {
        const Simulated one = simulate(errors);
        covered += std::abs(one.reported.value - one.truth) <= one.reported.expanded() ? 1 : 0;
    }
    EXPECT_GE(covered, 0.93 * kTests) << "seed " << seed;
    EXPECT_LE(covered, 0.97 * kTests) << "seed " << seed;
}

} // namespace rillmark::checks
