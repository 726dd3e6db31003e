// SPDX-License-Identifier: GPL-3.0-or-later
// The logs of real receivers, against what an independent reader made of them (expected.json beside the logs).
#include "checks/checks.h"
#include "fixes.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <map>

namespace rillmark {

namespace {

using nlohmann::json;

const std::string kFolder = std::string(RILLMARK_REFERENCE_DIR) + "/head/nmea/";

/// Everything that expected.json tells of a log, sentence by sentence and not merged to epochs.
struct Tally {
    std::map<std::string, std::size_t> checks; // ok, bad, missing
    std::map<std::string, std::size_t> tags;
    std::map<std::string, std::size_t> qualities;
    std::size_t rmc_valid = 0;
    std::size_t rmc_invalid = 0;
    std::vector<GgaSentence> valid;
    std::vector<GstSentence> gst;
};

Tally tally_of(const std::string& bytes) {
    Tally tally;
    NmeaFramer framer;
    std::vector<NmeaLine> lines = framer.feed(bytes);
    for (const NmeaLine& line : framer.finish())
        lines.push_back(line);
    for (const NmeaLine& line : lines) {
        ++tally.checks[line.check == NmeaLine::Check::Ok      ? "ok"
                       : line.check == NmeaLine::Check::Wrong ? "bad"
                                                              : "missing"];
        if (line.check != NmeaLine::Check::Ok)
            continue;
        const std::vector<std::string_view> fields = nmea_fields(line.body);
        ++tally.tags[std::string(fields[0])];
        if (fields[0].size() == 5 && fields[0].substr(2) == "GGA")
            ++tally.qualities[std::string(fields.at(6))];
        if (const auto gga = parse_gga(fields); gga && gga->latitude_deg && usable_as_station(gga->quality))
            tally.valid.push_back(*gga);
        if (fields[0].size() == 5 && fields[0].substr(2) == "RMC")
            ++(fields.at(2) == "A" ? tally.rmc_valid : tally.rmc_invalid);
        if (const auto gst = parse_gst(fields))
            tally.gst.push_back(*gst);
    }
    return tally;
}

template <class Sentence>
std::optional<double> mean(const std::vector<Sentence>& all, std::optional<double> Sentence::*member) {
    double sum = 0.0;
    std::size_t n = 0;
    for (const Sentence& one : all)
        if (one.*member) {
            sum += *(one.*member);
            ++n;
        }
    return n == 0 ? std::optional<double>{} : sum / static_cast<double>(n);
}

void expect_number(const std::optional<double>& value, const json& expected, double tolerance, const char* what) {
    EXPECT_EQ(value.has_value(), !expected.is_null()) << what;
    if (value && !expected.is_null()) {
        EXPECT_NEAR(*value, expected.get<double>(), tolerance) << what;
    }
}

void expect_gga(const GgaSentence& gga, const json& expected) {
    expect_number(gga.latitude_deg, expected["lat_deg"], 1e-9, "latitude");
    expect_number(gga.longitude_deg, expected["lon_deg"], 1e-9, "longitude");
    expect_number(gga.height_msl_m, expected["alt_msl_m"], 1e-9, "height");
    expect_number(gga.geoid_separation_m, expected["geoid_sep_m"], 1e-9, "separation");
    EXPECT_EQ(static_cast<int>(gga.quality), expected["quality"]);
    EXPECT_EQ(gga.satellites, std::stoi(expected["sats"].get<std::string>()));
    expect_number(gga.hdop, json(std::stod(expected["hdop"].get<std::string>())), 1e-9, "hdop");
    EXPECT_EQ(gga.time_of_day_s, nmea_time_of_day(expected["utc_hhmmss"].get<std::string>()));
}

/// The independent reader wants the `$` at the start of a line: the log as it sees it.
std::string lines_with_dollar(const std::string& bytes) {
    std::string kept;
    for (std::size_t start = 0; start < bytes.size();) {
        const std::size_t end = std::min(bytes.find_first_of("\r\n", start), bytes.size());
        if (bytes[start] == '$')
            kept += bytes.substr(start, end - start) + "\n";
        start = end + 1;
    }
    return kept;
}

std::map<std::string, json> expected_files() {
    const std::optional<std::string> text = fixes::file_bytes(kFolder + "expected.json");
    if (!text)
        return {};
    return json::parse(*text)["files"].get<std::map<std::string, json>>();
}

void expect_counts(Tally& tally, const json& expected) {
    EXPECT_EQ(tally.checks["ok"], expected["checksum_ok"]);
    EXPECT_EQ(tally.checks["bad"], expected["checksum_bad"]);
    EXPECT_EQ(tally.checks["missing"], expected["checksum_missing"]);
    EXPECT_EQ(json(tally.qualities), expected["gga_quality_counts"]);
    EXPECT_EQ(tally.valid.size(), expected["valid_fixes_gga_quality_1_to_5"]);
}

void expect_fixes(const Tally& tally, const json& expected) {
    ASSERT_FALSE(tally.valid.empty());
    expect_gga(tally.valid.front(), expected["first_fix"]);
    expect_gga(tally.valid.back(), expected["last_fix"]);
    const json& means = expected["mean"];
    expect_number(mean(tally.valid, &GgaSentence::latitude_deg), means["lat_deg"], 1e-9, "mean latitude");
    expect_number(mean(tally.valid, &GgaSentence::longitude_deg), means["lon_deg"], 1e-9, "mean longitude");
    expect_number(mean(tally.valid, &GgaSentence::height_msl_m), means["alt_msl_m"], 1e-3, "mean height");
    expect_number(mean(tally.valid, &GgaSentence::geoid_separation_m), means["geoid_sep_m"], 1e-3, "mean separation");
}

void expect_gst(const Tally& tally, const json& expected) {
    EXPECT_EQ(tally.gst.size(), expected["n"]);
    expect_number(mean(tally.gst, &GstSentence::u_north_m), expected["mean_sigma_lat_m"], 1e-3, "north");
    expect_number(mean(tally.gst, &GstSentence::u_east_m), expected["mean_sigma_lon_m"], 1e-3, "east");
    expect_number(mean(tally.gst, &GstSentence::u_up_m), expected["mean_sigma_alt_m"], 1e-3, "up");
}

TEST(RealLogs, AsAnIndependentReaderSawThem) {
    const std::map<std::string, json> files = expected_files();
    if (files.empty())
        GTEST_SKIP() << "reference logs are not here";
    for (const auto& [name, expected] : files) {
        SCOPED_TRACE(name);
        Tally tally = tally_of(lines_with_dollar(fixes::file_bytes(kFolder + name).value()));
        expect_counts(tally, expected);
        for (const auto& [tag, count] : expected["sentences_by_tag"].get<std::map<std::string, std::size_t>>())
            EXPECT_EQ(tally.tags[tag], count) << tag;
        EXPECT_EQ(tally.rmc_valid, expected["rmc_status_A"]);
        EXPECT_EQ(tally.rmc_invalid, expected["rmc_status_V"]);
        if (expected["valid_fixes_gga_quality_1_to_5"] != 0)
            expect_fixes(tally, expected);
        if (expected.contains("gst"))
            expect_gst(tally, expected["gst"]);
    }
}

TEST(RealLogs, AsInTheTableOfChecks) {
    if (expected_files().empty())
        GTEST_SKIP() << "reference logs are not here";
    for (const char* id : {"nmea-log-nmea-rtk", "nmea-log-skytraq-px1172rh_ds", "nmea-log-haicom-305n",
                           "nmea-log-unicore-um621", "nmea-log-ublox-zed-f9r"}) {
        SCOPED_TRACE(id);
        const json check = checks::entry("position", id);
        const std::string file = check["inputs"]["file"];
        Tally tally = tally_of(
            lines_with_dollar(fixes::file_bytes(std::string(RILLMARK_REFERENCE_DIR) + "/head/" + file).value()));
        expect_counts(tally, check["expected"]);
        expect_fixes(tally, check["expected"]);
    }
}

// Sentences that follow a binary frame or a stray letter on one line are found as well, and nothing else changes.
TEST(RealLogs, ResynchronisingFindsSentencesInMidLine) {
    const std::map<std::string, json> files = expected_files();
    if (files.empty())
        GTEST_SKIP() << "reference logs are not here";
    const std::map<std::string, std::size_t> more{{"ublox-zed-f9r.log", 30}, {"tomtom-mkII.log", 1}};
    for (const auto& [name, expected] : files) {
        SCOPED_TRACE(name);
        Tally tally = tally_of(fixes::file_bytes(kFolder + name).value());
        const auto extra = more.find(name);
        EXPECT_EQ(tally.checks["ok"],
                  expected["checksum_ok"].get<std::size_t>() + (extra == more.end() ? 0 : extra->second));
        EXPECT_EQ(tally.valid.size(), expected["valid_fixes_gga_quality_1_to_5"]);
    }
}

std::vector<PositionFix> fixes_of(const std::string& name) {
    NmeaReader reader({name, {}});
    std::vector<PositionFix> usable;
    for (const PositionFix& fix : fixes::read_all(reader, fixes::file_bytes(kFolder + name).value(), 333))
        if (plausible(fix))
            usable.push_back(fix);
    return usable;
}

TEST(RealLogs, EpochsBecomeOneFix) {
    if (expected_files().empty())
        GTEST_SKIP() << "reference logs are not here";
    EXPECT_EQ(fixes_of("ublox-neo-m9n-nmea.log").size(), 61u);
    EXPECT_EQ(fixes_of("ublox-zed-f9r.log").size(), 30u);
    EXPECT_EQ(fixes_of("sirfstarv-nmea.log").size(), 59u); // two talkers a second
    EXPECT_EQ(fixes_of("hemi.log").size(), 21u);
    for (const PositionFix& fix : fixes_of("ublox-zed-f9r.log"))
        EXPECT_TRUE(fix.u_north_m && fix.u_east_m && fix.u_up_m);
    EXPECT_EQ(fixes_of("hemi.log").front().time_utc, "2018-09-07T19:40:50.000Z"); // the date stands only in ZDA
    EXPECT_EQ(fixes_of("nmea-rtk.log").back().quality, FixQuality::RtkFixed);
}

TEST(RealLogs, OldPositionsAndSimulatorsAreNoFixes) {
    if (expected_files().empty())
        GTEST_SKIP() << "reference logs are not here";
    EXPECT_TRUE(fixes_of("holux-gm-210.log").empty());
    EXPECT_TRUE(fixes_of("garmin-geko201.log").empty());
    for (const PositionFix& fix : fixes_of("polarx2.log")) {
        EXPECT_FALSE(fix.height_msl_m);
        EXPECT_GT(*fix.u_north_m, 300.0);
    }
}

} // namespace

} // namespace rillmark
