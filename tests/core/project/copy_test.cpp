// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/project/project_fixture.h"

#include "embedded_text.h"
#include "project/migrate.h"
#include "project/tables.h"

#include <ctime>

namespace rillmark::testing {
namespace {

class CopyTest : public ProjectTest {};

TEST_F(CopyTest, SaveCopyHoldsTheSameAndStandsAlone) {
    Project project = create();
    StationRow row = station("A");
    row.longitude_deg = 8.5;
    row.latitude_deg = 46.5;
    const Id id = *project.book(row);
    ASSERT_TRUE(project.book_photo({{}, {1, 2, 3}, {}}, id).ok());
    const fs::path copy = folder / "handed over.gpkg";
    ASSERT_TRUE(project.save_copy(copy).ok());
    EXPECT_FALSE(fs::exists(copy.string() + "-wal"));
    EXPECT_FALSE(fs::exists(copy.string() + "-journal"));
    EXPECT_EQ(file_bytes(copy).substr(18, 2), std::string("\1\1")); // not WAL: one file is the whole
    RawDatabase live(path);
    RawDatabase handed(copy);
    for (const Table& table : tables())
        EXPECT_EQ(handed.rows("SELECT * FROM " + table.name), live.rows("SELECT * FROM " + table.name)) << table.name;
    EXPECT_EQ(handed.rows("SELECT min_x, max_y FROM gpkg_contents WHERE table_name = 'station'")[0],
              (std::vector<std::string>{"8.5", "46.5"}));
    EXPECT_EQ(handed.rows("PRAGMA application_id")[0][0], "1196444487");
    EXPECT_EQ(handed.rows("PRAGMA user_version")[0][0], "10300");
    EXPECT_TRUE(project.book(note("the live file goes on")).ok());

    const std::string before = file_bytes(copy);
    EXPECT_EQ(project.save_copy(copy).error().code, "project.exists");
    EXPECT_EQ(project.save_copy(path).error().code, "project.exists");
    EXPECT_EQ(file_bytes(copy), before);
    EXPECT_FALSE(project.save_copy(folder / "no folder" / "x.gpkg").ok());
}

TEST_F(CopyTest, VerifyFindsPlantedFaults) {
    const auto codes = [this] {
        std::string list;
        for (const Finding& finding : reopen().verify())
            list += finding.code + " ";
        return list;
    };
    {
        Project project = create();
        StationRow row = station("A");
        row.longitude_deg = 8.5;
        row.latitude_deg = 46.5;
        const Id id = *project.book(row);
        ASSERT_TRUE(project.book_photo({{}, {1, 2, 3}, {}}, id).ok());
        ASSERT_TRUE(project.book(note("x")).ok());
    }
    EXPECT_EQ(codes(), "");
    const std::string good = file_bytes(path);
    const std::vector<std::pair<std::string, std::string>> faults = {
        {"UPDATE station SET geom = X'00'", "project.geometry_differs "},
        {"UPDATE station SET longitude_deg = 9", "project.geometry_differs "},
        {"UPDATE station SET geom = NULL", "project.geometry_differs "},
        {"PRAGMA ignore_check_constraints = ON; UPDATE station SET latitude_deg = 91, longitude_deg = 8.5",
         "project.damaged project.geometry_differs "},
        {"INSERT INTO station_photo VALUES (1, 2)", "project.broken_reference project.broken_reference "},
        {"DELETE FROM gpkg_geometry_columns WHERE table_name = 'fix'", "project.not_registered "},
        {"DELETE FROM gpkg_contents WHERE table_name = 'note'", "project.not_registered "},
        {"DELETE FROM gpkg_extensions WHERE table_name = 'station_photo'", ""},
        {"UPDATE gpkg_data_columns SET title = '' WHERE column_name = 'reading_m'", "project.not_described "},
        {"INSERT INTO strike_out VALUES (5, 'note', 77, 'r', 0, '2026-11-25T10:30:00.000Z', 9)", "project.broken_reference "},
    };
    for (const auto& [sql, expected] : faults) {
        write_bytes(path, good);
        ASSERT_EQ(RawDatabase(path).execute(sql), "") << sql;
        if (expected.empty())
            EXPECT_NE(codes(), "") << sql;
        else
            EXPECT_EQ(codes(), expected) << sql;
    }
}

TEST_F(CopyTest, CopyOfADamagedFileIsNotKept) {
    {
        Project project = create();
        ASSERT_TRUE(project.book(station("A")).ok());
    }
    ASSERT_EQ(RawDatabase(path).execute("UPDATE station SET geom = X'00'"), "");
    Project project = reopen();
    EXPECT_EQ(project.save_copy(folder / "copy.gpkg").error().code, "project.copy_failed");
    EXPECT_FALSE(fs::exists(folder / "copy.gpkg"));
    for (const auto& entry : fs::directory_iterator(folder))
        EXPECT_TRUE(entry.path().string().starts_with(path.string())) << entry; // the file, -wal and -shm
}

TEST_F(CopyTest, StepsAreNumberedAndTheLastIsOurs) {
    const auto steps = migration_steps(schema_texts());
    ASSERT_FALSE(steps.empty());
    for (std::size_t i = 0; i < steps.size(); ++i)
        EXPECT_EQ(steps[i].version, static_cast<std::int64_t>(i) + 1);
}

TEST_F(CopyTest, AMigrationStepIsWholeOrNotAtAll) {
    create();
    auto steps = migration_steps(schema_texts());
    const std::int64_t base = steps.back().version;
    steps.push_back({base + 1, "CREATE TABLE extra (id INTEGER PRIMARY KEY); INSERT INTO gpkg_contents (table_name, "
                               "data_type, identifier) VALUES ('extra', 'attributes', 'extra');"});
    steps.push_back({base + 2, "CREATE TABLE half (id INTEGER PRIMARY KEY); INSERT INTO no_such_table VALUES (1);"});
    const auto now = [] { return std::string("2026-12-01T00:00:00.000Z"); };

    const auto copy = copy_before_migration(path, base, 1);
    ASSERT_TRUE(copy.ok());
    EXPECT_EQ(copy->filename(), "creek.version-" + std::to_string(base) + ".gpkg");
    {
        sqlite::Database database(path, sqlite::Access::Write);
        EXPECT_THROW(apply_steps(database, steps, base, now), sqlite::SqliteError);
    }
    {
        RawDatabase raw(path);
        EXPECT_EQ(raw.rows("SELECT max(version) FROM schema_version")[0][0], std::to_string(base + 1));
        EXPECT_TRUE(raw.rows("SELECT 1 FROM sqlite_schema WHERE name = 'half'").empty());
        EXPECT_EQ(raw.rows("SELECT 1 FROM sqlite_schema WHERE name = 'extra'").size(), 1U);
    }
    // The copy is as the file was, and a second copy does not write over it.
    EXPECT_EQ(RawDatabase(*copy).rows("SELECT max(version) FROM schema_version")[0][0], std::to_string(base));
    const auto second = copy_before_migration(path, base, 2);
    EXPECT_EQ(second->filename(), "creek.version-" + std::to_string(base) + "-2.gpkg");
    path = *copy;
    EXPECT_EQ(reopen().site()->name, "Test Creek");
}

TEST_F(CopyTest, LargeProjectIsReadQuickly) {
    Project project = create();
    constexpr int kStations = 5000;
    constexpr int kFixes = 100'000;
    ASSERT_TRUE(project
                    .together([&](Project::Batch& batch) -> Expected<void> {
                        for (int i = 0; i < kStations; ++i)
                            static_cast<void>(batch.book(station("S")));
                        FixRow fix;
                        fix.u_east_m = 2.5;
                        fix.quality = "single";
                        fix.source = "nmea";
                        for (int i = 0; i < kFixes; ++i) {
                            fix.longitude_deg = 8.0 + i * 1e-6;
                            static_cast<void>(batch.book(fix));
                        }
                        return {};
                    })
                    .ok());
    const std::clock_t start = std::clock(); // processor time: other programs do not count
    const auto fixes = project.all<FixRow>();
    const auto stations = project.all<StationRow>();
    const double took_s = static_cast<double>(std::clock() - start) / CLOCKS_PER_SEC;
    ASSERT_EQ(fixes->size(), static_cast<std::size_t>(kFixes));
    ASSERT_EQ(stations->size(), static_cast<std::size_t>(kStations));
    EXPECT_EQ(fixes->at(777).row.longitude_deg, 8.0 + 777 * 1e-6);
    RecordProperty("read_ms", static_cast<int>(took_s * 1000));
    EXPECT_LT(took_s, 3.0); // a guard against a wrong order of growth; the figure itself is for tests/bench
}

} // namespace
} // namespace rillmark::testing
