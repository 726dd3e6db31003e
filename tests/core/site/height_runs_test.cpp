// SPDX-License-Identifier: GPL-3.0-or-later
// From the record to the height network, by each way to measure a fall. The methods themselves are tested against
// published values in tests/core/heights and tests/core/levelling; here the readings must reach them with the right sign.
#include "core/site/site_fixture.h"

#include "site/height_evidence.h"
#include "site/next_measurement.h"
#include "site/profile.h"

#include <cmath>

namespace rillmark {

namespace {

bool has(const Findings& findings, const std::string& code) {
    return std::any_of(findings.begin(), findings.end(), [&](const Finding& f) { return f.code == code; });
}

class HeightRuns : public SiteFixture {
protected:
    void SetUp() override {
        SiteFixture::SetUp();
        intake = station("intake", "Intake", 47.0, 13.0);
        bend = station("route-point", "Bend", 47.0005, 13.0);
        powerhouse = station("powerhouse", "Powerhouse", 47.001, 13.0);
    }
    Id run(const std::string& method, HeightRunRow row = {}) {
        row.method = method;
        row.name = "Run";
        return book(row);
    }
    HeightReadingRow reading(Id run_id, Id from, std::optional<Id> to = {}) {
        HeightReadingRow row;
        row.run_id = run_id;
        row.position = ++m_position;
        row.from_id = from;
        row.to_id = to;
        return row;
    }
    double head() {
        const SiteEstimate site = estimate();
        EXPECT_TRUE(site.heights.running_head.has_value());
        if (!site.heights.running_head)
            for (const RunResult& one : site.heights.runs)
                for (const Finding& finding : one.findings)
                    ADD_FAILURE() << finding.code << " at " << finding.where;
        return site.heights.running_head ? site.heights.running_head->head.estimate.value : std::nan("");
    }
    Id intake = 0;
    Id bend = 0;
    Id powerhouse = 0;
};

} // namespace

TEST_F(HeightRuns, WaterTubeFallsWhereTheLowerStaffReadsMore) {
    HeightReadingRow row = reading(run("water-tube"), intake, powerhouse);
    row.near_reading_m = 0.300;
    row.far_reading_m = 1.450;
    book(row);
    EXPECT_NEAR(head(), 1.150, 1e-9);
}

TEST_F(HeightRuns, HandLevelStepsUpOrDown) {
    HeightRunRow instrument;
    instrument.eye_height_m = 1.60;
    const Id steps = run("hand-level", instrument);
    HeightReadingRow row = reading(steps, powerhouse, intake); // uphill: ten sights and 0.4 m
    row.sights = 10;
    row.part_m = 0.4;
    row.role = "up";
    book(row);
    EXPECT_NEAR(head(), 16.4, 1e-9);
    HeightReadingRow down = reading(steps, intake, powerhouse);
    down.sights = 10;
    down.part_m = 0.6;
    down.role = "down";
    book(down);
    EXPECT_NEAR(head(), 16.5, 1e-6); // both runs share the eye height and weigh alike
    const SiteEstimate site = estimate();
    ASSERT_EQ(site.heights.network->shared().size(), 1u);
    // the eye height is not lessened by going twice: 10 x 2 cm
    EXPECT_GT(site.heights.running_head->head.estimate.standard_uncertainty, 0.2);
}

TEST_F(HeightRuns, ClinometerTakesTheIndexOff) {
    HeightRunRow instrument;
    instrument.index_deg = 1.0; // shows 1 degree on the level
    instrument.index_u_deg = 0.1;
    HeightReadingRow row = reading(run("clinometer", instrument), intake, powerhouse);
    row.angle_deg = -9.0;
    row.slope_distance_m = 100.0;
    book(row);
    EXPECT_NEAR(head(), 100.0 * std::sin(10.0 * M_PI / 180.0), 1e-6);
}

TEST_F(HeightRuns, ZenithAngleFallsBelowNinety) {
    HeightReadingRow row = reading(run("zenith"), intake, powerhouse);
    row.angle_deg = 90.0 - 100.0; // zenith angle of 100 degrees
    row.slope_distance_m = 50.0;
    row.instrument_height_m = 1.5;
    row.target_height_m = 1.5;
    book(row);
    EXPECT_NEAR(head(), 50.0 * std::sin(10.0 * M_PI / 180.0), 0.001); // curvature and refraction below 1 mm
}

TEST_F(HeightRuns, HoseIsBookedFromTheUpperToTheLowerPoint) {
    HeightRunRow gauge;
    gauge.gauge_range_Pa = 6e5;
    gauge.gauge_class = 0.016;
    gauge.gauge_zero_Pa = 0.0;
    HeightReadingRow row = reading(run("hose-gauge", gauge), intake, powerhouse);
    row.pressure_Pa = 5e5;
    row.temperature_C = 10.0;
    book(row);
    // 500 kPa / (999.70 kg/m3 x 9.808 m/s2) is 51.0 m, and 0.12 % more for the air column (methods of hydrostatics)
    EXPECT_NEAR(head(), 51.05, 0.05);
}

TEST_F(HeightRuns, BarometerSharesTheDriftByTime) {
    const Id loop = run("barometer");
    const auto at = [&](Id where, double pressure_Pa, const std::string& time) {
        HeightReadingRow row = reading(loop, where);
        row.pressure_Pa = pressure_Pa;
        row.temperature_C = 15.0;
        row.observed_at = "2026-05-14T" + time + ":00.000Z";
        book(row);
    };
    at(intake, 90000.0, "08:00");
    at(powerhouse, 90520.0, "08:30"); // 20 Pa of it are the weather's
    at(intake, 90040.0, "09:00");
    // 500 Pa near 900 hPa and 15 C are 47 m: dz = (R Tv / g) ln(p1/p2)
    const double expected = 287.05 * 288.15 / 9.8 * std::log(90520.0 / 90020.0);
    EXPECT_NEAR(head(), expected, 0.5); // humidity that nobody read makes up to half a metre
}

TEST_F(HeightRuns, ReciprocalLineIsTheMeanOfBothBanks) {
    const Id line = run("reciprocal");
    HeightReadingRow a = reading(line, intake, powerhouse);
    a.near_reading_m = 1.500;
    a.far_reading_m = 2.610;
    book(a);
    HeightReadingRow b = reading(line, intake, powerhouse);
    b.near_reading_m = 0.400;
    b.far_reading_m = 1.490;
    book(b);
    EXPECT_NEAR(head(), 1.100, 1e-9); // 1.110 from one bank, 1.090 from the other
}

TEST_F(HeightRuns, BenchMarksFixTheDatumAndDoNotMixWithReceivers) {
    const Id marks = run("known-height");
    HeightReadingRow top = reading(marks, intake);
    top.height_m = 812.40;
    top.height_u_m = 0.02;
    book(top);
    HeightReadingRow row = reading(run("water-tube"), intake, powerhouse);
    row.near_reading_m = 0.3;
    row.far_reading_m = 1.3;
    book(row);
    OccupationRow stay;
    stay.station_id = intake;
    stay.longitude_deg = 13.0;
    stay.latitude_deg = 47.0;
    stay.height_ellipsoid_m = 860.0; // the geoid lies 47.6 m below the ellipsoid's height here
    stay.u_east_m = stay.u_north_m = 2.0;
    stay.u_up_m = 3.0;
    book(stay);
    const SiteEstimate site = estimate();
    EXPECT_NEAR(site.heights.height.at(intake).value, 812.40, 1e-3);
    EXPECT_NEAR(site.heights.height.at(powerhouse).value, 811.40, 1e-3);
}

TEST_F(HeightRuns, TwoPegTestCorrectsTheBooksOfItsInstrument) {
    HeightRunRow instrument;
    instrument.instrument = "Level 7";
    const Id pegs = run("two-peg", instrument);
    // Midway 1.000 and 1.000; near A 1.000, B at 50 m reads 1.010: the line of sight rises 10 mm in 50 m.
    const auto setup = [&](double a_m, double reading_a, double b_m, double reading_b) {
        HeightReadingRow row;
        row.run_id = pegs;
        row.position = ++m_position;
        row.near_distance_m = a_m;
        row.near_reading_m = reading_a;
        row.far_distance_m = b_m;
        row.far_reading_m = reading_b;
        book(row);
    };
    setup(25.0, 1.000, 25.0, 1.000);
    setup(0.0, 1.000, 50.0, 1.010);
    LevelBookRow page;
    page.name = "Book";
    page.instrument = "Level 7";
    const Id page_id = book(page);
    const auto sight_at = [&](const char* kind, Id at, double reading_m, double distance_m) {
        SightRow row;
        row.book_id = page_id;
        row.position = ++m_position;
        row.kind = kind;
        row.station_id = at;
        row.reading_m = reading_m;
        row.distance_m = distance_m;
        book(row);
    };
    sight_at("backsight", intake, 0.500, 10.0);
    sight_at("foresight", powerhouse, 3.000, 40.0);
    // 2.500 as booked; the foresight is 40 m x 0.2 mm too large, the backsight 10 m x 0.2 mm
    // curvature and refraction: 0.86 x 40^2 / (2 x 6371 km) = 0.108 mm, and 0.007 mm for 10 m
    EXPECT_NEAR(head(), 2.500 - 0.008 + 0.002 - 0.000108 + 0.000007, 2e-6);
    EXPECT_TRUE(has(estimate().heights.findings, "levels.collimation_cost"));
}

TEST_F(HeightRuns, ReadingThatIsRefusedIsNamedAndLeavesTheRestStanding) {
    const Id tube = run("water-tube");
    HeightReadingRow good = reading(tube, intake, bend);
    good.near_reading_m = 0.3;
    good.far_reading_m = 1.3;
    book(good);
    HeightReadingRow bad = reading(run("clinometer"), bend, powerhouse); // no distance
    bad.angle_deg = -5.0;
    book(bad);
    const SiteEstimate site = estimate();
    EXPECT_TRUE(has(site.heights.runs.back().findings, "levels.distance_missing"));
    EXPECT_NEAR(site.heights.fall.at(bend).value, 1.0, 1e-9);
}

TEST_F(HeightRuns, EvidenceNamesTheWrongReadingAndTheLikelySlip) {
    const Id page = level_book();
    for (int round = 0; round < 2; ++round) {
        sight(page, "backsight", intake, "", 0.500);
        sight(page, "foresight", bend, "", 2.500);
        sight(page, "backsight", bend, "", 0.600);
        sight(page, "foresight", powerhouse, "", 2.600);
        sight(page, "backsight", powerhouse, "", 2.700);
        sight(page, "foresight", bend, "", round == 0 ? 0.700 : 1.700); // a metre misread
        sight(page, "backsight", bend, "", 2.400);
        sight(page, "foresight", intake, "", 0.400);
    }
    const SiteEstimate site = estimate();
    const std::vector<Evidence> all = evidence_of(m_survey, site.heights);
    ASSERT_EQ(all.size(), 16u);
    const auto worst = std::max_element(all.begin(), all.end(), [](const Evidence& a, const Evidence& b) {
        return std::abs(a.adjusted.normalised_residual.value_or(0.0)) < std::abs(b.adjusted.normalised_residual.value_or(0.0));
    });
    EXPECT_TRUE(worst->adjusted.outlier);
    EXPECT_EQ(worst->place, Evidence::Place::Book);
    ASSERT_TRUE(worst->slip);
    EXPECT_EQ(worst->slip->code, "levels.reading_maybe_metre");
}

TEST_F(HeightRuns, DropBetweenTwoStationsHasItsSlope) {
    HeightReadingRow row = reading(run("water-tube"), intake, powerhouse);
    row.near_reading_m = 0.3;
    row.far_reading_m = 2.3;
    book(row);
    const SiteEstimate site = estimate();
    const std::optional<Drop> drop = drop_between(m_survey, site.heights, intake, powerhouse);
    ASSERT_TRUE(drop && drop->slope && drop->level_m);
    EXPECT_NEAR(*drop->level_m, 111.2, 0.1); // 0.001 degree of latitude at 47 N is 111.18 m (WGS 84)
    EXPECT_NEAR(*drop->slope, 2.0 / *drop->level_m, 1e-9);
    EXPECT_FALSE(drop_between(m_survey, site.heights, intake, bend)); // nothing joins the bend
    EXPECT_FALSE(drop_between(m_survey, site.heights, intake, intake));
    const std::vector<ProfilePoint> profile = profile_of(m_survey, site.heights);
    ASSERT_EQ(profile.size(), 2u);
    EXPECT_EQ(profile.front().station, intake);
    EXPECT_GT(profile.back().height.standard_uncertainty, 0.0);
}

TEST_F(HeightRuns, WhatToMeasureNextIsTheWeakestStretchOrWhatIsNotJoined) {
    HeightReadingRow top = reading(run("water-tube"), intake, bend);
    top.near_reading_m = 0.3;
    top.far_reading_m = 1.3;
    book(top);
    std::vector<NextMeasurement> next = what_to_measure_next(m_survey, estimate().heights, 5);
    ASSERT_FALSE(next.empty());
    EXPECT_TRUE(next.front().joins);
    EXPECT_EQ(next.front().from, "Bend"); // the nearest that is joined
    EXPECT_EQ(next.front().to, "Powerhouse");

    HeightReadingRow shot = reading(run("clinometer"), bend, powerhouse); // far poorer than the tube
    shot.angle_deg = -2.0;
    shot.slope_distance_m = 55.0;
    book(shot);
    const SiteEstimate site = estimate();
    next = what_to_measure_next(m_survey, site.heights, 5);
    ASSERT_FALSE(next.empty());
    EXPECT_FALSE(next.front().joins);
    EXPECT_EQ(next.front().method, "level-book");
    EXPECT_LT(next.front().after_m, 0.1 * next.front().before_m);
    EXPECT_TRUE(next.front().to == "Powerhouse" || next.front().from == "Powerhouse");
    for (std::size_t i = 1; i < next.size(); ++i)
        EXPECT_GE(next[i].after_m, next[i - 1].after_m);
}

TEST_F(HeightRuns, ASiteOfNothingButAnUnknownMethodSaysSo) {
    const Id strange = run("pendulum");
    book(reading(strange, intake, bend));
    const SiteEstimate site = estimate();
    EXPECT_TRUE(has(site.heights.runs.front().findings, "levels.method_unknown"));
    EXPECT_TRUE(what_to_measure_next(m_survey, site.heights, 3).empty());
    EXPECT_TRUE(evidence_of(m_survey, site.heights).empty());
}

} // namespace rillmark
