// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/site/site_fixture.h"

#include "levelling/sight_observations.h"
#include "site/readiness.h"

#include <algorithm>
#include <cmath>

namespace rillmark {

namespace {

bool has(const Findings& findings, const std::string& code) {
    return std::any_of(findings.begin(), findings.end(), [&](const Finding& f) { return f.code == code; });
}

constexpr double kStaff_m = SightPrecision{}.staff_reading_m;

} // namespace

TEST_F(SiteFixture, AnEmptySiteKnowsNothingAndSaysWhatIsMissing) {
    const SiteEstimate site = estimate();
    EXPECT_FALSE(site.heights.running_head.has_value());
    EXPECT_FALSE(site.flow.to_use.has_value());
    EXPECT_FALSE(site.chosen.result.house_W.has_value());
    EXPECT_TRUE(has(site.head_doubts, "site.head_missing"));
    for (const ReadinessItem& item : readiness(m_survey, site))
        EXPECT_NE(item.state, Readiness::Done) << item.code;
}

TEST_F(SiteFixture, RunningHeadFollowsTheBookDownToThePowerhouse) {
    const Id intake = station("intake", "Intake");
    const Id bend = station("route-point", "Bend");
    const Id powerhouse = station("powerhouse", "Powerhouse");
    const Id page = level_book();
    sight(page, "backsight", intake, "", 0.512);
    sight(page, "foresight", bend, "", 3.217);
    SiteEstimate site = estimate();
    ASSERT_TRUE(site.heights.running_head);
    EXPECT_NEAR(site.heights.running_head->head.estimate.value, 2.705, 1e-9); // 3.217 - 0.512 by hand
    EXPECT_EQ(site.heights.running_head->to, "Bend");
    EXPECT_TRUE(has(site.head_doubts, "site.head_not_to_powerhouse"));
    EXPECT_TRUE(has(site.head_doubts, "site.head_unchecked"));

    sight(page, "backsight", bend, "", 1.004);
    sight(page, "foresight", powerhouse, "", 3.9);
    site = estimate();
    EXPECT_NEAR(site.heights.running_head->head.estimate.value, 2.705 + 2.896, 1e-9);
    EXPECT_TRUE(site.heights.running_head->to_powerhouse);
    // four independent readings
    EXPECT_NEAR(site.heights.running_head->head.estimate.standard_uncertainty, 2.0 * kStaff_m, 1e-9);
    EXPECT_NEAR(site.heights.fall.at(bend).value, 2.705, 1e-9);
}

TEST_F(SiteFixture, AClosingRunChecksAndNarrowsTheHead) {
    const Id intake = station("intake", "Intake");
    const Id powerhouse = station("powerhouse", "Powerhouse");
    const Id page = level_book();
    sight(page, "backsight", intake, "", 0.5);
    sight(page, "foresight", powerhouse, "", 3.5);
    sight(page, "backsight", powerhouse, "", 3.402);
    sight(page, "foresight", intake, "", 0.4);
    const SiteEstimate site = estimate();
    ASSERT_TRUE(site.heights.running_head);
    EXPECT_TRUE(site.heights.running_head->checked);
    EXPECT_FALSE(has(site.head_doubts, "site.head_unchecked"));
    EXPECT_NEAR(site.heights.running_head->head.estimate.value, 3.001, 1e-9); // mean of 3.000 down and 3.002 up
    EXPECT_NEAR(site.heights.running_head->head.estimate.standard_uncertainty, kStaff_m, 1e-9);
    double share = 0.0;
    for (const BudgetLine& line : site.heights.running_head->head.budget)
        share += line.share;
    EXPECT_NEAR(share, 1.0, 1e-9);
}

TEST_F(SiteFixture, ALongLoopCountsAsChecked) {
    const Id intake = station("intake", "Intake");
    const Id powerhouse = station("powerhouse", "Powerhouse");
    const Id page = level_book();
    constexpr int kSetups = 20; // each way: every reading has a redundancy of 1/80
    for (int i = 0; i < kSetups; ++i) {
        sight(page, "backsight", i == 0 ? std::optional(intake) : std::nullopt, "D" + std::to_string(i), 0.5);
        sight(page, "foresight", i + 1 == kSetups ? std::optional(powerhouse) : std::nullopt, "D" + std::to_string(i + 1), 3.5);
    }
    EXPECT_FALSE(estimate().heights.running_head->checked);
    for (int i = 0; i < kSetups; ++i) {
        sight(page, "backsight", i == 0 ? std::optional(powerhouse) : std::nullopt, "U" + std::to_string(i), 3.5);
        sight(page, "foresight", i + 1 == kSetups ? std::optional(intake) : std::nullopt, "U" + std::to_string(i + 1), 0.5);
    }
    const SiteEstimate site = estimate();
    EXPECT_NEAR(site.heights.running_head->head.estimate.value, 60.0, 1e-9);
    EXPECT_TRUE(site.heights.running_head->checked);
}

TEST_F(SiteFixture, AStruckSightNoLongerCounts) {
    const Id intake = station("intake", "Intake");
    const Id powerhouse = station("powerhouse", "Powerhouse");
    const Id page = level_book();
    sight(page, "backsight", intake, "", 0.5);
    const Id wrong = sight(page, "foresight", powerhouse, "", 4.5);
    ASSERT_TRUE(m_project->strike(SightRow::kTable, wrong, "metre misread").ok());
    SightRow again;
    again.book_id = page;
    again.position = 2;
    again.kind = "foresight";
    again.station_id = powerhouse;
    again.reading_m = 3.5;
    book(again);
    EXPECT_NEAR(estimate().heights.running_head->head.estimate.value, 3.0, 1e-9);
}

TEST_F(SiteFixture, ReceiverHeightsGiveAFirstHeadAndLevelsTakeOver) {
    const Id intake = station("intake", "Intake", 47.0, 13.0);
    const Id powerhouse = station("powerhouse", "Powerhouse", 47.001, 13.0);
    const auto stay = [&](Id at, double height_m) {
        OccupationRow row;
        row.station_id = at;
        row.latitude_deg = 47.0;
        row.longitude_deg = 13.0;
        row.height_ellipsoid_m = height_m;
        row.u_up_m = 3.0;
        row.u_east_m = row.u_north_m = 2.0;
        row.fixes = 60;
        book(row);
    };
    stay(intake, 1031.0);
    stay(powerhouse, 1000.0);
    SiteEstimate site = estimate();
    ASSERT_TRUE(site.heights.running_head);
    EXPECT_NEAR(site.heights.running_head->head.estimate.value, 31.0, 1e-9);
    EXPECT_NEAR(site.heights.running_head->head.estimate.standard_uncertainty, 3.0 * std::sqrt(2.0), 1e-9);
    EXPECT_FALSE(site.heights.running_head->checked);
    ASSERT_EQ(site.heights.running_head->budget_rows.size(), 2u);
    EXPECT_NE(site.heights.running_head->budget_rows[0], 0); // each line leads to its stay

    const Id page = level_book();
    sight(page, "backsight", intake, "", 0.5);
    sight(page, "foresight", powerhouse, "", 3.5);
    site = estimate();
    // 3 m levelled against 31 m by receiver: the levels carry it, and the network says that they do not agree
    EXPECT_NEAR(site.heights.running_head->head.estimate.value, 3.0, 0.01);
    EXPECT_TRUE(has(site.heights.findings, "levels.network_test_failed"));
}

TEST_F(SiteFixture, ABookThatNoReceiverHeightJoinsStillGivesTheHead) {
    const Id intake = station("intake", "Intake");
    const Id powerhouse = station("powerhouse", "Powerhouse");
    const Id elsewhere = station("house", "House", 47.0, 13.0);
    OccupationRow stay;
    stay.station_id = elsewhere;
    stay.latitude_deg = 47.0;
    stay.longitude_deg = 13.0;
    stay.height_ellipsoid_m = 1000.0;
    stay.u_up_m = 3.0;
    book(stay);
    const Id page = level_book();
    sight(page, "backsight", intake, "", 0.5);
    sight(page, "foresight", powerhouse, "", 3.5);
    const SiteEstimate site = estimate();
    ASSERT_TRUE(site.heights.running_head);
    EXPECT_NEAR(site.heights.running_head->head.estimate.value, 3.0, 1e-9);
    EXPECT_NEAR(site.heights.fall.at(powerhouse).value, 3.0, 1e-9);
    ASSERT_TRUE(has(site.heights.findings, "levels.network_unconnected"));
    for (const Finding& finding : site.heights.findings)
        EXPECT_TRUE(finding.where.empty() || finding.where == "Intake") << finding.where; // names, never keys
}

TEST_F(SiteFixture, HeightsOfDifferentKindsAreNeverMixed) {
    const Id a = station("intake", "Intake", 47.0, 13.0);
    const Id b = station("powerhouse", "Powerhouse", 47.001, 13.0);
    OccupationRow row;
    row.latitude_deg = 47.0;
    row.longitude_deg = 13.0;
    row.u_up_m = 3.0;
    row.station_id = a;
    row.height_ellipsoid_m = 1048.0;
    book(row);
    row.station_id = b;
    row.height_ellipsoid_m.reset();
    row.height_msl_m = 970.0;
    book(row);
    const SiteEstimate site = estimate();
    // EGM96 lies 47.7 m above the ellipsoid there, so both stand near 1000 m above the sea and not 78 m apart
    ASSERT_TRUE(site.heights.running_head.has_value());
    const double separation_m = 1048.0 - site.heights.height.at(a).value;
    EXPECT_GT(separation_m, 40.0);
    EXPECT_LT(separation_m, 55.0);
    EXPECT_NEAR(site.heights.height.at(b).value, 970.0, 1e-6);
    EXPECT_NEAR(site.heights.running_head->head.estimate.value, 1048.0 - separation_m - 970.0, 1e-6);
    EXPECT_TRUE(has(site.heights.findings, "levels.receiver_heights_by_model"));
}

TEST_F(SiteFixture, FlowAndPipeGiveWattsAtTheHouse) {
    const Id intake = station("intake", "Intake", 47.0, 13.0);
    const Id powerhouse = station("powerhouse", "Powerhouse", 47.003, 13.0);
    const Id page = level_book();
    sight(page, "backsight", intake, "", 0.0);
    sight(page, "foresight", powerhouse, "", 9.9);
    FlowTestRow test;
    test.method = "container";
    test.name = "Spout";
    const Id test_id = book(test);
    for (const double time_s : {10.0, 10.1, 9.9}) {
        FillRow fill;
        fill.test_id = test_id;
        fill.volume_m3 = 0.2;
        fill.time_s = time_s;
        book(fill);
    }
    SiteEstimate site = estimate();
    ASSERT_TRUE(site.flow.to_use);
    EXPECT_NEAR(site.flow.to_use->discharge.estimate.value, 0.02, 1e-12); // 0.6 m3 in 30 s
    EXPECT_TRUE(has(site.power_doubts, "power.missing_pipe"));

    AlternativeRow alternative;
    alternative.name = "A";
    alternative.pipe_id = m_tables.pipes.front().id;
    alternative.cable_id = m_tables.conductors.front().id;
    alternative.cable_system = "single-phase";
    alternative.cable_length_m = 50.0;
    alternative.voltage_V = 230.0;
    book(alternative);
    site = estimate();
    // length along the ground: geodesic of 0.003 degrees of latitude (333.5 m, WGS 84) and 9.9 m of fall
    ASSERT_FALSE(site.chosen.input.pipes.empty());
    EXPECT_NEAR(site.chosen.input.pipes.front().route.length_m.value, std::hypot(333.53, 9.9), 0.2);
    EXPECT_GT(site.chosen.input.pipes.front().route.length_m.standard_uncertainty, 0.0);
    ASSERT_TRUE(site.chosen.result.gross_W);
    EXPECT_NEAR(site.chosen.result.gross_W->value, 999.7 * 9.808 * 0.02 * 9.9, 2.0); // rho g Q H
}

TEST_F(SiteFixture, AnUnknownPipeOrMethodIsNamedAndTheRestIsStillShown) {
    AlternativeRow alternative;
    alternative.name = "A";
    alternative.pipe_id = "no-such-pipe";
    book(alternative);
    FlowTestRow test;
    test.method = "tracer-of-the-future";
    test.name = "T";
    book(test);
    const SiteEstimate site = estimate();
    EXPECT_TRUE(has(site.power_doubts, "power.unknown_pipe"));
    ASSERT_EQ(site.flow.tests.size(), 1u);
    EXPECT_TRUE(has(site.flow.tests.front().findings, "site.unknown_flow_method"));
}

TEST_F(SiteFixture, LinesRunThroughTheStationsOfTheirKind) {
    station("house", "House", 47.004, 13.0);
    station("intake", "Intake", 47.0, 13.0);
    const Id bend = station("route-point", "Bend", 47.001, 13.0);
    const Id powerhouse = station("powerhouse", "Powerhouse", 47.003, 13.0);
    station("tailwater", "Tailwater", 47.0031, 13.0);
    const SiteEstimate site = estimate();
    const SiteLine pipe = site_line(m_survey, site.heights, StationLine::Pipe);
    ASSERT_EQ(pipe.stations.size(), 3u);
    EXPECT_EQ(pipe.stations[1], bend);
    EXPECT_EQ(pipe.stations[2], powerhouse);
    EXPECT_NEAR(pipe.chainage_m[2], 333.53, 0.1);
    const SiteLine cable = site_line(m_survey, site.heights, StationLine::Cable);
    ASSERT_EQ(cable.stations.size(), 2u);
    EXPECT_EQ(cable.stations[0], powerhouse);
}

TEST_F(SiteFixture, WhatIsLeftInTheCreekMakesNoPower) {
    FlowTestRow test;
    test.method = "container";
    test.name = "Spout";
    const Id test_id = book(test);
    for (int i = 0; i < 3; ++i) {
        FillRow fill;
        fill.test_id = test_id;
        fill.volume_m3 = 0.2;
        fill.time_s = 10.0; // 20 L/s
        book(fill);
    }
    const auto flow_m3s = [this] { return *estimate().chosen.result.flow_m3s; };
    const Estimate all = flow_m3s();
    EXPECT_NEAR(all.value, 0.020, 1e-12);
    SiteRow site = *m_project->site();
    site.leave_rule = "fixed";
    site.leave_m3s = 0.005;
    ASSERT_TRUE(m_project->change(site));
    EXPECT_NEAR(flow_m3s().value, 0.015, 1e-12);
    EXPECT_NEAR(flow_m3s().standard_uncertainty, all.standard_uncertainty, 1e-12);
    site.leave_rule = "share-of-flow";
    site.leave_share = 0.25;
    ASSERT_TRUE(m_project->change(site));
    EXPECT_NEAR(flow_m3s().value, 0.015, 1e-12);
    EXPECT_NEAR(flow_m3s().standard_uncertainty, 0.75 * all.standard_uncertainty, 1e-12);
    site.leave_rule = "fixed";
    site.leave_m3s = 0.050; // more than there is: nothing may be taken
    ASSERT_TRUE(m_project->change(site));
    EXPECT_LE(estimate().chosen.result.flow_m3s.value_or(Estimate{}).value, 0.0);
}

} // namespace rillmark
