// SPDX-License-Identifier: GPL-3.0-or-later
#include "flow/velocity_area.h"
#include "flow_fixtures.h"

#include <cmath>

namespace rillmark {
namespace {

using flow_fixtures::at_fraction;
using flow_fixtures::bank;
using flow_fixtures::creek;
using flow_fixtures::find_code;
using flow_fixtures::has_code;
using flow_fixtures::number_arg;
using flow_fixtures::one_point;

double relative_expanded(const std::vector<Vertical>& verticals, const VelocityAreaOptions& options = {}) {
    const auto result = velocity_area(verticals, options);
    return result->flow.discharge.estimate.expanded() / result->flow.discharge.estimate.value;
}

Findings improvements_of(const std::vector<Vertical>& verticals) {
    const auto result = velocity_area(verticals);
    EXPECT_TRUE(result.ok());
    return result->improvements;
}

double then_of(const Findings& found, const char* code) {
    const Finding* finding = find_code(found, code);
    EXPECT_NE(finding, nullptr) << code;
    return finding == nullptr ? -1.0 : number_arg(*finding, "then");
}

TEST(GaugingImprovements, TheMostHelpfulIsFirstAndStartsFromTheBudget) {
    const Findings found = improvements_of(creek());
    ASSERT_FALSE(found.empty());
    for (std::size_t i = 0; i < found.size(); ++i) {
        EXPECT_NEAR(number_arg(found[i], "now"), relative_expanded(creek()), 1e-12);
        EXPECT_LT(number_arg(found[i], "then"), number_arg(found[i], "now"));
        if (i > 0) {
            EXPECT_GE(number_arg(found[i], "then"), number_arg(found[i - 1], "then"));
        }
    }
}

// Each promise is kept: the gauging done again as advised has the uncertainty that was foretold.
TEST(GaugingImprovements, WhatIsForetoldComesTrue) {
    auto slow = creek();
    for (Vertical& at : slow)
        for (PointReading& point : at.points)
            point.velocity_ms = 0.1 * *point.velocity_ms;
    auto longer = slow;
    for (Vertical& at : longer)
        for (PointReading& point : at.points)
            point.time_s = 2.0 * *point.time_s;
    EXPECT_NEAR(then_of(improvements_of(slow), "flow.improve_exposure"), relative_expanded(longer), 1e-12);

    VelocityAreaOptions sounded;
    sounded.depth_u_m = kDepthReading_m / std::sqrt(2.0);
    std::vector<Vertical> shallow{bank(0.0)};
    for (int i = 1; i <= 30; ++i)
        shallow.push_back(one_point(0.1 * i, 0.1, 0.5));
    shallow.push_back(bank(3.1));
    EXPECT_NEAR(then_of(improvements_of(shallow), "flow.improve_depths"), relative_expanded(shallow, sounded), 1e-12);

    // Only many verticals, read long in slow water, leave the rating as the largest part.
    std::vector<Vertical> many{bank(0.0)};
    for (int i = 1; i <= 40; ++i) {
        many.push_back(one_point(0.1 * i, 0.7, 0.1));
        many.back().points[0].time_s = 180.0;
    }
    many.push_back(bank(4.1));
    VelocityAreaOptions own;
    own.meter.individual = true;
    EXPECT_NEAR(then_of(improvements_of(many), "flow.improve_rating"), relative_expanded(many, own), 1e-12);

    std::vector<Vertical> by_surface = creek();
    auto below = creek();
    for (Vertical& at : by_surface)
        for (PointReading& point : at.points) {
            point.depth_fraction = 0.0;
            point.velocity_ms = *point.velocity_ms / kSurfaceVelocityShare;
        }
    // the doubt of the meter depends on the velocity read: a little apart
    EXPECT_NEAR(then_of(improvements_of(by_surface), "flow.improve_surface"), relative_expanded(below), 0.002);
}

TEST(GaugingImprovements, TwiceTheVerticalsOnEvenWater) {
    const auto section = [](int panels) {
        std::vector<Vertical> all{bank(0.0)};
        for (int i = 0; i < panels; ++i)
            all.push_back(one_point(4.0 * (i + 0.5) / panels, 0.5, 0.4));
        all.push_back(bank(4.0));
        return all;
    };
    const Findings found = improvements_of(section(12));
    EXPECT_EQ(number_arg(*find_code(found, "flow.improve_verticals"), "count"), 24.0);
    EXPECT_NEAR(then_of(found, "flow.improve_verticals"), relative_expanded(section(24)), 0.001);
}

TEST(GaugingImprovements, PointsOnlyWhereTheDepthAllowsThem) {
    auto verticals = creek();
    EXPECT_FALSE(has_code(improvements_of(verticals), "flow.improve_points"));
    for (std::size_t i = 4; i < 13; ++i)
        verticals[i].depth_m = 0.8;
    const Findings found = improvements_of(verticals);
    ASSERT_TRUE(has_code(found, "flow.improve_points"));
    EXPECT_EQ(number_arg(*find_code(found, "flow.improve_points"), "count"), 9.0);
    EXPECT_FALSE(has_code(found, "flow.improve_surface"));
}

TEST(GaugingImprovements, NoneWithoutAFlow) {
    EXPECT_TRUE(improvements_of({bank(0.0), one_point(1.0, 0.5, 0.0), bank(2.0)}).empty());
}

} // namespace
} // namespace rillmark
