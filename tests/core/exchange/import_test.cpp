// SPDX-License-Identifier: GPL-3.0-or-later
// Foreign files by hand, and by the sample files in tests/files/import (their origin is in its README).
#include "exchange/import_csv.h"
#include "exchange/import_geojson.h"
#include "exchange/import_gpx.h"
#include "exchange/import_kml.h"
#include "exchange/sha256.h"
#include "exchange/xml_events.h"

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <sstream>

namespace rillmark {

namespace {

std::string bytes_of(const std::filesystem::path& path) {
    std::ifstream stream(path, std::ios::binary);
    std::ostringstream text;
    text << stream.rdbuf();
    return text.str();
}

std::string text_arg(const Finding& finding, const std::string& name) {
    for (auto arg = finding.args.rbegin(); arg != finding.args.rend(); ++arg)
        if (arg->name == name) {
            if (const auto* number = std::get_if<std::int64_t>(&arg->value))
                return std::to_string(*number);
            if (const auto* text = std::get_if<std::string>(&arg->value))
                return *text;
        }
    return {};
}

std::string gpx(const std::string& inside) {
    return "<?xml version=\"1.0\"?>\n<gpx version=\"1.1\" xmlns=\"http://www.topografix.com/GPX/1/1\">\n" + inside +
           "\n</gpx>\n";
}

std::string kml(const std::string& inside) {
    return "<?xml version=\"1.0\"?>\n<kml xmlns=\"http://www.opengis.net/kml/2.2\"><Document>\n" + inside +
           "\n</Document></kml>\n";
}

std::string code_of(const Expected<ImportedFile>& read) {
    return read ? "read" : read.error().code;
}

} // namespace

TEST(ImportTime, ZonesAndDecimals) {
    EXPECT_EQ(import_time("2007-11-25T17:58:00+01:00"), "2007-11-25T16:58:00.000Z");
    EXPECT_EQ(import_time(" 2016-05-27T10:08:47.8Z "), "2016-05-27T10:08:47.800Z");
    EXPECT_EQ(import_time("1901-12-13T20:45:52.2073437Z"), "1901-12-13T20:45:52.207Z");
    EXPECT_EQ(import_time("2013-01-01T12:00:00"), "2013-01-01T12:00:00.000Z");
    EXPECT_EQ(import_time("2026-01-01T00:30:00+0100"), "2025-12-31T23:30:00.000Z");
    for (const char* no :
         {"", "today", "2026-02-30T00:00:00Z", "2026-01-01", "2026-01-01T25:00:00Z", "2026-01-01T00:00:00.Z",
          "2026-01-01T00:00:00Zx", "-026-01-01T00:00:00Z", "0000-01-01T00:00:00+01:00"})
        EXPECT_EQ(import_time(no), "") << no;
}

TEST(ImportPosition, OffTheGlobeIsRefused) {
    EXPECT_TRUE(import_point("-180", "+90").ok());
    const std::vector<std::pair<std::string, std::string>> wrong = {{"180.1", "0"}, {"0", "-90.1"}, {"nan", "0"},
                                                                    {"inf", "0"},   {"", "1"},      {"1e999", "1"},
                                                                    {"1,5", "2"},   {"0x10", "2"}};
    for (const auto& [x, y] : wrong)
        EXPECT_FALSE(import_point(x, y).ok()) << x << " " << y;
}

TEST(Sha256, PublishedDigests) {
    // NIST FIPS 180-4 examples (csrc.nist.gov, "SHA-256 example values"), from memory
    EXPECT_EQ(sha256_hex("abc"), "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
    EXPECT_EQ(sha256_hex(""), "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
    EXPECT_EQ(sha256_hex("abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq"),
              "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1");
    EXPECT_EQ(sha256_hex(std::string(1'000'000, 'a')),
              "cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0");
}

TEST(ReadGpx, WaypointsRoutesAndTracks) {
    const auto read = read_gpx(
        gpx("<wpt lat=\"46.5\" lon=\"-7.25\"><ele>812.5</ele><time>2026-05-01T08:00:00Z</time><name> Intake\n pool "
            "</name>"
            "<desc>two boulders</desc><type>intake</type></wpt>"
            "<rte><name>Pipe</name><rtept lat=\"46.5\" lon=\"-7.25\"><name>bend</name></rtept><rtept lat=\"46.4\" "
            "lon=\"-7.2\"/></rte>"
            "<trk><name>Walk</name><trkseg><trkpt lat=\"1\" lon=\"2\"><ele></ele></trkpt></trkseg><trkseg/></trk>"
            "<trk><name>nothing</name></trk>"),
        "w.gpx");
    ASSERT_TRUE(read.ok()) << code_of(read);
    ASSERT_EQ(read->features.size(), 3u);
    const ImportFeature& intake = read->features[0];
    EXPECT_EQ(intake.name, "Intake pool");
    EXPECT_EQ(intake.kind, "intake");
    EXPECT_EQ(intake.note, "two boulders");
    EXPECT_EQ(intake.line, 3);
    EXPECT_DOUBLE_EQ(intake.parts[0][0].longitude_deg, -7.25);
    EXPECT_DOUBLE_EQ(intake.parts[0][0].height_m.value(), 812.5);
    EXPECT_EQ(intake.parts[0][0].time_utc, "2026-05-01T08:00:00.000Z");
    EXPECT_FALSE(read->features[1].walked);
    EXPECT_EQ(read->features[1].parts[0][0].name, "bend");
    EXPECT_TRUE(read->features[2].walked);
    EXPECT_FALSE(read->features[2].parts[0][0].height_m.has_value());
    ASSERT_EQ(read->notes.size(), 1u);
    EXPECT_EQ(read->notes[0].code, "exchange.import_empty");
}

TEST(ReadGpx, WrongFilesAreRefusedWithTheirPlace) {
    const auto off = read_gpx(gpx("<wpt lat=\"46.5\" lon=\"7\"/>\n<wpt lat=\"96.5\" lon=\"7\"/>"), "w.gpx");
    ASSERT_FALSE(off.ok());
    EXPECT_EQ(off.error().code, "exchange.import_not_a_position");
    EXPECT_EQ(text_arg(off.error(), "line"), "4");
    EXPECT_EQ(text_arg(off.error(), "file"), "w.gpx");

    EXPECT_EQ(code_of(read_gpx("", "w.gpx")), "exchange.xml_not_well_formed");
    EXPECT_EQ(code_of(read_gpx("<gpx><wpt", "w.gpx")), "exchange.xml_not_well_formed");
    EXPECT_EQ(code_of(read_gpx("<kml/>", "w.gpx")), "exchange.import_wrong_root");
    EXPECT_EQ(code_of(read_gpx(gpx(""), "w.gpx")), "exchange.import_nothing");
    EXPECT_EQ(code_of(read_gpx(gpx("<wpt/>"), "w.gpx")), "exchange.import_not_a_position");
}

TEST(ReadXml, NothingIsFetchedAndNothingGrows) {
    const XmlEvents silent{[](const XmlElement&) { return Expected<void>(); },
                           [](const auto&, const std::string&, std::int64_t) { return Expected<void>(); }};
    const std::string bomb = "<!DOCTYPE a [<!ENTITY b \"bbbbbbbbbb\"><!ENTITY c \"&b;&b;&b;&b;\">]><a>&c;</a>";
    const std::string outside = "<!DOCTYPE a [<!ENTITY x SYSTEM \"file:///etc/passwd\">]>\n<a>&x;</a>";
    const std::string plain = "<!DOCTYPE a SYSTEM \"http://example.invalid/a.dtd\"><a/>";
    for (const std::string& hostile : {bomb, outside, plain}) {
        const auto read = read_xml(hostile, "x.xml", silent);
        ASSERT_FALSE(read.ok());
        EXPECT_EQ(read.error().code, "exchange.xml_doctype");
        EXPECT_EQ(text_arg(read.error(), "line"), "1");
    }
    std::string deep;
    for (std::size_t i = 0; i <= kXmlDeepest; ++i)
        deep += "<a>";
    EXPECT_EQ(read_xml(deep, "x.xml", silent).error().code, "exchange.xml_too_deep");
    EXPECT_EQ(read_xml("<a>&unknown;</a>", "x.xml", silent).error().code, "exchange.xml_not_well_formed");
    EXPECT_EQ(read_xml("<a>" + std::string(kXmlLongestText_bytes + 1, 'x') + "</a>", "x.xml", silent).error().code,
              "exchange.xml_too_long");
}

TEST(ReadKml, GeometriesTracksAndFields) {
    const auto read = read_kml(
        kml("<Folder><name>Site</name><Placemark><name>P</name><ExtendedData><Data "
            "name=\"kind\"><value>flood-mark</value></Data>"
            "</ExtendedData><Point><altitudeMode>absolute</altitudeMode><coordinates>7.5,46.5,800</coordinates></"
            "Point></Placemark>"
            "<Placemark><Point><coordinates>7.5,46.5,0</coordinates></Point></Placemark></Folder>"
            "<Placemark><name>box</name><Polygon><outerBoundaryIs><LinearRing><coordinates>0,0 1,0 1,1 "
            "0,0</coordinates></LinearRing>"
            "</outerBoundaryIs><innerBoundaryIs><LinearRing><coordinates>.1,.1 .2,.1 .2,.2 "
            ".1,.1</coordinates></LinearRing>"
            "</innerBoundaryIs></Polygon></Placemark>"
            "<Placemark><MultiGeometry><LineString><coordinates>1,2 3,4</coordinates></LineString>"
            "<Point><coordinates>1,2</coordinates></Point></MultiGeometry></Placemark>"
            "<NetworkLink><href>http://example.invalid</href></NetworkLink><Placemark><name>bare</name></Placemark>"),
        "k.kml");
    ASSERT_TRUE(read.ok()) << code_of(read);
    ASSERT_EQ(read->features.size(), 5u);
    EXPECT_EQ(read->features[0].layer, "Site");
    EXPECT_EQ(*field_of(read->features[0], "kind"), "flood-mark");
    EXPECT_DOUBLE_EQ(read->features[0].parts[0][0].height_m.value(), 800.0);
    EXPECT_FALSE(read->features[1].parts[0][0].height_m.has_value()) << "above the ground, not above the sea";
    EXPECT_EQ(read->features[2].shape, ImportShape::Area);
    EXPECT_EQ(read->features[2].parts.size(), 2u);
    EXPECT_EQ(read->features[3].shape, ImportShape::Line);
    EXPECT_EQ(read->features[4].shape, ImportShape::Point);
    EXPECT_EQ(read->notes.size(), 2u);
    EXPECT_EQ(code_of(read_kml(kml("<Placemark><Point><coordinates>north</coordinates></Point></Placemark>"), "k.kml")),
              "exchange.import_not_a_position");
}

TEST(ReadGeoJson, GeometriesAndProperties) {
    const auto read = read_geojson(
        R"({"type":"FeatureCollection","features":[
            {"type":"Feature","properties":{"name":"A","kind":"benchmark","height":12.5,"list":[1]},"geometry":{"type":"Point","coordinates":[7,46,800]}},
            {"type":"Feature","properties":null,"geometry":{"type":"MultiPolygon","coordinates":[[[[0,0],[1,0],[1,1],[0,0]]],[[[2,2],[3,2],[3,3],[2,2]]]]}},
            {"type":"Feature","properties":{},"geometry":{"type":"MultiLineString","coordinates":[[[0,0],[1,1]],[[2,2],[3,3]]]}},
            {"type":"Feature","properties":{"coordTimes":["2026-01-01T00:00:00Z","2026-01-01T00:00:10Z"]},"geometry":{"type":"LineString","coordinates":[[0,0],[1,1]]}},
            {"type":"Feature","properties":{"name":"none"},"geometry":null},
            {"type":"Feature","properties":{},"geometry":{"type":"Point","coordinates":[]}}]})",
        "g.geojson");
    ASSERT_TRUE(read.ok()) << code_of(read);
    ASSERT_EQ(read->features.size(), 5u);
    EXPECT_EQ(read->features[0].name, "A");
    EXPECT_EQ(*field_of(read->features[0], "height"), "12.5");
    EXPECT_EQ(field_of(read->features[0], "list"), nullptr);
    EXPECT_DOUBLE_EQ(read->features[0].parts[0][0].height_m.value(), 800.0);
    EXPECT_EQ(read->features[3].parts.size(), 2u);
    EXPECT_TRUE(read->features[4].walked);
    EXPECT_EQ(read->features[4].parts[0][1].time_utc, "2026-01-01T00:00:10.000Z");
    EXPECT_EQ(read->notes.size(), 2u);
}

