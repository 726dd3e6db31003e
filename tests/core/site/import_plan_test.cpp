// SPDX-License-Identifier: GPL-3.0-or-later
#include "site/import_plan.h"

#include "core/site/site_fixture.h"
#include "site/import_file.h"

#include <cmath>
#include <fstream>
#include <limits>

namespace rillmark {

namespace {

ImportFeature feature(ImportShape shape, std::vector<ImportPoint> points) {
    ImportFeature one;
    one.shape = shape;
    one.name = "W";
    one.parts = {std::move(points)};
    return one;
}

ImportPoint at(double longitude, double latitude, std::optional<double> height = {}) {
    return {longitude, latitude, height, {}, {}};
}

ImportedFile file_of(std::vector<ImportFeature> features) {
    return {"gpx", std::move(features), {}};
}

bool noted(const ImportPlan& plan, const std::string& code) {
    for (const Finding& one : plan.notes)
        if (one.code == code)
            return true;
    return false;
}

TEST(PlanImport, KindsOfOurOwnAreKeptAndOthersChosen) {
    ImportFeature mark = feature(ImportShape::Point, {at(7, 46, 800.0)});
    mark.kind = "flood-mark";
    ImportFeature flag = feature(ImportShape::Point, {at(7, 46)});
    flag.kind = "Flag, Blue";
    ImportChoice choice;
    choice.point_kind = "access";
    const auto plan = plan_import(file_of({mark, flag}), choice, "w.gpx");
    ASSERT_TRUE(plan.ok()) << plan.error().code;
    EXPECT_EQ(plan->stations[0].station.kind, "flood-mark");
    EXPECT_EQ(plan->stations[0].stay.height_msl_m, 800.0);
    EXPECT_FALSE(plan->stations[0].stay.u_up_m.has_value()) << "takes no part in the height network";
    EXPECT_EQ(plan->stations[1].station.kind, "access");
    EXPECT_EQ(plan->stations[1].station.note, "Flag, Blue");
    EXPECT_EQ(plan->stations[0].stay.u_east_m, 5.0);
    EXPECT_TRUE(noted(*plan, "site.import_position_unsure"));
    EXPECT_EQ(plan->preview.size(), 2u);
}

TEST(PlanImport, FieldsAreChosen) {
    ImportFeature one = feature(ImportShape::Point, {at(7, 46)});
    one.fields = {{"id", "P7"}, {"what", "benchmark"}, {"z", "12.5"}};
    ImportChoice choice;
    choice.name_field = "id";
    choice.kind_field = "what";
    choice.height_field = "z";
    choice.u_horizontal_m = 0.5;
    choice.u_up_m = 1.0;
    const auto plan = plan_import(file_of({one}), choice, "t.csv");
    ASSERT_TRUE(plan.ok());
    EXPECT_EQ(plan->stations[0].station.name, "P7");
    EXPECT_EQ(plan->stations[0].station.kind, "benchmark");
    EXPECT_EQ(plan->stations[0].stay.height_msl_m, 12.5);
    EXPECT_EQ(plan->stations[0].stay.u_up_m, 1.0);
    EXPECT_EQ(plan->stations[0].stay.u_north_m, 0.5);
    choice.height_field = "depth";
    EXPECT_EQ(plan_import(file_of({one}), choice, "t.csv").error().code, "site.import_field_missing");
}

TEST(PlanImport, LinesBecomeATrackOrStationsAndAreasCorners) {
    const ImportFeature line = feature(ImportShape::Line, {at(7, 46), at(7.001, 46.001)});
    ImportFeature area = feature(ImportShape::Area, {at(0, 0), at(1, 0), at(1, 1), at(0, 0)});
    area.parts.push_back({at(.1, .1), at(.2, .1), at(.2, .2), at(.1, .1)});
    auto plan = plan_import(file_of({line, area}), {}, "m");
    ASSERT_TRUE(plan.ok());
    EXPECT_EQ(plan->fixes.size(), 2u);
    ASSERT_EQ(plan->stations.size(), 3u) << "the closing point is the first";
    EXPECT_EQ(plan->stations[2].station.kind, "boundary-corner");
    EXPECT_EQ(plan->stations[2].station.name, "W 3");
    EXPECT_TRUE(noted(*plan, "site.import_holes"));
    ImportChoice choice;
    choice.lines = ImportLines::Pipe;
    choice.areas_are_boundary = false;
    plan = plan_import(file_of({line, area}), choice, "m");
    ASSERT_TRUE(plan.ok());
    EXPECT_TRUE(plan->fixes.empty());
    EXPECT_EQ(plan->stations[1].station.kind, "route-point");
    EXPECT_EQ(plan->preview[1].becomes, "");
    choice.lines = ImportLines::None;
    EXPECT_EQ(plan_import(file_of({line, area}), choice, "m").error().code, "site.import_nothing_left");
}

TEST(PlanImport, WrongChoicesAreRefused) {
    ImportChoice choice;
    choice.point_kind = "castle";
    const ImportedFile file = file_of({feature(ImportShape::Point, {at(7, 46)})});
    EXPECT_EQ(plan_import(file, choice, "m").error().code, "site.import_kind_unknown");
    for (const double u : {-1.0, std::numeric_limits<double>::quiet_NaN(), std::numeric_limits<double>::infinity()}) {
        choice = {};
        choice.u_up_m = u;
        EXPECT_EQ(plan_import(file, choice, "m").error().code, "site.import_bad_uncertainty") << u;
    }
    const std::vector<ImportPoint> many(kMostImportStations + 1, at(7, 46));
    choice = {};
    choice.lines = ImportLines::Cable;
    EXPECT_EQ(plan_import(file_of({feature(ImportShape::Line, many)}), choice, "m").error().code,
              "site.import_too_many_stations");
    for (const char* id : {"track", "pipe", "cable", "boundary", "none"})
        EXPECT_STREQ(import_lines_id(import_lines_from_id(id).value()), id);
    EXPECT_FALSE(import_lines_from_id("water").has_value());
}

class BookImport : public SiteFixture {
protected:
    std::size_t counting(const char* table) {
        std::size_t count = 0;
        if (std::string(table) == "station")
            for (const auto& one : *m_project->all<StationRow>())
                count += !one.struck;
        else
            for (const auto& one : *m_project->all<FixRow>())
                count += !one.struck;
        return count;
    }
};

TEST_F(BookImport, OneUndoTakesAllOfItBack) {
    station("intake", "Intake", 46.0, 7.0);
    const auto plan = plan_import(file_of({feature(ImportShape::Point, {at(7.001, 46.0, 800.0)}),
                                           feature(ImportShape::Line, {at(7, 46), at(7.001, 46.001)})}),
                                  {}, "w.gpx");
    ASSERT_TRUE(plan.ok());
    PhotoData photo;
    photo.picture = {1};
    photo.row.longitude_deg = 7.0;
    photo.row.latitude_deg = 46.0001; // 11 m north of the intake
    PhotoData far = photo;
    far.row.latitude_deg = 46.1;
    const auto outcome = book_import(*m_project, *plan, {"gpx", "w.gpx", "abc", "", mapping_text({})}, {photo, far});
    ASSERT_TRUE(outcome.ok()) << outcome.error().code;
    EXPECT_EQ(counting("station"), 2u);
    EXPECT_EQ(counting("fix"), 2u);
    ASSERT_EQ(m_project->photo_links()->size(), 1u);
    const auto sources = m_project->all<ImportRow>();
    ASSERT_EQ(sources->size(), 1u);
    EXPECT_EQ(sources->at(0).row.file_name, "w.gpx");
    EXPECT_EQ(sources->at(0).row.stations, 1);
    EXPECT_EQ(sources->at(0).row.photos, 2);
    EXPECT_EQ(sources->at(0).row.mapping, "points: other; lines: track; areas: boundary");
    EXPECT_TRUE(earlier_import(*m_project, "abc").has_value());

    ASSERT_TRUE(m_project->undo().ok());
    EXPECT_EQ(counting("station"), 1u);
    EXPECT_EQ(counting("fix"), 0u);
    EXPECT_TRUE(m_project->all<PhotoRow>()->at(0).struck);
    EXPECT_FALSE(earlier_import(*m_project, "abc").has_value());
    EXPECT_TRUE(m_project->verify().empty());
}

TEST_F(BookImport, WhatCannotBeStoredLeavesNothingBehind) {
    const auto plan = plan_import(
        file_of({feature(ImportShape::Point, {at(7, 46)}), feature(ImportShape::Point, {at(7, 46, 99999.0)})}), {},
        "w.gpx");
    ASSERT_TRUE(plan.ok());
    EXPECT_EQ(book_import(*m_project, *plan, {"gpx", "w.gpx", "", "", ""}).error().code, "project.out_of_range");
    EXPECT_EQ(counting("station"), 0u);
    EXPECT_TRUE(m_project->all<ImportRow>()->empty());
}

TEST_F(BookImport, FilesAreToldByTheirContent) {
    EXPECT_EQ(import_format("<?xml version='1.0'?><gpx>"), "gpx");
    EXPECT_EQ(import_format("\xEF\xBB\xBF<kml xmlns=''>"), "kml");
    EXPECT_EQ(import_format("\xFF\xD8\xFF\xE1"), "jpeg");
    EXPECT_EQ(import_format(std::string_view("SQLite format 3\0", 16)), "geopackage");
    EXPECT_EQ(import_format("\n {\"type\""), "geojson");
    EXPECT_EQ(import_format("lat,lon\n"), "csv");
    EXPECT_EQ(import_format(""), "csv");
    const std::filesystem::path file = m_folder / "t.csv";
    std::ofstream(file) << "name,lat,lon\nA,46,7\n";
    const auto bytes = import_bytes(file);
    ASSERT_TRUE(bytes.ok());
    EXPECT_EQ(read_import_file(file, *bytes)->features.size(), 1u);
    EXPECT_EQ(import_bytes(m_folder / "absent").error().code, "exchange.cannot_read");
    EXPECT_EQ(import_bytes(m_folder).error().code, "exchange.cannot_read");
    m_project.reset();
    const std::filesystem::path site = m_folder / "site.gpkg";
    const auto layers = read_import_file(site, *import_bytes(site));
    ASSERT_FALSE(layers.ok());
    EXPECT_EQ(layers.error().code, "exchange.import_choose_layer");
}

} // namespace

} // namespace rillmark
