// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "heights/measured_rise.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <limits>
#include <numbers>
#include <random>
#include <string>

namespace rillmark::heights_fixtures {

inline constexpr double kNaN = std::numeric_limits<double>::quiet_NaN();
inline constexpr double kInfinity = std::numeric_limits<double>::infinity();
inline constexpr double kDegree_rad = std::numbers::pi / 180.0;

inline bool has_code(const Findings& findings, const std::string& code) {
    return std::ranges::find(findings, code, &Finding::code) != findings.end();
}

/// The `where` of the finding of that code; empty where there is none.
inline std::string where_of(const Findings& findings, const std::string& code) {
    const auto hit = std::ranges::find(findings, code, &Finding::code);
    return hit == findings.end() ? std::string() : hit->where;
}

/// What one standard uncertainty of the cause adds; fails where no effect has the key.
inline double effect_of(const MeasuredRise& rise, const std::string& key) {
    const auto hit = std::ranges::find(rise.shared, key, &SharedEffect::key);
    EXPECT_NE(hit, rise.shared.end()) << key;
    return hit == rise.shared.end() ? kNaN : hit->effect_m;
}

template <class T>
void expect_out_of_range(const Expected<T>& result, const std::string& where) {
    ASSERT_FALSE(result.ok()) << where;
    EXPECT_EQ(result.error().code, "levels.input_out_of_range") << where;
    EXPECT_EQ(result.error().where, where);
}

/// Standard normal errors from a fixed seed.
class Errors {
public:
    explicit Errors(unsigned seed) : m_engine(seed) {}
    double operator()(double standard_uncertainty) { return standard_uncertainty * m_normal(m_engine); }

private:
    std::mt19937 m_engine;
    std::normal_distribution<double> m_normal;
};

/// How often the +/- (k = 2) of 2000 simulated measurements holds the true value.
inline double coverage(double truth, unsigned seed, const std::function<Estimate(Errors&)>& measure) {
    Errors errors(seed);
    int held = 0;
    for (int i = 0; i < 2000; ++i) {
        const Estimate got = measure(errors);
        held += std::abs(got.value - truth) <= got.expanded() ? 1 : 0;
    }
    return held / 2000.0;
}

} // namespace rillmark::heights_fixtures
