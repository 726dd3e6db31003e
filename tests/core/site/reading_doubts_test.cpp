// SPDX-License-Identifier: GPL-3.0-or-later
#include "site/height_evidence.h"
#include "site/reading_doubts.h"

#include "site_fixture.h"

#include <algorithm>

namespace rillmark {
namespace {

bool has(const Findings& findings, std::string_view code) {
    return std::ranges::any_of(findings, [code](const Finding& one) { return one.code == code; });
}

/// A fall of 2 m that a level book knows, and a run with a water tube over the same two stations.
class ReadingDoubtsTest : public SiteFixture {
protected:
    void SetUp() override {
        SiteFixture::SetUp();
        m_top = station("intake", "Intake");
        m_bottom = station("powerhouse", "Powerhouse");
        const Id levels = level_book();
        sight(levels, "backsight", m_top, "", 1.0);
        sight(levels, "foresight", m_bottom, "", 3.0);
        HeightRunRow run;
        run.method = "water-tube";
        run.name = "Tube";
        m_run = book(run);
    }
    HeightReadingRow tube(double near_m, double far_m) const {
        HeightReadingRow reading;
        reading.run_id = m_run;
        reading.from_id = m_top;
        reading.to_id = m_bottom;
        reading.near_reading_m = near_m;
        reading.far_reading_m = far_m;
        return reading;
    }
    Findings doubts(const HeightReadingRow& reading) {
        const SiteHeights heights = estimate().heights;
        return reading_doubts(m_survey, heights, reading);
    }
    Id m_top = 0;
    Id m_bottom = 0;
    Id m_run = 0;
};

TEST_F(ReadingDoubtsTest, AReadingThatFitsIsNotDoubted) {
    EXPECT_TRUE(doubts(tube(0.2, 2.203)).empty());
}

TEST_F(ReadingDoubtsTest, ARiseThatTheBooksDoNotExpectIsDoubtedBeforeItIsBooked) {
    EXPECT_TRUE(has(doubts(tube(0.2, 2.3)), "levels.rise_improbable"));
    EXPECT_TRUE(has(doubts(tube(2.2, 0.2)), "levels.rise_maybe_turned"));
    EXPECT_TRUE(has(doubts(tube(0.0, 2.0 / 0.3048)), "levels.rise_maybe_feet"));
}

TEST_F(ReadingDoubtsTest, WhatTheMethodItselfRefusesIsDoubtedToo) {
    HeightReadingRow reading = tube(0.2, 2.2);
    HeightRunRow run;
    run.method = "clinometer";
    run.name = "Clinometer";
    reading.run_id = book(run);
    reading.angle_deg = 20.0;
    EXPECT_TRUE(has(doubts(reading), "levels.distance_missing"));
}

TEST_F(ReadingDoubtsTest, AReadingOfARunThatIsNotThereIsNotJudged) {
    HeightReadingRow reading = tube(0.2, 2.2);
    reading.run_id = 4711;
    EXPECT_TRUE(doubts(reading).empty());
}

TEST_F(ReadingDoubtsTest, OnceBookedAWildReadingIsNamedWithItsSlip) {
    for (int i = 0; i < 3; ++i)
        book(tube(0.2, 2.2));
    const Id wild = book(tube(2.2, 0.2));
    const SiteHeights heights = estimate().heights;
    const std::vector<Evidence> all = evidence_of(m_survey, heights);
    const auto hit = std::ranges::find(all, wild, &Evidence::row_id);
    ASSERT_NE(hit, all.end());
    ASSERT_TRUE(hit->slip);
    EXPECT_EQ(hit->slip->code, "levels.rise_maybe_turned");
    EXPECT_EQ(hit->slip->where, "Tube, Intake - Powerhouse");
}

} // namespace
} // namespace rillmark
