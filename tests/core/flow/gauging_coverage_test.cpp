// SPDX-License-Identifier: GPL-3.0-or-later
// Gaugings and container tests whose errors follow their own budget: the +/- (k = 2) covers the truth in 93 to 97 % of
// 2000.
#include "flow/container.h"
#include "flow/velocity_area.h"
#include "flow/velocity_area_uncertainty.h"
#include "flow_fixtures.h"

#include <cmath>
#include <random>

namespace rillmark {
namespace {

using flow_fixtures::one_point;

constexpr int kTests = 2000;

void expect_coverage(int covered) {
    EXPECT_GE(covered, 0.93 * kTests);
    EXPECT_LE(covered, 0.97 * kTests);
}

bool covers(const Estimate& flow, double truth) {
    return std::abs(flow.value - truth) <= flow.expanded();
}

/// Draws with a printed seed.
class Draw {
public:
    explicit Draw(unsigned seed) : m_random(seed) {}
    double normal(double u) { return std::normal_distribution(0.0, 1.0)(m_random) * u; }
    double within(double half_width) { return std::uniform_real_distribution(-half_width, half_width)(m_random); }

private:
    std::mt19937 m_random;
};

TEST(GaugingCoverage, ContainerByFiveFills) {
    const unsigned seed = 3001;
    SCOPED_TRACE(seed);
    Draw draw(seed);
    constexpr double kTruth_m3s = 0.002;
    constexpr double kVolume_m3 = 0.02;
    const ContainerOptions options;
    int covered = 0;
    for (int test = 0; test < kTests; ++test) {
        const double volume_m3 = kVolume_m3 * (1.0 + draw.normal(options.volume_u_rel));
        const double reaction_s = draw.within(options.reaction_half_width_s);
        std::vector<ContainerFill> fills;
        for (int i = 0; i < 5; ++i)
            fills.push_back({i, kVolume_m3, volume_m3 / kTruth_m3s * (1.0 + draw.normal(0.02)) + reaction_s, false});
        const auto result = container(fills, options);
        ASSERT_TRUE(result.ok());
        covered += covers(result->discharge.estimate, kTruth_m3s) ? 1 : 0;
    }
    expect_coverage(covered);
}

// Three fills tell their scatter badly: Student's factor has to make up for it.
TEST(GaugingCoverage, ContainerWhereTheScatterOfThreeFillsRules) {
    const unsigned seed = 3002;
    SCOPED_TRACE(seed);
    Draw draw(seed);
    const ContainerOptions options{0.002, 0.02};
    int covered = 0;
    for (int test = 0; test < kTests; ++test) {
        std::vector<ContainerFill> fills;
        for (int i = 0; i < 3; ++i)
            fills.push_back({i, 0.02, 10.0 * (1.0 + draw.normal(0.03)), false});
        const auto result = container(fills, options);
        ASSERT_TRUE(result.ok());
        covered += covers(result->discharge.estimate, 0.002) ? 1 : 0;
    }
    expect_coverage(covered);
}

constexpr int kVerticals = 15;
constexpr double kDepth_m = 0.4;
constexpr double kVelocity_ms = 0.3;
constexpr double kSpacing_m = 0.25;

/// A canal of even depth and velocity whose verticals lie in the middle of panels of one width, read with these errors.
template <class Depth, class Velocity>
std::vector<Vertical> canal(Depth depth, Velocity velocity) {
    std::vector<Vertical> section;
    for (int i = 0; i < kVerticals; ++i)
        section.push_back(one_point(kSpacing_m * i, depth(), velocity()));
    return section;
}

double truth_m3s() {
    return kDepth_m * kVelocity_ms * kSpacing_m * (kVerticals - 1);
}

TEST(GaugingCoverage, VelocityAreaByItsBudget) {
    const unsigned seed = 3003;
    SCOPED_TRACE(seed);
    Draw draw(seed);
    const double exposure_u = iso748::exposure_ms(kVelocity_ms, 60.0, 0.6);
    const double meter_u = iso748::meter_ms(kVelocity_ms, false);
    int covered = 0;
    for (int test = 0; test < kTests; ++test) {
        // What all verticals share: the instruments as a whole, and what lies between the verticals.
        const double shared = 1.0 + draw.normal(iso748::kSystematic) + draw.normal(iso748::verticals(kVerticals));
        const auto section = canal([&] { return kDepth_m + draw.normal(kDepthReading_m); },
                                   [&] {
                                       return kVelocity_ms * shared * (1.0 + draw.normal(iso748::points(1))) +
                                              draw.normal(exposure_u) + draw.normal(meter_u);
                                   });
        const auto result = velocity_area(section);
        ASSERT_TRUE(result.ok());
        covered += covers(result->flow.discharge.estimate, truth_m3s()) ? 1 : 0;
    }
    expect_coverage(covered);
}

TEST(GaugingCoverage, VelocityAreaByInterpolatedVariance) {
    const unsigned seed = 3004;
    SCOPED_TRACE(seed);
    Draw draw(seed);
    int covered = 0;
    for (int test = 0; test < kTests; ++test) {
        const double shared = 1.0 + draw.normal(iso748::kSystematic);
        const auto section = canal([&] { return kDepth_m + draw.normal(0.03); },
                                   [&] { return kVelocity_ms * shared + draw.normal(0.03); });
        const auto result = velocity_area(section);
        ASSERT_TRUE(result.ok() && result->by_interpolation);
        covered += covers(result->by_interpolation->estimate, truth_m3s()) ? 1 : 0;
    }
    expect_coverage(covered);
}

} // namespace
} // namespace rillmark