TEST(ReadGeoJson, WrongFilesAreRefusedWithTheirPlace) {
    const auto cut = read_geojson("{\"type\":\n  \"Feat", "g.json");
    ASSERT_FALSE(cut.ok());
    EXPECT_EQ(cut.error().code, "exchange.json_not_well_formed");
    EXPECT_EQ(text_arg(cut.error(), "line"), "2");
    EXPECT_EQ(code_of(read_geojson(std::string(100, '['), "g.json")), "exchange.json_too_deep");
    EXPECT_EQ(code_of(read_geojson("\"[[[[[[[[\"", "g.json")), "exchange.geojson_wrong")
        << "brackets within text do not count";
    EXPECT_EQ(code_of(read_geojson("{\"a\":\"\\", "g.json")), "exchange.json_not_well_formed");
    const std::string crs =
        R"({"type":"FeatureCollection","crs":{"type":"name","properties":{"name":"urn:ogc:def:crs:EPSG::28992"}},"features":[]})";
    EXPECT_EQ(code_of(read_geojson(crs, "g.json")), "exchange.geojson_crs");
    for (const char* wrong :
         {"[]", "{}", "1", R"({"type":"FeatureCollection"})", R"({"type":"FeatureCollection","features":[1]})",
          R"({"type":"Point","coordinates":["a","b"]})", R"({"type":"Point","coordinates":{}})",
          R"({"type":"Blob","coordinates":[1,2]})", R"({"type":"Polygon","coordinates":[1,2]})"})
        EXPECT_EQ(code_of(read_geojson(wrong, "g.json")), "exchange.geojson_wrong") << wrong;
    EXPECT_EQ(code_of(read_geojson(R"({"type":"Point","coordinates":[181,0]})", "g.json")),
              "exchange.import_not_a_position");
    EXPECT_EQ(code_of(read_geojson(R"({"type":"FeatureCollection","features":[]})", "g.json")),
              "exchange.import_nothing");
}

