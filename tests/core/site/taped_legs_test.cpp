// SPDX-License-Identifier: GPL-3.0-or-later
#include "site/site_line.h"
#include "site/taped_legs.h"

#include "site_fixture.h"

#include <cmath>

namespace rillmark {
namespace {

class TapedLegsTest : public SiteFixture {
protected:
    Id tape_run(std::optional<double> relative = {}) {
        HeightRunRow run;
        run.method = "tape";
        run.name = "Tape 1";
        run.distance_u = relative;
        return book(run);
    }
    void length(Id run, std::optional<Id> from, const std::string& from_point, std::optional<Id> to,
                const std::string& to_point, std::optional<double> slope_m, std::optional<double> level_m = {}) {
        HeightReadingRow reading;
        reading.run_id = run;
        reading.position = ++m_position;
        reading.from_id = from;
        reading.from_point = from_point;
        reading.to_id = to;
        reading.to_point = to_point;
        reading.slope_distance_m = slope_m;
        reading.level_distance_m = level_m;
        book(reading);
    }
    void falls(Id from, Id to, double fall_m) {
        const Id levels = level_book();
        const int setups = static_cast<int>(std::ceil(fall_m / 3.0)); // as far as a staff reaches
        for (int i = 0; i < setups; ++i) {
            const auto change_point = [](int number) { return "CP" + std::to_string(number); };
            sight(levels, "backsight", i == 0 ? std::optional(from) : std::nullopt, change_point(i), 0.5);
            sight(levels, "foresight", i + 1 == setups ? std::optional(to) : std::nullopt, change_point(i + 1),
                  0.5 + fall_m / setups);
        }
    }
    const Findings& run_findings(const SiteEstimate& site) { return site.heights.runs.front().findings; }
};

bool has(const Findings& findings, std::string_view code) {
    return std::ranges::any_of(findings, [code](const Finding& one) { return one.code == code; });
}

TEST_F(TapedLegsTest, LengthsAddUpThroughChangePointsAndTheRiseMakesThemLevel) {
    const Id top = station("intake", "Intake");
    const Id bottom = station("powerhouse", "Powerhouse");
    falls(top, bottom, 30.0);
    const Id run = tape_run();
    length(run, top, "", {}, "CP1", 20.0);
    length(run, {}, "CP1", bottom, "", 30.0);
    const SiteEstimate site = estimate();
    const TapedLeg* leg = site.heights.taped.between(bottom, top);
    ASSERT_NE(leg, nullptr);
    EXPECT_DOUBLE_EQ(leg->slope_m.value, 50.0);
    ASSERT_TRUE(leg->level_m);
    EXPECT_NEAR(leg->level_m->value, 40.0, 1e-9); // 3, 4, 5
    EXPECT_NEAR(leg->slope_m.standard_uncertainty, std::hypot(0.05, 0.01 * std::sqrt(2.0)), 1e-12);
    EXPECT_TRUE(run_findings(site).empty());
}

TEST_F(TapedLegsTest, WithoutARiseASlopeTellsNoLevelDistance) {
    const Id a = station("intake", "Intake");
    const Id b = station("powerhouse", "Powerhouse");
    const Id run = tape_run();
    length(run, a, "", b, "", 50.0);
    const SiteEstimate site = estimate();
    ASSERT_NE(site.heights.taped.between(a, b), nullptr);
    EXPECT_FALSE(site.heights.taped.between(a, b)->level_m);
}

TEST_F(TapedLegsTest, ATapedLegTakesThePlaceOfThePositionsInTheChainage) {
    const Id top = station("intake", "Intake", 47.0, 13.0);
    const Id bend = station("route-point", "Bend", 47.001, 13.0); // 111.2 m by position
    station("powerhouse", "Powerhouse", 47.002, 13.0);
    const double by_position_m =
        site_line((estimate(), m_survey), estimate().heights, StationLine::Pipe).chainage_m.back();
    const Id run = tape_run();
    length(run, top, "", bend, "", {}, 115.0);
    const SiteEstimate site = estimate();
    const SiteLine pipe = site_line(m_survey, site.heights, StationLine::Pipe);
    ASSERT_EQ(pipe.stations.size(), 3u);
    EXPECT_DOUBLE_EQ(pipe.chainage_m[1], 115.0);
    EXPECT_NEAR(pipe.chainage_m[2], 115.0 + by_position_m / 2.0, 0.01);
    EXPECT_DOUBLE_EQ(pipe.taped_m, 115.0);
    EXPECT_NEAR(pipe.taped_u_m, std::hypot(0.115, 0.01), 1e-12);
}

TEST_F(TapedLegsTest, ALineThatIsTapedNeedsNoPositionsBeyondTheFirst) {
    const Id top = station("intake", "Intake", 47.0, 13.0);
    const Id bend = station("route-point", "Under the trees");
    const Id bottom = station("powerhouse", "Powerhouse");
    falls(top, bend, 6.0);
    falls(bend, bottom, 0.5);
    const Id run = tape_run();
    length(run, top, "", bend, "", 10.0);
    length(run, bend, "", bottom, "", {}, 12.0);
    const SiteEstimate site = estimate();
    const SiteLine pipe = site_line(m_survey, site.heights, StationLine::Pipe);
    ASSERT_EQ(pipe.stations.size(), 3u);
    EXPECT_NEAR(pipe.chainage_m[2], 8.0 + 12.0, 1e-9);
    EXPECT_NEAR(pipe.slope_chainage_m[2], 10.0 + std::hypot(12.0, 0.5), 1e-9);
}

TEST_F(TapedLegsTest, TheSameLegTwiceIsAveragedAndASlipIsTold) {
    const Id a = station("intake", "Intake");
    const Id b = station("powerhouse", "Powerhouse");
    falls(a, b, 1.0);
    const Id run = tape_run(0.001);
    length(run, a, "", b, "", 50.0);
    length(run, b, "", a, "", 50.06);
    SiteEstimate site = estimate();
    EXPECT_NEAR(site.heights.taped.between(a, b)->slope_m.value, 50.03, 1e-4);
    EXPECT_LT(site.heights.taped.between(a, b)->slope_m.standard_uncertainty, 0.04);
    EXPECT_FALSE(has(run_findings(site), "levels.tape_differs"));
    length(run, a, "", b, "", 60.0); // one length miscounted
    site = estimate();
    EXPECT_TRUE(has(run_findings(site), "levels.tape_differs"));
}

TEST_F(TapedLegsTest, ContradictionsAreToldWithTheirStations) {
    const Id a = station("intake", "Intake", 47.0, 13.0);
    const Id b = station("powerhouse", "Powerhouse", 47.001, 13.0);
    for (const Id at : {a, b}) {
        OccupationRow stay;
        stay.station_id = at;
        stay.u_east_m = stay.u_north_m = 1.0;
        book(stay);
    }
    falls(a, b, 30.0);
    const Id run = tape_run();
    length(run, a, "", b, "", {}, 211.2); // by position 111.2 m
    length(run, a, "", {}, "CP1", 60.0);
    length(run, {}, "CP1", b, "", {}, 55.0); // level after slope
    length(run, a, "", b, "", 29.0);         // less than the rise
    const SiteEstimate site = estimate();
    const Findings& findings = run_findings(site);
    EXPECT_TRUE(has(findings, "levels.tape_against_positions"));
    EXPECT_TRUE(has(findings, "levels.tape_mixed"));
    EXPECT_TRUE(has(findings, "levels.rise_beyond_distance"));
    for (const Finding& one : findings)
        EXPECT_EQ(one.where, "Intake - Powerhouse") << one.code;
}

TEST_F(TapedLegsTest, StruckLengthsAndBrokenLinesGiveNothing) {
    const Id a = station("intake", "Intake");
    const Id b = station("powerhouse", "Powerhouse");
    const Id run = tape_run();
    length(run, a, "", {}, "CP1", 20.0);
    length(run, {}, "CP7", b, "", 30.0); // does not go on where the first ended
    length(run, a, "", {}, "CP9", 20.0); // leads nowhere
    EXPECT_TRUE(estimate().heights.taped.legs.empty());
}

} // namespace
} // namespace rillmark
