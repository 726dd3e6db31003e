// SPDX-License-Identifier: GPL-3.0-or-later
#include "project/foreign_geopackage.h"

#include "core/project/project_fixture.h"
#include "project/foreign_geometry.h"

#include <nlohmann/json.hpp>

#include <bit>
#include <limits>
#include <map>

namespace rillmark::testing {
namespace {

using Bytes = std::vector<unsigned char>;

template <class Number>
void put_number(Bytes& bytes, Number value, bool little) {
    for (std::size_t i = 0; i < sizeof value; ++i)
        bytes.push_back(static_cast<unsigned char>(value >> (8U * (little ? i : sizeof value - 1 - i))));
}

void put_real(Bytes& bytes, double value, bool little = true) {
    put_number(bytes, std::bit_cast<std::uint64_t>(value), little);
}

Bytes header(std::uint32_t srs_id, unsigned char flags = 1) {
    Bytes bytes{'G', 'P', 0, flags};
    put_number(bytes, srs_id, (flags & 1U) != 0);
    return bytes;
}

void put_type(Bytes& bytes, std::uint32_t type, bool little = true) {
    bytes.push_back(little ? 1 : 0);
    put_number(bytes, type, little);
}

Bytes point(std::uint32_t srs_id, double x, double y, std::uint32_t type = 1, bool little = true) {
    Bytes bytes = header(srs_id, little ? 1 : 0);
    put_type(bytes, type, little);
    put_real(bytes, x, little);
    put_real(bytes, y, little);
    return bytes;
}

std::string hex(const Bytes& bytes) {
    std::string text = "X'";
    for (const unsigned char byte : bytes) {
        static constexpr char kDigits[] = "0123456789ABCDEF";
        text += kDigits[byte >> 4U];
        text += kDigits[byte & 15U];
    }
    return text + "'";
}

TEST(ForeignGeometry, PointsOfEveryWriting) {
    for (const bool little : {true, false}) {
        const auto read = read_foreign_geometry(point(4326, 7.5, 46.5, 1, little));
        ASSERT_TRUE(read.has_value());
        EXPECT_EQ(read->srs_id, 4326);
        EXPECT_EQ(read->shapes[0].parts[0][0].x, 7.5);
        EXPECT_FALSE(read->shapes[0].parts[0][0].z.has_value());
    }
    for (const std::uint32_t type : {1001U, 0x80000001U}) {
        Bytes bytes = point(4326, 7.5, 46.5, type);
        put_real(bytes, 800.0);
        EXPECT_EQ(read_foreign_geometry(bytes)->shapes[0].parts[0][0].z.value(), 800.0);
    }
    Bytes measured = point(4326, 7.5, 46.5, 3001);
    put_real(measured, 800.0);
    put_real(measured, 12.0);
    EXPECT_EQ(read_foreign_geometry(measured)->shapes[0].parts[0][0].z.value(), 800.0);
    const double nan = std::numeric_limits<double>::quiet_NaN();
    EXPECT_TRUE(read_foreign_geometry(point(4326, nan, nan))->shapes.empty());
}

TEST(ForeignGeometry, LinesPolygonsAndCollections) {
    Bytes bytes = header(4326);
    put_type(bytes, 7);
    put_number(bytes, std::uint32_t{2}, true);
    put_type(bytes, 5); // two pieces of one line
    put_number(bytes, std::uint32_t{2}, true);
    for (int piece = 0; piece < 2; ++piece) {
        put_type(bytes, 2, false);
        put_number(bytes, std::uint32_t{2}, false);
        for (int i = 0; i < 4; ++i)
            put_real(bytes, i, false);
    }
    put_type(bytes, 3);
    put_number(bytes, std::uint32_t{1}, true);
    put_number(bytes, std::uint32_t{3}, true);
    for (int i = 0; i < 6; ++i)
        put_real(bytes, i);
    const auto read = read_foreign_geometry(bytes);
    ASSERT_TRUE(read.has_value());
    ASSERT_EQ(read->shapes.size(), 2u);
    EXPECT_EQ(read->shapes[0].shape, ImportShape::Line);
    EXPECT_EQ(read->shapes[0].parts.size(), 2u);
    EXPECT_EQ(read->shapes[1].shape, ImportShape::Area);
}

TEST(ForeignGeometry, WhatIsCutOrCannotBeIsRefused) {
    const Bytes whole = point(4326, 7.5, 46.5);
    for (std::size_t size = 0; size < whole.size(); ++size)
        EXPECT_FALSE(read_foreign_geometry(std::span(whole).first(size)).has_value()) << size;
    Bytes longer = whole;
    longer.push_back(0);
    EXPECT_FALSE(read_foreign_geometry(longer).has_value());
    EXPECT_FALSE(read_foreign_geometry(point(4326, std::numeric_limits<double>::infinity(), 1.0)).has_value());
    EXPECT_FALSE(read_foreign_geometry(point(4326, 1.0, 1.0, 8)).has_value());
    Bytes many = header(4326);
    put_type(many, 2);
    put_number(many, std::uint32_t{0xFFFFFFFFU}, true);
    EXPECT_FALSE(read_foreign_geometry(many).has_value());
    Bytes deep = header(4326);
    for (int i = 0; i < 20; ++i) {
        put_type(deep, 7);
        put_number(deep, std::uint32_t{1}, true);
    }
    put_type(deep, 1);
    put_real(deep, 1.0);
    put_real(deep, 1.0);
    EXPECT_FALSE(read_foreign_geometry(deep).has_value());
}

class ForeignGeoPackageTest : public ProjectTest {
protected:
    /// A file with one layer `places` in the system `srs_id`, and its rows.
    fs::path make(std::int64_t srs_id, const std::vector<std::string>& geometries) {
        const fs::path file = folder / "foreign.gpkg";
        fs::remove(file);
        RawDatabase raw(file);
        std::string sql =
            "CREATE TABLE gpkg_spatial_ref_sys (srs_name TEXT, srs_id INTEGER PRIMARY KEY, organization TEXT, "
            "organization_coordsys_id INTEGER, definition TEXT, description TEXT);"
            "CREATE TABLE gpkg_contents (table_name TEXT PRIMARY KEY, data_type TEXT, identifier TEXT, srs_id INTEGER);"
            "CREATE TABLE gpkg_geometry_columns (table_name TEXT, column_name TEXT, geometry_type_name TEXT, srs_id "
            "INTEGER, z INTEGER, m INTEGER);"
            "INSERT INTO gpkg_spatial_ref_sys VALUES ('w', 4326, 'EPSG', 4326, '', ''), ('u', 7, 'epsg', 32632, '', "
            "''),"
            "('s', 8, 'EPSG', 32733, '', ''), ('r', 28992, 'EPSG', 28992, '', ''), ('n', 0, 'NONE', 0, '', '');"
            "CREATE TABLE \"my places\" (fid INTEGER PRIMARY KEY, g BLOB, \"the name\" TEXT, kind TEXT, h REAL, raw "
            "BLOB);"
            "INSERT INTO gpkg_contents VALUES ('my places', 'features', 'p', " +
            std::to_string(srs_id) +
            ");"
            "INSERT INTO gpkg_geometry_columns VALUES ('my places', 'g', 'POINT', " +
            std::to_string(srs_id) + ", 0, 0);";
        for (const std::string& geometry : geometries)
            sql += "INSERT INTO \"my places\" (g, \"the name\", kind, h, raw) VALUES (" + geometry +
                   ", 'A', 'intake', 12.5, x'00');";
        EXPECT_EQ(raw.execute(sql), "");
        return file;
    }
};

TEST_F(ForeignGeoPackageTest, LayersColumnsAndRows) {
    const fs::path file = make(4326, {hex(point(4326, 7.5, 46.5)), "NULL", hex(point(0, 7.6, 46.6))});
    const auto layers = foreign_layers(file);
    ASSERT_TRUE(layers.ok()) << layers.error().code;
    ASSERT_EQ(layers->size(), 1u);
    EXPECT_EQ(layers->at(0).system, "EPSG:4326");
    EXPECT_TRUE(layers->at(0).readable);
    EXPECT_EQ(layers->at(0).rows, 3);
    EXPECT_EQ(layers->at(0).columns, (std::vector<std::string>{"fid", "the name", "kind", "h", "raw"}));
    const auto read = read_foreign_layer(file, "my places");
    ASSERT_TRUE(read.ok()) << read.error().code;
    ASSERT_EQ(read->features.size(), 2u);
    EXPECT_EQ(*field_of(read->features[0], "the name"), "A");
    EXPECT_EQ(*field_of(read->features[0], "h"), "12.5");
    EXPECT_EQ(*field_of(read->features[0], "raw"), "");
    EXPECT_EQ(read->features[0].kind, "intake");
    ASSERT_EQ(read->notes.size(), 2u);
    EXPECT_EQ(read->notes[0].code, "exchange.gpkg_empty_rows");
    EXPECT_EQ(read->notes[1].code, "exchange.gpkg_blob_system");
    EXPECT_EQ(read_foreign_layer(file, "other").error().code, "exchange.gpkg_no_such_layer");
}

TEST_F(ForeignGeoPackageTest, UtmZonesOfBothHemispheres) {
    // 500 km east of the false origin is the central meridian itself: zone 32 has 9 E, zone 33 has 15 E
    const auto north = read_foreign_layer(make(7, {hex(point(7, 500000.0, 0.0))}), "my places");
    ASSERT_TRUE(north.ok()) << north.error().code;
    EXPECT_NEAR(north->features[0].parts[0][0].longitude_deg, 9.0, 1e-12);
    EXPECT_NEAR(north->features[0].parts[0][0].latitude_deg, 0.0, 1e-12);
    const auto south = read_foreign_layer(make(8, {hex(point(8, 500000.0, 10000000.0))}), "my places");
    ASSERT_TRUE(south.ok()) << south.error().code;
    EXPECT_NEAR(south->features[0].parts[0][0].longitude_deg, 15.0, 1e-12);
    EXPECT_NEAR(south->features[0].parts[0][0].latitude_deg, 0.0, 1e-12);
}

TEST_F(ForeignGeoPackageTest, SystemsThatCannotBeTrustedAreRefused) {
    EXPECT_EQ(read_foreign_layer(make(28992, {hex(point(28992, 100000.0, 400000.0))}), "my places").error().code,
              "exchange.gpkg_reference_system");
    EXPECT_EQ(read_foreign_layer(make(0, {hex(point(0, 7.0, 46.0))}), "my places").error().code,
              "exchange.gpkg_reference_system");
    EXPECT_TRUE(read_foreign_layer(make(0, {hex(point(0, 7.0, 46.0))}), "my places", true).ok());
    EXPECT_EQ(read_foreign_layer(make(4326, {hex(point(28992, 7.0, 46.0))}), "my places").error().code,
              "exchange.gpkg_systems_differ");
    EXPECT_EQ(read_foreign_layer(make(4326, {hex(point(4326, 46.0, 400000.0))}), "my places").error().code,
              "exchange.import_not_a_position");
    EXPECT_EQ(read_foreign_layer(make(4326, {"x'4750'"}), "my places").error().code, "exchange.gpkg_bad_geometry");
    EXPECT_EQ(read_foreign_layer(make(4326, {"NULL"}), "my places").error().code, "exchange.import_nothing");
    EXPECT_EQ(read_foreign_layer(make(7, {hex(point(7, 9e9, 9e9))}), "my places").error().code,
              "exchange.gpkg_off_zone");
}

TEST_F(ForeignGeoPackageTest, OurOwnFileIsReadAsAnyOther) {
    {
        Project project = create();
        StationRow row = station("A");
        row.longitude_deg = 7.5;
        row.latitude_deg = 46.5;
        ASSERT_TRUE(project.book(row).ok());
    }
    const auto read = read_foreign_layer(path, "station");
    ASSERT_TRUE(read.ok()) << read.error().code;
    EXPECT_EQ(read->features.at(0).name, "A");
    EXPECT_EQ(read->features.at(0).parts[0][0].longitude_deg, 7.5);
}

TEST_F(ForeignGeoPackageTest, TheSampleOfTheStandard) {
    const fs::path file = std::string(RILLMARK_SOURCE_DIR) + "/tests/files/import/points.gpkg";
    const auto layers = foreign_layers(file);
    ASSERT_TRUE(layers.ok()) << layers.error().code;
    const auto read = read_foreign_layer(file, layers->at(0).name);
    ASSERT_TRUE(read.ok()) << read.error().code;
    EXPECT_EQ(read->features.size(), 6u); // as GDAL/OGR 3.6.2 counts them
}

TEST_F(ForeignGeoPackageTest, TheReferenceCollectionIsReadOrRefusedInWords) {
    const fs::path reference = std::string(RILLMARK_REFERENCE_DIR) + "/head/gpkg";
    if (!fs::exists(reference))
        GTEST_SKIP() << "the reference collection is not here";
    const nlohmann::json expected = nlohmann::json::parse(file_bytes(reference / "expected.json"));
    // what their notes say is wrong with them
    const std::map<std::string, std::string> refused = {
        {"ets12_empty.gpkg", "exchange.gpkg_no_layer"},
        {"nga_attributes.gpkg", "exchange.gpkg_no_contents"},
        {"nga_test.gpkg", "exchange.gpkg_no_contents"},
        {"pdok_test_broken_geopackage.gpkg", "exchange.gpkg_no_contents"}};
    for (const auto& [name, facts] : expected.at("files").items()) {
        const auto layers = foreign_layers(reference / name);
        if (refused.contains(name)) {
            ASSERT_FALSE(layers.ok()) << name;
            EXPECT_EQ(layers.error().code, refused.at(name)) << name;
            continue;
        }
        ASSERT_TRUE(layers.ok()) << name << " " << layers.error().code;
        const nlohmann::json& counts = facts.at("ogr_3_6_2");
        for (const ForeignLayer& layer : *layers) {
            EXPECT_EQ(layer.rows, counts.at(layer.name).get<std::int64_t>()) << name << " " << layer.name;
            const auto read = read_foreign_layer(reference / name, layer.name);
            if (!layer.readable) {
                ASSERT_FALSE(read.ok()) << name << " " << layer.name;
                EXPECT_EQ(read.error().code, "exchange.gpkg_reference_system") << name << " " << layer.name;
            } else if (!read.ok() && read.error().code == "exchange.import_nothing") {
                EXPECT_EQ(name, "ets12_null_geometry.gpkg") << layer.name;
            } else {
                EXPECT_TRUE(read.ok()) << name << " " << layer.name << " " << (read ? "" : read.error().code);
            }
        }
    }
}

} // namespace
} // namespace rillmark::testing
