// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "flow/flow_result.h"
#include "flow/head_readings.h"

#include <gtest/gtest.h>

#include <cmath>
#include <functional>
#include <random>
#include <vector>

namespace rillmark::structures_fixtures {

inline std::vector<HeadReading> heads(const std::vector<double>& readings_m) {
    std::vector<HeadReading> readings;
    for (const double reading_m : readings_m)
        readings.push_back({static_cast<std::int64_t>(readings.size() + 1), reading_m, false});
    return readings;
}

inline double share_sum(const Budgeted& flow) {
    double sum = 0.0;
    for (const BudgetLine& line : flow.budget)
        sum += line.share;
    return sum;
}

/// How many of 2,000 simulated tests have their true discharge within the reported +/- (k = 2).
struct Simulated {
    double truth_m3s = 0.0;
    Estimate reported;
};
inline void expect_covers(const std::function<Simulated(std::mt19937&)>& simulate) {
    constexpr unsigned kSeed = 20260501;
    constexpr int kTests = 2000;
    std::mt19937 random(kSeed);
    int covered = 0;
    for (int i = 0; i < kTests; ++i) {
        const Simulated one = simulate(random);
        covered += std::abs(one.reported.value - one.truth_m3s) <= one.reported.expanded() ? 1 : 0;
    }
    const double part = static_cast<double>(covered) / kTests;
    EXPECT_GE(part, 0.93) << "seed " << kSeed;
    EXPECT_LE(part, 0.97) << "seed " << kSeed;
}

} // namespace rillmark::structures_fixtures
