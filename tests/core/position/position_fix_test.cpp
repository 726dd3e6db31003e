// SPDX-License-Identifier: GPL-3.0-or-later
#include "checks/checks.h"
#include "fixes.h"
#include "position/accuracy.h"
#include "position/fix_watch.h"
#include "position/station_kind.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <set>

namespace rillmark {

namespace {

using fixes::good;

constexpr double kNan = std::numeric_limits<double>::quiet_NaN();
constexpr double kInf = std::numeric_limits<double>::infinity();

std::string code_of(const PositionFix& fix) {
    const Expected<void> result = plausible(fix);
    return result ? "" : result.error().code;
}

TEST(Plausible, TakesAGoodFixWithAndWithoutHeight) {
    PositionFix fix = good();
    EXPECT_EQ(code_of(fix), "");
    fix.height_ellipsoid_m = fix.height_msl_m = std::nullopt;
    EXPECT_EQ(code_of(fix), "");
}

TEST(Plausible, RefusesQualityZeroWithCoordinates) {
    PositionFix fix = good();
    fix.quality = FixQuality::None;
    EXPECT_EQ(code_of(fix), "position.no_fix");
}

TEST(Plausible, RefusesWhatWasNotMeasured) {
    for (const FixQuality quality : {FixQuality::DeadReckoning, FixQuality::Manual, FixQuality::Simulator}) {
        PositionFix fix = good();
        fix.quality = quality;
        EXPECT_EQ(code_of(fix), "position.not_measured");
    }
}

TEST(Plausible, RefusesZeroZeroButNotTheEquatorOrTheMeridian) {
    PositionFix fix = good();
    fix.latitude_deg = fix.longitude_deg = 0.0;
    EXPECT_EQ(code_of(fix), "position.zero_zero");
    fix.longitude_deg = -78.0;
    EXPECT_EQ(code_of(fix), "");
    fix.latitude_deg = 51.0;
    fix.longitude_deg = 0.0;
    EXPECT_EQ(code_of(fix), "");
}

TEST(Plausible, RefusesNumbersThatAreNoPlace) {
    for (const double bad : {kNan, kInf, -kInf}) {
        PositionFix fix = good();
        fix.latitude_deg = bad;
        EXPECT_EQ(code_of(fix), "position.not_finite");
        fix = good();
        fix.time_s = bad;
        EXPECT_EQ(code_of(fix), "position.not_finite");
        fix = good();
        fix.height_msl_m = bad;
        EXPECT_EQ(code_of(fix), "position.not_finite");
    }
    PositionFix fix = good();
    fix.latitude_deg = 90.0001;
    EXPECT_EQ(code_of(fix), "position.out_of_range");
    fix = good();
    fix.longitude_deg = -180.0001;
    EXPECT_EQ(code_of(fix), "position.out_of_range");
    fix = good();
    fix.height_msl_m = 17999.0;
    EXPECT_EQ(code_of(fix), "position.height_out_of_range");
}

TEST(FixQuality, IdsComeBack) {
    std::set<std::string_view> seen;
    for (int i = 0; i <= static_cast<int>(FixQuality::Unknown); ++i) {
        const FixQuality quality = static_cast<FixQuality>(i);
        EXPECT_EQ(fix_quality_from_id(fix_quality_id(quality)), quality);
        EXPECT_TRUE(seen.insert(fix_quality_id(quality)).second);
    }
    EXPECT_EQ(fix_quality_from_id("triple-band"), FixQuality::Unknown);
    EXPECT_TRUE(better(FixQuality::RtkFixed, FixQuality::RtkFloat));
    EXPECT_TRUE(better(FixQuality::Differential, FixQuality::Autonomous));
    EXPECT_FALSE(better(FixQuality::None, FixQuality::Simulator));
}

TEST(Claim, TheReceiversOwnFirstThenTheDefaultTimesHdop) {
    PositionFix fix = good();
    const FixClaim base = default_claim(FixQuality::Autonomous);
    EXPECT_DOUBLE_EQ(claimed_uncertainty(fix).east_m, base.horizontal_axis_m);
    fix.hdop = 4.0;
    EXPECT_DOUBLE_EQ(claimed_uncertainty(fix).up_m, 4.0 * base.up_m);
    fix.hdop = 0.5; // a fine sky does not make the ranges better
    EXPECT_DOUBLE_EQ(claimed_uncertainty(fix).east_m, base.horizontal_axis_m);
    fix.u_east_m = 1.25;
    fix.u_north_m = 0.0; // a claim of nothing is no claim
    fix.u_up_m = kNan;
    EXPECT_DOUBLE_EQ(claimed_uncertainty(fix).east_m, 1.25);
    EXPECT_DOUBLE_EQ(claimed_uncertainty(fix).north_m, base.horizontal_axis_m);
    EXPECT_DOUBLE_EQ(claimed_uncertainty(fix).up_m, base.up_m);
}

TEST(IsoUtc, KnownInstants) {
    EXPECT_EQ(iso_utc(0.0), "1970-01-01T00:00:00.000Z");
    EXPECT_EQ(iso_utc(951782400.0), "2000-02-29T00:00:00.000Z");
    EXPECT_EQ(iso_utc(-0.001), "1969-12-31T23:59:59.999Z");
    EXPECT_EQ(iso_utc(1.9996), "1970-01-01T00:00:02.000Z");
    for (const double bad : {kNan, kInf, -kInf, 1e300, -1e300})
        EXPECT_EQ(iso_utc(bad), "");
}

TEST(Accuracy, PublishedMeasures) {
    const nlohmann::json drms = checks::entry("position", "gnss-2drms");
    EXPECT_NEAR(two_drms_m(drms["inputs"]["sigma_e_m"], drms["inputs"]["sigma_n_m"]), drms["expected"]["two_drms_m"],
                drms["tolerance"]["abs_m"]);
    const nlohmann::json circular = checks::entry("position", "gnss-circular");
    const double tolerance = circular["tolerance"]["rel"];
    const double cep = circular["expected"]["cep50"];
    const double r95 = circular["expected"]["r95"];
    EXPECT_NEAR(*axis_from_radius(cep, 0.50), 1.0, tolerance);
    EXPECT_NEAR(*axis_from_radius(r95, 0.95), 1.0, tolerance);
}

TEST(Accuracy, RefusesWhatIsNoRadiusOrProbability) {
    EXPECT_EQ(*axis_from_radius(0.0, 0.5), 0.0);
    for (const double bad : {kNan, kInf, -1.0})
        EXPECT_FALSE(axis_from_radius(bad, 0.68));
    for (const double bad : {kNan, 0.0, 1.0, -0.1, 2.0})
        EXPECT_FALSE(axis_from_radius(1.0, bad));
}

TEST(StationKind, IdsComeBackAndUnknownOnesAreOther) {
    std::set<std::string_view> seen;
    for (const StationKindEntry& entry : station_kinds()) {
        EXPECT_EQ(station_kind_from_id(entry.id), entry.kind);
        EXPECT_EQ(station_kind_id(entry.kind), entry.id);
        EXPECT_TRUE(seen.insert(entry.id).second);
    }
    EXPECT_EQ(seen.size(), static_cast<std::size_t>(StationKind::Other) + 1);
    EXPECT_EQ(station_kind_from_id("weather-mast"), StationKind::Other);
    EXPECT_EQ(station_kind_from_id(""), StationKind::Other);
    EXPECT_EQ(station_line(StationKind::HighPoint), StationLine::Pipe);
    EXPECT_EQ(station_line(StationKind::House), StationLine::Cable);
    EXPECT_EQ(station_line(StationKind::BoundaryCorner), StationLine::Boundary);
    EXPECT_EQ(station_line(StationKind::FloodMark), StationLine::None);
}

TEST(FixWatch, FreshStaleLostAndFoundAgain) {
    FixWatch watch("receiver");
    EXPECT_EQ(watch.state(0.0).status, ReceiverStatus::NoReceiver);
    watch.connected();
    EXPECT_EQ(watch.state(1.0).status, ReceiverStatus::Searching);
    EXPECT_TRUE(watch.arrived(good(), 10.0));
    EXPECT_EQ(watch.state(10.5).status, ReceiverStatus::Fixing);
    EXPECT_EQ(*watch.state(10.5).age_s, 0.5);
    EXPECT_EQ(watch.state(10.0 + kStaleAfter_s + 0.1).status, ReceiverStatus::Stale);
    EXPECT_EQ(watch.state(10.0 + kLostAfter_s + 0.1).status, ReceiverStatus::Lost);
    EXPECT_EQ(watch.state(10.0 + kLostAfter_s + 0.1).finding.code, "position.signal_lost");
    EXPECT_TRUE(watch.arrived(good(60.0), 70.0));
    EXPECT_EQ(watch.state(70.0).status, ReceiverStatus::Fixing);
}

TEST(FixWatch, AnUnusableFixDoesNotFreshenTheLastOne) {
    FixWatch watch("receiver");
    watch.connected();
    PositionFix old = good();
    old.quality = FixQuality::None;
    EXPECT_FALSE(watch.arrived(old, 1.0));
    EXPECT_EQ(watch.state(1.0).status, ReceiverStatus::Searching);
    EXPECT_EQ(watch.state(1.0).finding.code, "position.no_fix");
    EXPECT_TRUE(watch.arrived(good(), 2.0));
    for (double t = 3.0; t <= 2.0 + kStaleAfter_s + 1.0; t += 1.0)
        EXPECT_FALSE(watch.arrived(old, t));
    EXPECT_EQ(watch.state(2.0 + kStaleAfter_s + 1.0).status, ReceiverStatus::Stale);
    EXPECT_EQ(watch.state(2.0 + kStaleAfter_s + 1.0).finding.code, "position.no_fix");
}

TEST(FixWatch, ABrokenLineIsLostOneThatNeverWasIsNoReceiver) {
    FixWatch watch("receiver");
    watch.disconnected(warning("position.cannot_connect"));
    EXPECT_EQ(watch.state(0.0).status, ReceiverStatus::NoReceiver);
    EXPECT_EQ(watch.state(0.0).finding.code, "position.cannot_connect");
    watch.connected();
    watch.disconnected(warning("position.connection_lost"));
    EXPECT_EQ(watch.state(0.0).status, ReceiverStatus::Lost);
    watch.connected();
    EXPECT_EQ(watch.state(0.0).status, ReceiverStatus::Searching);
    watch.failed(refusal("position.not_permitted"));
    EXPECT_EQ(watch.state(0.0).status, ReceiverStatus::Error);
    EXPECT_TRUE(watch.arrived(good(), 1.0));
    EXPECT_EQ(watch.state(1.0).status, ReceiverStatus::Fixing);
    watch.stopped();
    EXPECT_EQ(watch.state(2.0).status, ReceiverStatus::NoReceiver);
    EXPECT_FALSE(watch.state(2.0).age_s);
}

} // namespace

} // namespace rillmark
