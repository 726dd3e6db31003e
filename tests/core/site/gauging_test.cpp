// SPDX-License-Identifier: GPL-3.0-or-later
// From the record of a gauging or a container test to its result.
#include "core/site/site_fixture.h"

#include "site/flow_tests.h"

namespace rillmark {

namespace {

class GaugingOfTheSite : public SiteFixture {
protected:
    Id test(const std::string& method, FlowTestRow row = {}) {
        row.method = method;
        row.name = "Test";
        return m_test = book(row);
    }
    Id meter(const std::string& name, double slope_m) {
        MeterRow row;
        row.name = name;
        row.slope_m = slope_m;
        return book(row);
    }
    Id vertical(double distance_m, double depth_m, const std::string& edge = {}) {
        VerticalRow row;
        row.test_id = m_test;
        row.distance_m = distance_m;
        row.depth_m = depth_m;
        row.edge = edge;
        return book(row);
    }
    void velocity(Id vertical_id, double fraction, std::optional<double> velocity_ms,
                  std::optional<double> revolutions = {}, std::optional<Id> by = {}) {
        VelocityRow row;
        row.vertical_id = vertical_id;
        row.depth_fraction = fraction;
        row.velocity_ms = velocity_ms;
        row.revolutions = revolutions;
        row.time_s = 60.0;
        row.meter_id = by;
        book(row);
    }
    double discharge() {
        const SiteEstimate site = estimate();
        EXPECT_TRUE(site.flow.tests.front().discharge);
        return site.flow.tests.front().discharge->estimate.value;
    }
    Id m_test = 0;
};

} // namespace

TEST_F(GaugingOfTheSite, AMeterOfThreeRanges) {
    MeterRow row;
    row.name = "three";
    row.slope_m = 0.1;
    row.limit_rev_s = 1.0;
    row.upper_slope_m = 0.2;
    row.upper_intercept_ms = -0.1;
    row.third_limit_rev_s = 2.0;
    row.third_slope_m = 0.3;
    row.third_intercept_ms = -0.3;
    ASSERT_TRUE(check_meter(row).ok());
    FlowTestRow setup;
    setup.meter_id = book(row);
    test("velocity-area", setup);
    vertical(0.0, 0.0, "water-edge");
    vertical(2.0, 0.0, "water-edge");
    velocity(vertical(1.0, 0.5), 0.6, {}, 180.0); // 3 rev/s in 60 s: 0.6 m/s over 0.5 m2
    EXPECT_DOUBLE_EQ(discharge(), 0.3);

    const auto refused = [](const MeterRow& meter) { return check_meter(meter).error().code; };
    MeterRow part = row;
    part.third_slope_m.reset();
    EXPECT_EQ(refused(part), "site.meter_range_in_part");
    part = row;
    part.upper_intercept_ms.reset();
    EXPECT_EQ(refused(part), "site.meter_range_in_part");
    part = row;
    part.limit_rev_s.reset();
    part.upper_slope_m.reset();
    part.upper_intercept_ms.reset();
    EXPECT_EQ(refused(part), "site.meter_range_in_part");
    part = row;
    part.slope_m = 0.0;
    EXPECT_EQ(refused(part), "site.meter_range_in_part");
    part = row;
    part.third_limit_rev_s = 0.5;
    EXPECT_EQ(refused(part), "flow.bad_rating");
}

TEST_F(GaugingOfTheSite, EachReadingKeepsItsMeterWhenAnotherIsTaken) {
    const Id slow = meter("small", 0.1);
    const Id fast = meter("large", 0.2);
    FlowTestRow setup;
    setup.meter_id = slow;
    test("velocity-area", setup);
    vertical(3.0, 0.0, "water-edge"); // the far bank first: they are sorted
    velocity(vertical(1.0, 0.5), 0.6, {}, 120.0, slow);
    velocity(vertical(2.0, 0.5), 0.6, {}, 120.0, fast);
    vertical(0.0, 0.0, "water-edge");
    EXPECT_NEAR(discharge(), 0.5 * (0.2 + 0.4), 1e-12);
    const Expected<std::vector<Booked<FlowTestRow>>> tests = m_project->all<FlowTestRow>();
    FlowTestRow changed = tests->front().row;
    changed.meter_id = fast;
    ASSERT_TRUE(m_project->change(changed).ok());
    EXPECT_NEAR(discharge(), 0.5 * (0.2 + 0.4), 1e-12);
}

TEST_F(GaugingOfTheSite, SharesOfTheSetUpReachTheMethod) {
    FlowTestRow setup;
    setup.surface_share = 0.8;
    setup.wall_share = 0.5;
    test("velocity-area", setup);
    vertical(0.0, 0.5, "vertical-bank");
    velocity(vertical(1.0, 0.5), 0.0, 0.5);
    vertical(2.0, 0.0, "water-edge");
    EXPECT_NEAR(discharge(), 0.5 * 0.4 + 0.25 * 0.2, 1e-12);
}

TEST_F(GaugingOfTheSite, WeighedFills) {
    FlowTestRow setup;
    setup.reaction_s = 1.0;
    test("container", setup);
    for (int i = 0; i < 3; ++i) {
        FillRow fill;
        fill.test_id = m_test;
        fill.volume_m3 = 1.0; // what was weighed counts
        fill.time_s = 10.0;
        fill.full_kg = 10.797;
        fill.empty_kg = 0.8;
        book(fill);
    }
    EXPECT_NEAR(discharge(), 0.001, 1e-7);
    const SiteEstimate site = estimate();
    EXPECT_GT(site.flow.tests.front().discharge->estimate.standard_uncertainty, 0.05 * 0.001);
}

} // namespace rillmark
