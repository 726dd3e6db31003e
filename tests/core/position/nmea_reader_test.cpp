// SPDX-License-Identifier: GPL-3.0-or-later
#include "position/nmea_reader.h"

#include "checks/checks.h"
#include "fixes.h"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <random>

namespace rillmark {

namespace {

using fixes::kNow_s;
using fixes::own_log;
using fixes::read_all;
using nlohmann::json;

std::string sentence(const std::string& body) {
    return fmt::format("${}*{:02X}\r\n", body, nmea_checksum(body));
}

std::string gga(const std::string& time, const std::string& rest = "4443.875,N,11936.150,W,1,09,0.9,1042.0,M,-19.6,M,,") {
    return sentence("GPGGA," + time + "," + rest);
}

TEST(NmeaSentence, PublishedChecksums) {
    const json check = checks::entry("position", "nmea-checksum");
    NmeaFramer framer;
    for (std::size_t i = 0; i < check["inputs"]["sentences"].size(); ++i) {
        const std::string text = check["inputs"]["sentences"][i];
        const std::vector<NmeaLine> lines = framer.feed(text + "\n");
        ASSERT_EQ(lines.size(), 1u);
        EXPECT_EQ(lines[0].check, NmeaLine::Check::Ok);
        EXPECT_EQ(fmt::format("{:02X}", nmea_checksum(lines[0].body)), check["expected"]["checksum"][i]);
    }
    // The first lacks its last two fields; that is allowed.
    const std::string body = std::string(check["inputs"]["sentences"][0]).substr(1, 70);
    EXPECT_TRUE(parse_gga(nmea_fields(body.substr(0, body.find('*')))));
}

TEST(NmeaSentence, PublishedDegrees) {
    const json check = checks::entry("position", "nmea-ddmm");
    const double tolerance = check["tolerance"]["abs_deg"];
    EXPECT_NEAR(*nmea_degrees(std::string(check["inputs"]["text"][0]), "N", 90.0), check["expected"]["deg"][0],
                tolerance);
    EXPECT_NEAR(*nmea_degrees(std::string(check["inputs"]["text"][1]), "E", 180.0), check["expected"]["deg"][1],
                tolerance);
}

TEST(NmeaSentence, DegreesThatAreNone) {
    EXPECT_DOUBLE_EQ(*nmea_degrees("4530.00", "S", 90.0), -45.5);
    EXPECT_DOUBLE_EQ(*nmea_degrees("9000", "N", 90.0), 90.0);
    for (const char* text : {"", "4560.00", "9000.01", "45", "4x30.00", "4530.0.0", "-4530.00", "45 30.0", "4530.00e1",
                             "004530.00", ".5", "4530.00|"})
        EXPECT_FALSE(nmea_degrees(text, "N", 90.0)) << text;
    EXPECT_FALSE(nmea_degrees("4530.00", "E", 90.0));
    EXPECT_FALSE(nmea_degrees("4530.00", "", 90.0));
    EXPECT_FALSE(nmea_degrees("18000.01", "W", 180.0));
}

TEST(NmeaSentence, TimesAndDates) {
    EXPECT_DOUBLE_EQ(*nmea_time_of_day("235960.5"), 86400.5); // a leap second
    EXPECT_DOUBLE_EQ(*nmea_time_of_day("010203"), 3723.0);
    for (const char* text : {"", "24", "240000", "126000", "120061", "12 000", "120000,5", "120000.x", "1200000"})
        EXPECT_FALSE(nmea_time_of_day(text)) << text;
    EXPECT_DOUBLE_EQ(*midnight_utc_s({2000, 2, 29}), 951782400.0);
    EXPECT_FALSE(midnight_utc_s({2001, 2, 29}));
    EXPECT_FALSE(midnight_utc_s({2001, 13, 1}));
    EXPECT_FALSE(midnight_utc_s({0, 1, 1}));
}

TEST(NmeaSentence, PublishedQualities) {
    const json check = checks::entry("position", "nmea-gga-quality");
    for (std::size_t i = 0; i < check["inputs"]["value"].size(); ++i) {
        const std::string body = fmt::format("GPGGA,120000,4443.875,N,11936.150,W,{},09,0.9,1042.0,M,-19.6,M,,",
                                             check["inputs"]["value"][i].get<int>());
        const std::optional<GgaSentence> parsed = parse_gga(nmea_fields(body));
        ASSERT_TRUE(parsed) << body;
        EXPECT_EQ(usable_as_station(parsed->quality), check["expected"]["use_as_station"][i]);
    }
}

TEST(NmeaSentence, FieldsAreTestedAsWellAsTheChecksum) {
    const auto parses = [](const std::string& body) { return parse_gga(nmea_fields(body)).has_value(); };
    EXPECT_TRUE(parses("GPGGA,120000,4443.875,N,11936.150,W,1,09,0.9,1042.0,M,-19.6,M,,"));
    EXPECT_TRUE(parses("GPGGA,,,,,,0,,,,M,,M,,"));
    EXPECT_FALSE(parses("GPGGA,120000,4443.875,N,11936.150,W,9,09,0.9,1042.0,M,-19.6,M,,"));
    EXPECT_FALSE(parses("GPGGA,120000,4443.875,N,11936.150,W,1,09,-0.9,1042.0,M,-19.6,M,,"));
    EXPECT_FALSE(parses("GPGGA,120000,4443.875,N,11936.150,W,1,09,0.9,nan,M,-19.6,M,,"));
    EXPECT_FALSE(parses("GPGGA,120000,4443.875,N,11936.150,W,1,09,0.9,1042.0,M,inf,M,,"));
    EXPECT_FALSE(parses("GPGGA,120000,4443.875,N,11936.150,N,1,09,0.9,1042.0,M,-19.6,M,,"));
    EXPECT_FALSE(parses("GPGGA,120000,4443.875,N"));
    EXPECT_FALSE(parses("GPRMC,120000,4443.875,N,11936.150,W,1,09,0.9,1042.0,M,-19.6,M,,"));
    EXPECT_FALSE(parses(""));
}

TEST(NmeaReader, OwnWalkIsMergedToOneFixASecond) {
    NmeaReader reader({"walk", {}});
    const std::vector<PositionFix> fixes = read_all(reader, own_log("walk_up_the_creek.nmea"));
    ASSERT_EQ(fixes.size(), 128u);
    EXPECT_EQ(reader.counts().checksum_ok, 4 * fixes.size());
    EXPECT_EQ(reader.counts().checksum_wrong + reader.counts().checksum_missing + reader.counts().unreadable, 0u);
    EXPECT_EQ(fixes[0].time_utc, "2026-05-14T17:59:00.000Z");
    EXPECT_EQ(fixes.back().time_utc, "2026-05-14T18:01:07.000Z");
    EXPECT_EQ(fixes.back().quality, FixQuality::Differential);
    for (const PositionFix& fix : fixes) {
        EXPECT_TRUE(plausible(fix).ok());
        EXPECT_EQ(fix.u_north_m, 1.6); // GST: latitude, longitude, height
        EXPECT_EQ(fix.u_east_m, 1.3);
        EXPECT_EQ(fix.u_up_m, 2.9);
        EXPECT_EQ(fix.satellites, 12);
        EXPECT_EQ(fix.source, "walk");
        EXPECT_NEAR(*fix.height_ellipsoid_m, *fix.height_msl_m - 19.6, 1e-9);
    }
}

TEST(NmeaReader, OwnLogOfFaults) {
    NmeaReader reader;
    const std::vector<PositionFix> fixes = read_all(reader, own_log("faults.nmea"));
    EXPECT_EQ(reader.counts().checksum_wrong, 2u);   // a GGA and a proprietary sentence
    EXPECT_EQ(reader.counts().checksum_missing, 2u); // an RMC cut by the end of its line, a GGA by the next sentence
    EXPECT_EQ(reader.counts().unreadable, 1u);       // a `|` in the time under a right checksum
    std::vector<std::string> seen;
    for (const PositionFix& fix : fixes) {
        const Expected<void> usable = plausible(fix);
        seen.push_back(usable ? fix.time_utc.substr(11, 8) : usable.error().code);
    }
    const std::vector<std::string> expected{"position.no_fix", "position.no_fix", "position.zero_zero", "09:00:02",
                                            "09:00:03", "09:00:05", "09:00:06", "09:00:07", "09:00:08", "09:00:10",
                                            "09:00:11"};
    EXPECT_EQ(seen, expected);
    EXPECT_FALSE(fixes[6].height_msl_m); // 2D
    EXPECT_FALSE(fixes[6].u_up_m);
    EXPECT_TRUE(fixes[7].height_msl_m);
    EXPECT_EQ(fixes[8].hdop, 0.7); // the better of two talkers
    EXPECT_EQ(fixes[9].u_north_m, 324.0);
}

TEST(NmeaReader, TheSizeOfThePiecesDoesNotMatter) {
    for (const char* name : {"walk_up_the_creek.nmea", "faults.nmea"}) {
        NmeaReader whole;
        const std::vector<PositionFix> expected = read_all(whole, own_log(name), 1u << 20);
        for (const std::size_t chunk : {1u, 7u, 83u}) {
            NmeaReader reader;
            const std::vector<PositionFix> fixes = read_all(reader, own_log(name), chunk);
            ASSERT_EQ(fixes.size(), expected.size());
            for (std::size_t i = 0; i < fixes.size(); ++i) {
                EXPECT_EQ(fixes[i].time_s, expected[i].time_s);
                EXPECT_EQ(fixes[i].latitude_deg, expected[i].latitude_deg);
            }
        }
    }
}

TEST(NmeaReader, FlippedBytesNeverMakeAWrongPlace) {
    constexpr unsigned kSeed = 5;
    SCOPED_TRACE(kSeed);
    std::mt19937 random(kSeed);
    const std::string log = own_log("walk_up_the_creek.nmea");
    std::uniform_int_distribution<std::size_t> where(0, log.size() - 1);
    std::uniform_int_distribution<int> byte(0, 255);
    for (int run = 0; run < 50; ++run) {
        std::string bytes = log;
        for (int flip = 0; flip < 200; ++flip)
            bytes[where(random)] = static_cast<char>(byte(random));
        NmeaReader reader;
        for (const PositionFix& fix : read_all(reader, bytes)) {
            if (!plausible(fix))
                continue;
            EXPECT_NEAR(fix.latitude_deg, 44.732, 0.01);
            EXPECT_NEAR(fix.longitude_deg, -119.602, 0.01);
        }
    }
}

TEST(NmeaReader, RandomBytesDoNoHarm) {
    constexpr unsigned kSeed = 6;
    SCOPED_TRACE(kSeed);
    std::mt19937 random(kSeed);
    const std::string letters = "$*,\r\n.0123456789GPARMCZDSTNEW#\xff";
    std::uniform_int_distribution<std::size_t> pick(0, letters.size() - 1);
    NmeaReader reader;
    std::string bytes;
    for (int i = 0; i < 200000; ++i)
        bytes.push_back(letters[pick(random)]);
    for (const PositionFix& fix : read_all(reader, bytes, 1000))
        EXPECT_FALSE(plausible(fix).ok());
    EXPECT_GT(reader.counts().checksum_missing, 0u);
}

TEST(NmeaReader, AnIdleLineGivesTheFixWithoutTheNextEpoch) {
    NmeaReader reader;
    EXPECT_TRUE(reader.feed(gga("120000.00"), kNow_s).empty());
    EXPECT_EQ(reader.flush(kNow_s).size(), 1u);
    EXPECT_TRUE(reader.flush(kNow_s).empty());
    EXPECT_TRUE(reader.feed(gga("120000.00"), kNow_s).empty()); // late: already given out
    EXPECT_TRUE(reader.feed(gga("120001.00"), kNow_s).empty());
    EXPECT_EQ(reader.flush(kNow_s).size(), 1u);
}

TEST(NmeaReader, AFrozenReceiverGivesNothingNew) {
    NmeaReader reader;
    std::size_t fixes = 0;
    for (int i = 0; i < 20; ++i) {
        fixes += reader.feed(gga("120000.00"), kNow_s + i).size();
        fixes += reader.flush(kNow_s + i).size();
    }
    EXPECT_EQ(fixes, 1u);
}

TEST(NmeaReader, WithoutADateTheDevicesDayIsTaken) {
    const double midnight_s = *midnight_utc_s({2026, 5, 14});
    NmeaReader reader;
    EXPECT_TRUE(reader.feed(gga("235959.00"), midnight_s + 5.0).empty()); // the receiver is six seconds behind
    EXPECT_EQ(reader.flush(midnight_s + 5.0).at(0).time_utc, "2026-05-13T23:59:59.000Z");
}

TEST(NmeaReader, TheDateCarriesOverMidnight) {
    NmeaReader reader;
    std::vector<PositionFix> fixes;
    for (const std::string& bytes :
         {sentence("GPRMC,235959.00,A,4443.875,N,11936.150,W,0.0,,140526,,,A"), gga("235959.00"), gga("000000.00")})
        for (const PositionFix& fix : reader.feed(bytes, kNow_s))
            fixes.push_back(fix);
    for (const PositionFix& fix : reader.flush(kNow_s))
        fixes.push_back(fix);
    ASSERT_EQ(fixes.size(), 2u);
    EXPECT_EQ(fixes[0].time_utc, "2026-05-14T23:59:59.000Z");
    EXPECT_EQ(fixes[1].time_utc, "2026-05-15T00:00:00.000Z");
}

TEST(NmeaReader, WeekRollOverIsPutRightWhenAsked) {
    const std::string old = sentence("GPRMC,120000.00,A,4443.875,N,11936.150,W,0.0,,280906,,,A"); // 1024 weeks too early
    NmeaReader as_is;
    EXPECT_TRUE(as_is.feed(old, kNow_s).empty());
    EXPECT_EQ(as_is.flush(kNow_s).at(0).time_utc, "2006-09-28T12:00:00.000Z");
    NmeaReader corrected({"live", midnight_utc_s({2026, 1, 1})});
    EXPECT_TRUE(corrected.feed(old, kNow_s).empty());
    EXPECT_EQ(corrected.flush(kNow_s).at(0).time_utc, "2026-05-14T12:00:00.000Z");
    EXPECT_EQ(corrected.counts().rolled_over, 1u);
}

TEST(NmeaReader, RmcAloneGivesAFixWithoutHeight) {
    NmeaReader reader;
    EXPECT_TRUE(reader.feed(sentence("GPRMC,120000,A,4443.875,N,11936.150,W,0.0,,140526,,"), kNow_s).empty());
    const PositionFix fix = reader.flush(kNow_s).at(0);
    EXPECT_EQ(fix.quality, FixQuality::Unknown);
    EXPECT_FALSE(fix.height_msl_m);
    EXPECT_TRUE(plausible(fix).ok());
    EXPECT_TRUE(reader.feed(sentence("GPRMC,120001,V,4443.875,N,11936.150,W,0.0,,140526,,,N"), kNow_s).empty());
    EXPECT_EQ(reader.flush(kNow_s).at(0).quality, FixQuality::None);
}

TEST(NmeaReader, ResetForgetsHalfASentence) {
    NmeaReader reader;
    EXPECT_TRUE(reader.feed(gga("120000.00").substr(0, 30), kNow_s).empty());
    reader.reset();
    EXPECT_TRUE(reader.feed(gga("120000.00").substr(30), kNow_s).empty());
    EXPECT_TRUE(reader.flush(kNow_s).empty());
    EXPECT_EQ(reader.counts().checksum_ok + reader.counts().checksum_missing, 0u);
}

} // namespace

} // namespace rillmark