TEST(ReadPlaceTable, ColumnsAreFoundOrChosen) {
    const auto found = read_place_table("Name,Lat,Lon,Ele\nA,46.5,7.5,800\nB,,,\n", "t.csv");
    ASSERT_TRUE(found.ok()) << code_of(found);
    ASSERT_EQ(found->features.size(), 1u);
    EXPECT_EQ(found->features[0].name, "A");
    EXPECT_EQ(*field_of(found->features[0], "Ele"), "800");
    EXPECT_EQ(found->notes.size(), 1u);
    const auto chosen = read_place_table("east;north\n7,5;46,5\n", "t.csv", {"east", "north"});
    ASSERT_TRUE(chosen.ok()) << code_of(chosen);
    EXPECT_DOUBLE_EQ(chosen->features[0].parts[0][0].latitude_deg, 46.5);
    EXPECT_EQ(code_of(read_place_table("a,b\n1,2\n", "t.csv")), "exchange.import_column_missing");
    const auto bad = read_place_table("lat,lon\n1,2\nx,2\n", "t.csv");
    ASSERT_FALSE(bad.ok());
    EXPECT_EQ(text_arg(bad.error(), "line"), "3");
    EXPECT_EQ(text_arg(bad.error(), "column"), "lat");
}

/// Sample files with counts made by independent readers: `folder` holds them and expected.json.
void expect_tracks(const std::filesystem::path& folder) {
    const nlohmann::json expected = nlohmann::json::parse(bytes_of(folder / "expected.json"));
    for (const auto& [name, counts] : expected.at("files").items()) {
        if (!std::filesystem::exists(folder / name))
            continue;
        const std::string bytes = bytes_of(folder / name);
        if (name.ends_with(".gpx")) {
            const auto read = read_gpx(bytes, name);
            std::size_t waypoints = 0;
            std::vector<std::size_t> routes;
            std::size_t track_points = 0;
            std::size_t heights = 0;
            std::size_t times = 0;
            if (read)
                for (const ImportFeature& one : read->features) {
                    waypoints += one.layer == "waypoints";
                    if (one.layer == "routes")
                        routes.push_back(point_count(one));
                    if (one.layer == "tracks")
                        for (const auto& part : one.parts)
                            for (const ImportPoint& point : part) {
                                ++track_points;
                                heights += point.height_m.has_value();
                                times += !point.time_utc.empty();
                            }
                }
            else
                EXPECT_EQ(read.error().code, "exchange.import_nothing") << name;
            std::vector<std::size_t> wanted = counts.at("routes").get<std::vector<std::size_t>>();
            std::erase(wanted, 0u);
            EXPECT_EQ(waypoints, counts.at("waypoints").get<std::size_t>()) << name;
            EXPECT_EQ(routes, wanted) << name;
            EXPECT_EQ(track_points, counts.at("trackpoints").get<std::size_t>()) << name;
            EXPECT_EQ(heights, counts.at("trackpoints_with_elevation").get<std::size_t>()) << name;
            EXPECT_EQ(times, counts.at("trackpoints_with_time").get<std::size_t>()) << name;
        } else if (name.ends_with(".kml")) {
            const auto read = read_kml(bytes, name);
            std::size_t points = 0, lines = 0, areas = 0, walked = 0, coords = 0;
            if (read)
                for (const ImportFeature& one : read->features) {
                    points += one.shape == ImportShape::Point;
                    areas += one.shape == ImportShape::Area;
                    lines += one.shape == ImportShape::Line && !one.walked;
                    walked += one.walked;
                    coords += one.walked ? point_count(one) : 0;
                }
            else
                EXPECT_EQ(read.error().code, "exchange.import_nothing") << name;
            EXPECT_EQ(points, counts.value("Point", 0u)) << name;
            EXPECT_EQ(areas, counts.value("Polygon", 0u)) << name;
            EXPECT_EQ(lines, counts.value("LineString", 0u)) << name;
            EXPECT_EQ(walked, counts.value("Track", 0u)) << name;
            EXPECT_EQ(coords, counts.value("coord", 0u)) << name;
        } else if (name.ends_with(".geojson")) {
            const auto read = read_geojson(bytes, name);
            ASSERT_TRUE(read.ok()) << name << code_of(read);
            EXPECT_EQ(read->features.size(), counts.at("features").get<std::size_t>()) << name;
        }
    }
}

TEST(ImportSamples, OurOwnCopies) {
    expect_tracks(std::string(RILLMARK_SOURCE_DIR) + "/tests/files/import");
}

TEST(ImportSamples, TheReferenceCollection) {
    const std::filesystem::path folder = std::string(RILLMARK_REFERENCE_DIR) + "/head/tracks";
    if (!std::filesystem::exists(folder))
        GTEST_SKIP() << "the reference collection is not here";
    expect_tracks(folder);
}

} // namespace rillmark
