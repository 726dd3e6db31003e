// SPDX-License-Identifier: GPL-3.0-or-later
// gdal_sample FOLDER: writes live.gpkg (closed), in_use.gpkg (as it lies there while the app has it open, with its -wal
// file) and copy.gpkg (saved for handing over), each with rows in every table and with photos.
#include "project/project.h"

#include <cstdio>
#include <filesystem>

namespace {

using namespace rillmark;
namespace fs = std::filesystem;

#define REQUIRE(expression)                                                                                            \
    if (const auto& outcome = (expression); !outcome) {                                                                \
        std::fprintf(stderr, "%s: %s %s\n", #expression, outcome.error().code.c_str(), outcome.error().where.c_str());  \
        return false;                                                                                                  \
    }

bool book_levels_and_flow(Project& project, Id station_id) {
    LevelBookRow book;
    book.name = "Intake to powerhouse";
    const auto book_id = project.book(book);
    REQUIRE(book_id);
    SightRow sight;
    sight.book_id = *book_id;
    sight.kind = "backsight";
    sight.station_id = station_id;
    sight.reading_m = -1.5;
    sight.typed = "-1.5 m";
    const auto sight_id = project.book(sight);
    REQUIRE(sight_id);
    REQUIRE(project.strike("level_sight", *sight_id, "misread"));
    MeterRow meter;
    meter.name = "Small propeller";
    const auto meter_id = project.book(meter);
    REQUIRE(meter_id);
    FlowTestRow test;
    test.method = "velocity-area";
    test.name = "Below the ford";
    test.station_id = station_id;
    test.meter_id = *meter_id;
    const auto test_id = project.book(test);
    REQUIRE(test_id);
    FillRow fill;
    fill.test_id = *test_id;
    fill.volume_m3 = 0.02;
    fill.time_s = 6.0;
    REQUIRE(project.book(fill));
    VerticalRow vertical;
    vertical.test_id = *test_id;
    const auto vertical_id = project.book(vertical);
    REQUIRE(vertical_id);
    VelocityRow velocity;
    velocity.vertical_id = *vertical_id;
    velocity.velocity_ms = 0.4;
    REQUIRE(project.book(velocity));
    return true;
}

bool book_rows(Project& project) {
    StationRow station;
    station.name = "Intake";
    station.kind = "intake";
    REQUIRE(project.book(station)); // without a position
    station.longitude_deg = 8.123456;
    station.latitude_deg = -46.123456;
    const auto station_id = project.book(station);
    REQUIRE(station_id);
    OccupationRow occupation;
    occupation.station_id = *station_id;
    const auto occupation_id = project.book(occupation);
    REQUIRE(occupation_id);
    FixRow fix;
    fix.occupation_id = *occupation_id;
    fix.longitude_deg = 8.1;
    fix.latitude_deg = -46.1;
    REQUIRE(project.book(fix));
    AlternativeRow alternative;
    alternative.name = "Left bank";
    alternative.intake_id = *station_id;
    REQUIRE(project.book(alternative));
    NoteRow note;
    note.text = "Nest under the bridge: keep away until July (Wasseramsel), 100 % sure";
    REQUIRE(project.book(note));
    PhotoData photo;
    photo.row.title = "Intake";
    photo.picture = {0xFF, 0xD8, 0xFF, 0xD9};
    photo.thumbnail = photo.picture;
    REQUIRE(project.book_photo(photo, *station_id));
    REQUIRE(project.book_photo(photo, 0));
    REQUIRE(project.undo());
    return book_levels_and_flow(project, *station_id);
}

bool make(const fs::path& folder) {
    for (const char* name : {"live.gpkg", "in_use.gpkg", "in_use.gpkg-wal", "copy.gpkg"})
        fs::remove(folder / name);
    auto project = Project::create(folder / "live.gpkg", "Sample Creek");
    REQUIRE(project);
    if (!book_rows(*project))
        return false;
    fs::copy_file(folder / "live.gpkg", folder / "in_use.gpkg");
    fs::copy_file(folder / "live.gpkg-wal", folder / "in_use.gpkg-wal");
    REQUIRE(project->save_copy(folder / "copy.gpkg"));
    return true;
}

} // namespace

int main(int count, char** arguments) {
    return count == 2 && make(arguments[1]) ? 0 : 1;
}
