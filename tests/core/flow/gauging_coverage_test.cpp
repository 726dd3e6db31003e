// SPDX-License-Identifier: GPL-3.0-or-later
// Gaugings and container tests whose errors follow their own budget: the +/- (k = 2) covers the truth in 93 to 97 % of
// 2000.
#include "checks/coverage.h"
#include "flow/container.h"
#include "flow/velocity_area.h"
#include "flow/velocity_area_uncertainty.h"
#include "flow_fixtures.h"

namespace rillmark {
namespace {

using checks::Errors;
using checks::expect_coverage;
using checks::Simulated;
using flow_fixtures::one_point;

TEST(GaugingCoverage, ContainerByFiveFills) {
    constexpr double kTruth_m3s = 0.002;
    constexpr double kVolume_m3 = 0.02;
    const ContainerOptions options;
    expect_coverage(3001, [&](Errors& error) {
        const double volume_m3 = kVolume_m3 * (1.0 + error.normal(options.volume_u_rel));
        const double reaction_s = error.within(options.reaction_half_width_s);
        std::vector<ContainerFill> fills;
        for (int i = 0; i < 5; ++i)
            fills.push_back({i, kVolume_m3, volume_m3 / kTruth_m3s * (1.0 + error.normal(0.02)) + reaction_s, false});
        const auto result = container(fills, options);
        EXPECT_TRUE(result.ok());
        return Simulated{kTruth_m3s, result->discharge.estimate};
    });
}

// Three fills tell their scatter badly: Student's factor has to make up for it.
TEST(GaugingCoverage, ContainerWhereTheScatterOfThreeFillsRules) {
    const ContainerOptions options{0.002, 0.02};
    expect_coverage(3002, [&](Errors& error) {
        std::vector<ContainerFill> fills;
        for (int i = 0; i < 3; ++i)
            fills.push_back({i, 0.02, 10.0 * (1.0 + error.normal(0.03)), false});
        const auto result = container(fills, options);
        EXPECT_TRUE(result.ok());
        return Simulated{0.002, result->discharge.estimate};
    });
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
    const double exposure_u = iso748::exposure_ms(kVelocity_ms, 60.0, 0.6);
    const double meter_u = iso748::meter_ms(kVelocity_ms, false);
    expect_coverage(3003, [&](Errors& error) {
        // What all verticals share: the instruments as a whole, and what lies between the verticals.
        const double shared = 1.0 + error.normal(iso748::kSystematic) + error.normal(iso748::verticals(kVerticals));
        const auto section = canal([&] { return kDepth_m + error.normal(kDepthReading_m); },
                                   [&] {
                                       return kVelocity_ms * shared * (1.0 + error.normal(iso748::points(1))) +
                                              error.normal(exposure_u) + error.normal(meter_u);
                                   });
        const auto result = velocity_area(section);
        EXPECT_TRUE(result.ok());
        return Simulated{truth_m3s(), result->flow.discharge.estimate};
    });
}

TEST(GaugingCoverage, VelocityAreaByInterpolatedVariance) {
    expect_coverage(3004, [&](Errors& error) {
        const double shared = 1.0 + error.normal(iso748::kSystematic);
        const auto section = canal([&] { return kDepth_m + error.normal(0.03); },
                                   [&] { return kVelocity_ms * shared + error.normal(0.03); });
        const auto result = velocity_area(section);
        EXPECT_TRUE(result.ok() && result->by_interpolation);
        return Simulated{truth_m3s(), result->by_interpolation->estimate};
    });
}

} // namespace
} // namespace rillmark
