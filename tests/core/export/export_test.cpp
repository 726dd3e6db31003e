// SPDX-License-Identifier: GPL-3.0-or-later
#include "export/csv_tables.h"
#include "export/dxf.h"
#include "export/export_text.h"
#include "export/geojson.h"
#include "export/gpx.h"
#include "export/kml.h"

#include "exchange/csv.h"
#include "export/dxf_drawing.h"

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include <cmath>
#include <limits>
#include <sstream>

namespace rillmark {

namespace {

const std::string kHardName = "Weir \"A\" & <B>, \xF0\x9F\x8C\x8A 'x'\x01\x1F";
const std::string kCleanName = "Weir \"A\" & <B>, \xF0\x9F\x8C\x8A 'x'";

ExportPoint at(double latitude, double longitude, std::optional<double> height = {}) {
    return {{latitude, longitude}, height, "2026-05-01T10:00:00.000Z"};
}

/// Two stations with a position, one without; a clockwise boundary; a pipe; a track in two parts.
ExportSite sample() {
    ExportSite site;
    site.name = kHardName;
    site.stations = {{7, kHardName, "intake", "a\tnote", GeoPoint{-33.5, 18.25}, Estimate{120.5, 0.02}, Estimate{0.0, 0.0},
                      Estimate{340.0, 2.0}},
                     {8, "Powerhouse", "powerhouse", "", GeoPoint{-33.501, 18.2501}, Estimate{100.25, 0.03}, Estimate{20.25, 0.02}, {}},
                     {9, "Somewhere", "note-of-tomorrow", "", {}, {}, {}, {}}};
    site.lines = {{StationLine::Pipe, {at(-33.5, 18.25, 340.0), at(-33.501, 18.2501)}, 111.3},
                  {StationLine::Boundary, {at(-33.5, 18.0), at(-33.4, 18.0), at(-33.4, 18.1), at(-33.5, 18.1)}, 4e4}};
    site.track = {{at(-33.5, 18.25, 340.0), at(-33.5005, 18.25)}, {at(-33.5, 18.2), at(-33.6, 18.2), at(-33.7, 18.2)}};
    site.profile = {{kHardName, 0.0, {120.5, 0.02}, Estimate{0.0, 0.0}}, {"Powerhouse", 111.3, {100.25, 0.03}, {}}};
    return site;
}

template <class Write>
std::string text_of(Write write) {
    std::ostringstream out;
    write(out, sample());
    return out.str();
}

std::size_t count(const std::string& text, const std::string& part) {
    std::size_t found = 0;
    for (std::size_t where = text.find(part); where != std::string::npos; where = text.find(part, where + part.size()))
        ++found;
    return found;
}

} // namespace

TEST(ExportText, DropsControlsAndRepairsBytes) {
    EXPECT_EQ(clean_text(kHardName), kCleanName);
    EXPECT_EQ(clean_text(std::string("a\0b", 3)), "ab");
    EXPECT_EQ(clean_text("a\r\nb\rc\td"), "a\nb\nc\td");
    EXPECT_EQ(clean_text("\xC3(\xFF"), "\xEF\xBF\xBD(\xEF\xBF\xBD");
    EXPECT_EQ(clean_text("\xC2\x85\x7F\xEF\xBF\xBE"), ""); // U+0085, U+007F, U+FFFE
    EXPECT_EQ(clean_text("\xED\xA0\x80").find('\xED'), std::string::npos); // half of a surrogate pair
}

TEST(ExportText, EscapesForEachFormat) {
    EXPECT_EQ(xml_text("<a b=\"c\" d='e'>&"), "&lt;a b=&quot;c&quot; d=&apos;e&apos;&gt;&amp;");
    EXPECT_EQ(csv_text("plain"), "plain");
    EXPECT_EQ(csv_text("12\", half"), "\"12\"\", half\"");
    EXPECT_EQ(csv_text(" kept "), "\" kept \"");
    EXPECT_EQ(dxf_text("100 % \xC3\xA4\n"), "100 % \\U+00E4 ");
    EXPECT_EQ(dxf_text("%%d \\P ^J \xF0\x9F\x8C\x8A"), "%\\U+0025d \\U+005CP \\U+005EJ ?");
    EXPECT_EQ(decimal_text(1e-9, 9), "0.000000001");
    EXPECT_EQ(decimal_text(-1.5e7, 3), "-15000000.000");
}

TEST(GeoJson, FollowsRfc7946) {
    const auto json = nlohmann::json::parse(text_of(write_geojson));
    EXPECT_EQ(json.at("type"), "FeatureCollection");
    EXPECT_FALSE(json.contains("crs")); // section 4
    EXPECT_EQ(json.at("name"), kCleanName);
    ASSERT_EQ(json.at("features").size(), 7u);
    for (const auto& feature : json.at("features")) {
        EXPECT_EQ(feature.at("type"), "Feature");
        EXPECT_TRUE(feature.contains("geometry") && feature.contains("properties")); // section 3.2
    }
    const auto& first = json.at("features").at(0);
    EXPECT_EQ(first.at("id"), 7);
    EXPECT_EQ(first.at("geometry").at("coordinates"), nlohmann::json({18.25, -33.5})); // longitude first
    EXPECT_EQ(first.at("properties").at("name"), kCleanName);
    EXPECT_EQ(first.at("properties").at("height_u_m"), 0.02);
    EXPECT_EQ(first.at("properties").at("height_msl_m"), 340.0);
    EXPECT_TRUE(json.at("features").at(1).at("properties").at("height_msl_m").is_null());
    EXPECT_TRUE(json.at("features").at(2).at("geometry").is_null());
    const auto& ring = json.at("features").at(4).at("geometry").at("coordinates").at(0);
    ASSERT_EQ(ring.size(), 5u);
    EXPECT_EQ(ring.front(), ring.back()); // section 3.1.6
    double twice_area = 0.0;
    for (std::size_t i = 0; i + 1 < ring.size(); ++i)
        twice_area += ring[i][0].get<double>() * ring[i + 1][1].get<double>() -
                      ring[i + 1][0].get<double>() * ring[i][1].get<double>();
    EXPECT_NEAR(twice_area, 0.02, 1e-9); // counterclockwise, worked by hand
}

TEST(Gpx, HeightsOnlyAboveMeanSeaLevel) {
    const std::string gpx = text_of(write_gpx);
    EXPECT_EQ(count(gpx, "<wpt "), 2u);
    EXPECT_EQ(count(gpx, "<ele>"), 3u); // the intake, its route point, one fix
    EXPECT_EQ(gpx.find("120.5"), std::string::npos); // the height network's datum is not the sea
    EXPECT_NE(gpx.find("lat=\"-33.500000000\" lon=\"18.250000000\""), std::string::npos);
    EXPECT_NE(gpx.find("<name>Weir &quot;A&quot; &amp; &lt;B&gt;, \xF0\x9F\x8C\x8A &apos;x&apos;</name>"), std::string::npos);
    EXPECT_EQ(count(gpx, "<trkseg>"), 2u);
    EXPECT_EQ(count(gpx, "<trkpt "), 5u);
    EXPECT_EQ(count(gpx, "<rtept "), 7u); // two of the pipe, a closed boundary of four corners
    EXPECT_LT(gpx.find("<wpt "), gpx.find("<rte>"));
    EXPECT_LT(gpx.rfind("</rte>"), gpx.find("<trk>"));
}

TEST(Kml, AltitudesOnlyAboveMeanSeaLevel) {
    const std::string kml = text_of(write_kml);
    EXPECT_EQ(count(kml, "<Placemark>"), 6u);
    EXPECT_EQ(count(kml, "<altitudeMode>absolute</altitudeMode>"), 1u);
    EXPECT_NE(kml.find("<coordinates>18.250000000,-33.500000000,340.000</coordinates>"), std::string::npos);
    EXPECT_NE(kml.find("<Data name=\"height_m\"><value>120.5</value>"), std::string::npos);
    EXPECT_NE(kml.find("&amp; &lt;B&gt;"), std::string::npos);
    EXPECT_EQ(kml.find('\x01'), std::string::npos);
}

TEST(Dxf, IsAsciiPairsOfCodeAndValue) {
    const Expected<PlanFrame> frame = PlanFrame::utm(sample());
    ASSERT_TRUE(frame);
    EXPECT_EQ(frame->name(), "UTM 34S WGS 84");
    std::ostringstream out;
    ASSERT_TRUE(write_dxf_plan(out, sample(), *frame));
    std::istringstream lines(out.str());
    std::string code;
    std::string value;
    std::string last;
    int open = 0;
    while (std::getline(lines, code)) {
        ASSERT_TRUE(std::getline(lines, value)) << "a code without a value";
        EXPECT_EQ(code.find_first_not_of("0123456789"), std::string::npos) << code;
        for (const char c : value)
            EXPECT_TRUE(c >= ' ' && c < 0x7F) << value;
        open += code == "0" && value == "SECTION" ? 1 : code == "0" && value == "ENDSEC" ? -1 : 0;
        last = value;
    }
    EXPECT_EQ(open, 0);
    EXPECT_EQ(last, "EOF");
    EXPECT_EQ(count(out.str(), "\nAC1009\n"), 1u);
    EXPECT_EQ(count(out.str(), "0\nPOINT\n"), 2u);
    EXPECT_EQ(count(out.str(), "0\nPOLYLINE\n"), 4u);
    EXPECT_EQ(count(out.str(), "0\nSEQEND\n"), 4u);
    EXPECT_NE(out.str().find("120.500 +/- 0.040 m"), std::string::npos);
    EXPECT_EQ(DxfDrawing::layer_name("station_n\xC3\xB6 x"), "STATION_N___X");
    EXPECT_EQ(DxfDrawing::layer_name(std::string(50, 'a')).size(), 31u);
}

TEST(Dxf, ProfileNeedsTwoStations) {
    std::ostringstream out;
    ExportSite site = sample();
    ASSERT_TRUE(write_dxf_profile(out, site));
    EXPECT_NE(out.str().find("10\n111.3000\n20\n100.2500\n"), std::string::npos);
    site.profile.pop_back();
    const Expected<void> refused = write_dxf_profile(out, site);
    ASSERT_FALSE(refused);
    EXPECT_EQ(refused.error().code, "exchange.no_profile");
}

TEST(PlanFrame, RefusesAndDoesNotJumpAtTheEquator) {
    EXPECT_EQ(PlanFrame::local(ExportSite{}).error().code, "exchange.no_positions");
    ExportSite site = sample();
    site.stations[0].position = GeoPoint{0.0005, 18.25};
    const Expected<PlanFrame> frame = PlanFrame::utm(site);
    ASSERT_TRUE(frame);
    const double north_m = frame->to_plan({0.0005, 18.25})->north_m;
    const double south_m = frame->to_plan({-0.0005, 18.25})->north_m;
    EXPECT_NEAR(north_m + south_m, 0.0, 1e-6);
    EXPECT_LT(south_m, 0.0);
    EXPECT_FALSE(frame->to_plan({std::numeric_limits<double>::quiet_NaN(), 0.0}));
    EXPECT_FALSE(frame->to_plan({0.0, 120.0})); // another part of the world than the zone
    site.stations[0].position = GeoPoint{89.0, 0.0};
    EXPECT_EQ(PlanFrame::utm(site).error().code, "position.outside_utm");
}

TEST(CsvTable, MarksStruckRowsAndReadsBack) {
    StationRow row;
    row.id = 7;
    row.name = kHardName;
    row.kind = "intake";
    row.note = "two\nlines";
    row.latitude_deg = -33.123456789012;
    row.longitude_deg = 18.25;
    StationRow bare;
    bare.id = 8;
    std::ostringstream out;
    const Expected<PlanFrame> frame = PlanFrame::utm(sample());
    write_csv_table<StationRow>(out, {{row, true, "wrong, \"place\""}, {bare, false, ""}}, &*frame);
    const Expected<CsvTable> table = read_csv(out.str(), "station.csv");
    ASSERT_TRUE(table) << table.error().code;
    const std::vector<std::string> header{"id",         "name",   "kind",          "note",   "longitude_deg", "latitude_deg", "route_order",
                                          "created_at", "struck", "struck_reason", "east_m", "north_m",       "frame"};
    EXPECT_EQ(table->header, header);
    ASSERT_EQ(table->size(), 2u);
    const auto first = [&](std::size_t column) { return std::string(table->cell(0, column)); };
    EXPECT_EQ(first(1), kCleanName);
    EXPECT_EQ(first(3), "two\nlines");
    EXPECT_EQ(std::stod(first(5)), -33.123456789012);
    EXPECT_EQ(first(8), "1");
    EXPECT_EQ(first(9), "wrong, \"place\"");
    EXPECT_EQ(first(12), "UTM 34S WGS 84");
    EXPECT_EQ(table->cell(1, 4), "");
    EXPECT_EQ(table->cell(1, 8), "0");
    EXPECT_EQ(table->cell(1, 10), "");
}

TEST(ProfileCsv, GivesHeightsWithTheirSpread) {
    const std::string text = text_of(write_profile_csv);
    EXPECT_NE(text.find("Powerhouse,111.3000,100.2500,0.0300,0.0600,,,\r\n"), std::string::npos) << text;
    EXPECT_EQ(count(text, "\r\n"), 3u);
}

TEST(ExportSite, TracksAreCutAndStruckRowsLeftOut) {
    Survey survey;
    StationRow row;
    row.id = 1;
    row.kind = "intake";
    row.latitude_deg = 95.0; // not on the Earth: no position
    row.longitude_deg = 18.0;
    survey.stations = {{row, false, ""}, {row, true, "twice"}};
    OccupationRow stay;
    stay.station_id = 1;
    stay.height_msl_m = 100.0;
    stay.u_up_m = 1.0;
    OccupationRow worse = stay;
    worse.height_msl_m = 105.0;
    worse.u_up_m = 2.0;
    survey.occupations = {{stay, false, ""}, {worse, false, ""}, {worse, true, "misread"}};
    std::vector<Booked<FixRow>> fixes;
    for (const char* time : {"10:00:05.000", "10:00:00.000", "10:01:05.000", "10:02:05.001", "10:02:10.000", "11:00:00.000"}) {
        FixRow fix;
        fix.observed_at = std::string("2026-05-01T") + time + "Z";
        fixes.push_back({fix, false, ""});
    }
    fixes.push_back({fixes[0].row, true, "struck"});
    fixes.push_back(fixes[0]);
    fixes.back().row.occupation_id = 4;
    const ExportSite site = export_site(survey, {}, fixes);
    ASSERT_EQ(site.stations.size(), 1u);
    EXPECT_FALSE(site.stations[0].position);
    // weights 1 and 1/4, worked by hand
    EXPECT_NEAR(site.stations[0].height_msl_m->value, 101.0, 1e-12);
    EXPECT_NEAR(site.stations[0].height_msl_m->standard_uncertainty, std::sqrt(0.8), 1e-12);
    ASSERT_EQ(site.track.size(), 2u); // cut at 60.001 s, not at 60 s; the lonely last fix is no line
    EXPECT_EQ(site.track[0].size(), 3u);
    EXPECT_EQ(site.track[0].front().time, "2026-05-01T10:00:00.000Z");
    EXPECT_EQ(site.track[1].size(), 2u);
}

} // namespace rillmark
