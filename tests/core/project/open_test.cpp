// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/project/project_fixture.h"

#include "embedded_text.h"
#include "project/migrate.h"
#include "project/open_checks.h"

#include <sys/mount.h>
#include <unistd.h>

#include <chrono>

namespace rillmark::testing {
namespace {

class OpenTest : public ProjectTest {
protected:
    std::string refused(OpenMode mode = OpenMode::ReadWrite) {
        const auto opened = Project::open(path, mode, context());
        return opened.ok() ? "opened" : opened.error().code;
    }
    /// A small file with a few rows, closed.
    void make_small_file() {
        Project project = create();
        const Id book = *project.book(level_book("line"));
        for (int i = 0; i < 20; ++i)
            ASSERT_TRUE(project.book(sight(book, i, 0.1 * i)).ok());
    }
};

TEST_F(OpenTest, CreateMakesOneFileAndNeverWritesOverOne) {
    {
        Project project = create();
        EXPECT_EQ(project.site()->name, "Test Creek");
        EXPECT_FALSE(project.read_only());
        EXPECT_FALSE(project.last_action().has_value());
    }
    const std::string before = file_bytes(path);
    EXPECT_EQ(Project::create(path, "Other", context()).error().code, "project.exists");
    EXPECT_EQ(file_bytes(path), before);
    // Closed: one file, no side files, nothing left from making it.
    EXPECT_EQ(std::distance(fs::directory_iterator(folder), {}), 1);
    EXPECT_EQ(Project::create(folder / "no such folder" / "x.gpkg", "A", context()).error().code, "project.io");
    EXPECT_EQ(Project::create(folder / "y.gpkg", "", context()).error().where, "site.name");
    EXPECT_EQ(std::distance(fs::directory_iterator(folder), {}), 1);
}

TEST_F(OpenTest, OddPathsWork) {
    path = folder / "a b%20#?'ü.gpkg";
    create();
    EXPECT_TRUE(fs::exists(path));
    EXPECT_EQ(reopen().site()->name, "Test Creek");
    EXPECT_TRUE(reopen().save_copy(folder / "file:copy?x=1.gpkg").ok());
}

TEST_F(OpenTest, WritesWithWalAndFullSync) {
    Project project = create();
    ASSERT_TRUE(project.book(note("x")).ok());
    EXPECT_TRUE(fs::exists(path.string() + "-wal"));
    EXPECT_EQ(RawDatabase(path).rows("PRAGMA journal_mode")[0][0], "wal");
}

TEST_F(OpenTest, MissingFolderAndNotADatabase) {
    EXPECT_EQ(refused(), "project.missing");
    fs::create_directory(path);
    EXPECT_EQ(refused(), "project.not_a_database");
    fs::remove(path);
    for (const std::string& text : {std::string(), std::string("name,reading\n"), std::string(5000, '\0'),
                                    std::string("SQLite format 3"), std::string("SQLite format 3\0", 16)}) {
        write_bytes(path, text);
        EXPECT_EQ(refused(), "project.not_a_database");
        EXPECT_EQ(file_bytes(path), text);
    }
}

TEST_F(OpenTest, OtherDatabasesAreRefusedUntouched) {
    RawDatabase(path).execute("CREATE TABLE a (b)");
    std::string before = file_bytes(path);
    EXPECT_EQ(refused(), "project.not_a_geopackage");
    RawDatabase(path).execute("PRAGMA application_id = 1196444487; PRAGMA user_version = 10300");
    EXPECT_EQ(refused(), "project.foreign_geopackage");
    RawDatabase(path).execute("PRAGMA journal_mode = WAL; CREATE TABLE c (d)");
    before = file_bytes(path);
    EXPECT_EQ(refused(), "project.foreign_geopackage");
    EXPECT_EQ(file_bytes(path), before);
    EXPECT_EQ(std::distance(fs::directory_iterator(folder), {}), 1);
}

TEST_F(OpenTest, PublishedGeoPackagesAreRefusedUntouched) {
    const fs::path samples = fs::path(RILLMARK_REFERENCE_DIR) / "head" / "gpkg";
    if (!fs::exists(samples))
        GTEST_SKIP() << "no reference material";
    int count = 0;
    for (const auto& entry : fs::directory_iterator(samples)) {
        if (entry.path().extension() != ".gpkg")
            continue;
        path = folder / entry.path().filename();
        const std::string before = file_bytes(entry.path());
        write_bytes(path, before);
        const std::string code = refused();
        EXPECT_TRUE(code == "project.foreign_geopackage" || code == "project.not_a_geopackage") << path << " " << code;
        EXPECT_EQ(file_bytes(path), before) << path;
        ++count;
    }
    EXPECT_EQ(std::distance(fs::directory_iterator(folder), {}), count); // no side files
    EXPECT_EQ(count, 18);
}

TEST_F(OpenTest, SchemaMustBeOursToTheWord) {
    make_small_file();
    const std::string good = file_bytes(path);
    for (const char* sql : {
             "CREATE TRIGGER spy AFTER INSERT ON note BEGIN DELETE FROM station; END",
             "CREATE VIEW look AS SELECT * FROM note",
             "CREATE VIRTUAL TABLE box USING rtree(id, a, b)",
             "CREATE UNIQUE INDEX one ON note (text)",
             "DROP TRIGGER note_never_deleted",
             "DROP INDEX strike_out_by_row",
             "DROP TABLE gpkg_data_columns",
             "ALTER TABLE note ADD COLUMN colour TEXT",
             "ALTER TABLE note RENAME COLUMN text TO txt",
             "DELETE FROM schema_version",
             "DROP TABLE gauging_velocity; CREATE TABLE gauging_velocity (id INTEGER PRIMARY KEY)",
         }) {
        write_bytes(path, good);
        ASSERT_EQ(RawDatabase(path).execute(sql), "") << sql;
        const std::string before = file_bytes(path);
        EXPECT_EQ(refused(), "project.schema_differs") << sql;
        EXPECT_EQ(file_bytes(path), before) << sql;
    }
}

TEST_F(OpenTest, PlainTablesOfOtherProgramsAreTolerated) {
    make_small_file();
    ASSERT_EQ(RawDatabase(path).execute("CREATE TABLE layer_styles (id INTEGER PRIMARY KEY, style TEXT); CREATE INDEX s "
                                        "ON layer_styles (style); ANALYZE; VACUUM"),
              "");
    EXPECT_EQ(refused(), "opened");
    EXPECT_TRUE(reopen().verify().empty());
}

TEST_F(OpenTest, CommentsAndSpacesDoNotCount) {
    EXPECT_EQ(plain_sql("CREATE TABLE a ( -- why\n  b TEXT,\t/* c */ d)"), "CREATE TABLE a ( b TEXT, d)");
    EXPECT_EQ(plain_sql("CHECK (a GLOB '--  /*') -- end"), "CHECK (a GLOB '--  /*')");
    EXPECT_EQ(plain_sql("'open"), "'open");
    EXPECT_EQ(plain_sql("/* open"), "");
    EXPECT_EQ(plain_sql(""), "");
}

TEST_F(OpenTest, NewerFilesAreReadOnly) {
    make_small_file();
    ASSERT_EQ(RawDatabase(path).execute("INSERT INTO schema_version VALUES (99, '2030-01-01T00:00:00.000Z'); ALTER TABLE "
                                        "level_sight ADD COLUMN colour TEXT; CREATE TABLE new_kind (id INTEGER PRIMARY KEY)"),
              "");
    const std::string before = file_bytes(path);
    {
        Project project = reopen();
        EXPECT_TRUE(project.newer());
        EXPECT_TRUE(project.read_only());
        EXPECT_EQ(project.all<SightRow>()->size(), 20U);
        EXPECT_EQ(project.book(note("x")).error().code, "project.newer_version");
        EXPECT_EQ(project.undo().error().code, "project.newer_version");
        EXPECT_TRUE(project.save_copy(folder / "copy.gpkg").ok());
    }
    EXPECT_EQ(file_bytes(path), before);
    ASSERT_EQ(RawDatabase(path).execute("ALTER TABLE level_sight DROP COLUMN typed"), "");
    EXPECT_EQ(refused(), "project.schema_differs"); // newer, but without a column that we read
}

TEST_F(OpenTest, ReadOnlyModeWritesNothing) {
    make_small_file();
    const std::string before = file_bytes(path);
    {
        Project project = reopen(OpenMode::ReadOnly);
        EXPECT_TRUE(project.read_only());
        EXPECT_FALSE(project.newer());
        EXPECT_EQ(project.book(note("x")).error().code, "project.read_only");
        EXPECT_EQ(project.strike("level_sight", 1, "x").error().code, "project.read_only");
        EXPECT_EQ(project.together([](Project::Batch&) -> Expected<void> { return {}; }).error().code, "project.read_only");
        EXPECT_TRUE(project.verify().empty());
    }
    EXPECT_EQ(file_bytes(path), before);
    EXPECT_EQ(std::distance(fs::directory_iterator(folder), {}), 1);
}

TEST_F(OpenTest, ReaderSeesWhatLiesInTheWalFile) {
    Project writer = create();
    ASSERT_TRUE(writer.book(note("in the side file")).ok());
    ASSERT_TRUE(fs::file_size(path.string() + "-wal") > 0);
    EXPECT_EQ(reopen(OpenMode::ReadOnly).all<NoteRow>()->size(), 1U);
    // As after a crash: main file and -wal only.
    fs::create_directory(folder / "crash");
    const fs::path crashed = folder / "crash" / "creek.gpkg";
    fs::copy_file(path, crashed);
    fs::copy_file(path.string() + "-wal", crashed.string() + "-wal");
    path = crashed;
    EXPECT_EQ(reopen(OpenMode::ReadOnly).all<NoteRow>()->size(), 1U);
    EXPECT_EQ(reopen().all<NoteRow>()->size(), 1U);
    EXPECT_FALSE(fs::exists(crashed.string() + "-wal")); // closed by a writer: one file again
}

TEST_F(OpenTest, ReadOnlyFolder) {
    if (::geteuid() != 0)
        GTEST_SKIP() << "mounting needs root";
    make_small_file();
    if (::mount(folder.c_str(), folder.c_str(), nullptr, MS_BIND, nullptr) != 0)
        GTEST_SKIP() << "no mounting here";
    ASSERT_EQ(::mount(nullptr, folder.c_str(), nullptr, MS_REMOUNT | MS_BIND | MS_RDONLY, nullptr), 0);
    {
        Project project = reopen();
        EXPECT_TRUE(project.read_only());
        EXPECT_EQ(project.all<SightRow>()->size(), 20U);
        EXPECT_EQ(project.book(note("x")).error().code, "project.read_only");
        EXPECT_EQ(project.save_copy(folder / "copy.gpkg").error().code, "project.read_only");
        EXPECT_EQ(Project::create(folder / "new.gpkg", "A", context()).error().code, "project.read_only");
    }
    ::umount(folder.c_str());
}

TEST_F(OpenTest, ReadOnlyFolderWithWalFileAlone) {
    if (::geteuid() != 0)
        GTEST_SKIP() << "mounting needs root";
    {
        Project writer = create();
        ASSERT_TRUE(writer.book(note("in the side file")).ok());
        fs::create_directory(folder / "ro");
        fs::copy_file(path, folder / "ro" / "creek.gpkg");
        fs::copy_file(path.string() + "-wal", folder / "ro" / "creek.gpkg-wal");
    }
    const fs::path ro = folder / "ro";
    path = ro / "creek.gpkg";
    if (::mount(ro.c_str(), ro.c_str(), nullptr, MS_BIND, nullptr) != 0)
        GTEST_SKIP() << "no mounting here";
    ASSERT_EQ(::mount(nullptr, ro.c_str(), nullptr, MS_REMOUNT | MS_BIND | MS_RDONLY, nullptr), 0);
    EXPECT_EQ(refused(), "project.side_file"); // better than to leave the last readings out without a word
    ::umount(ro.c_str());
}

TEST_F(OpenTest, BusyIsSaidQuicklyAndPasses) {
    Project project = create();
    {
        RawDatabase other(path);
        ASSERT_EQ(other.execute("BEGIN IMMEDIATE"), "");
        const auto start = std::chrono::steady_clock::now();
        EXPECT_EQ(project.book(note("x")).error().code, "project.busy");
        EXPECT_LT(std::chrono::steady_clock::now() - start, std::chrono::milliseconds(500));
        EXPECT_TRUE(project.all<NoteRow>()->empty()); // reading goes on
        EXPECT_EQ(refused(), "opened");               // so does opening
    }
    EXPECT_TRUE(project.book(note("x")).ok());
    EXPECT_EQ(project.edit_log()->size(), 1U);
}

TEST_F(OpenTest, FullDiskStoresNothingAndKeepsTheFile) {
    if (::geteuid() != 0)
        GTEST_SKIP() << "mounting needs root";
    const fs::path disk = folder / "disk";
    fs::create_directory(disk);
    if (::mount("tmpfs", disk.c_str(), "tmpfs", 0, "size=1m") != 0)
        GTEST_SKIP() << "no mounting here";
    path = disk / "creek.gpkg";
    std::size_t acknowledged = 0;
    {
        Project project = create();
        const Id book = *project.book(level_book("line"));
        std::string code;
        for (int i = 0; i < 100'000 && code.empty(); ++i) {
            SightRow row = sight(book, i, 1.0);
            row.remark = std::string(2000, 'r');
            const auto id = project.book(row);
            if (id)
                ++acknowledged;
            else
                code = id.error().code;
        }
        EXPECT_EQ(code, "project.disk_full");
        EXPECT_EQ(project.all<SightRow>()->size(), acknowledged);
        EXPECT_EQ(project.save_copy(disk / "copy.gpkg").error().code, "project.disk_full");
        EXPECT_EQ(Project::create(disk / "new.gpkg", "A", context()).error().code, "project.disk_full");
    }
    {
        Project project = reopen();
        EXPECT_EQ(project.all<SightRow>()->size(), acknowledged);
        EXPECT_TRUE(project.verify().empty());
    }
    EXPECT_FALSE(fs::exists(disk / "copy.gpkg"));
    ::umount(disk.c_str());
}

/// Opens damaged bytes; whatever comes out must be a clean answer, and a refusal leaves the file as it was.
void open_damaged(const fs::path& path, const std::string& bytes, const ProjectContext& context) {
    write_bytes(path, bytes);
    const auto opened = Project::open(path, OpenMode::ReadWrite, context);
    if (!opened) {
        EXPECT_EQ(file_bytes(path), bytes);
        EXPECT_TRUE(opened.error().code.starts_with("project."));
        return;
    }
    static_cast<void>(opened->all<SightRow>());
    static_cast<void>(opened->all<StationRow>());
    static_cast<void>(opened->edit_log());
    static_cast<void>(opened->verify());
    static_cast<void>(opened->site());
}

TEST_F(OpenTest, TruncatedFilesAreRefused) {
    make_small_file();
    const std::string good = file_bytes(path);
    for (int i = 0; i < 50; ++i) {
        const std::size_t length = good.size() * static_cast<std::size_t>(i) / 50;
        open_damaged(path, good.substr(0, length), context());
        EXPECT_NE(refused(), "opened") << length;
    }
}

TEST_F(OpenTest, FlippedBitsNeverCrash) {
    make_small_file();
    const std::string good = file_bytes(path);
    std::mt19937 random(7); // repeatable
    for (int i = 0; i < 300; ++i) {
        std::string bad = good;
        // Half of them in the first pages, where the schema is.
        const std::size_t range = i % 2 == 0 ? bad.size() : std::min<std::size_t>(bad.size(), 16384);
        const std::size_t place = random() % range;
        bad[place] = static_cast<char>(bad[place] ^ (1 << (random() % 8)));
        open_damaged(path, bad, context());
        for (const char* suffix : {"-wal", "-shm", "-journal"})
            fs::remove(path.string() + suffix);
    }
}

// The fixtures are files as earlier versions left them: v1 and v3 written by the program of that version, v2 the file of
// version 1 after the released step 2, with a run and a reading put in. They are never made anew.
class OldFileTest : public OpenTest {
protected:
    Project open_version(int version) {
        const std::string file = "v" + std::to_string(version) + ".gpkg";
        fs::copy_file(fs::path(RILLMARK_SOURCE_DIR) / "tests" / "files" / file, path);
        return reopen();
    }
};

TEST_F(OldFileTest, Version1Opens) {
    Project project = open_version(1);
    EXPECT_EQ(project.site()->name, "Fixture Creek");
    EXPECT_EQ(project.all<StationRow>()->size(), 2U);
    EXPECT_EQ(project.all<SightRow>()->size(), 3U);
    EXPECT_TRUE(project.all<SightRow>()->at(1).struck);
    EXPECT_EQ(project.photo_links()->size(), 1U);
    EXPECT_TRUE(project.verify().empty());
}

TEST_F(OldFileTest, Version2KeepsItsRuns) {
    Project project = open_version(2);
    EXPECT_EQ(project.all<SightRow>()->size(), 3U);
    ASSERT_EQ(project.all<HeightRunRow>()->size(), 1U);
    EXPECT_EQ(project.all<HeightRunRow>()->front().row.method, "tape");
    ASSERT_EQ(project.all<HeightReadingRow>()->size(), 1U);
    EXPECT_EQ(project.all<HeightReadingRow>()->front().row.slope_distance_m, 41.5);
    EXPECT_TRUE(project.verify().empty());
}

TEST_F(OldFileTest, Version3KeepsItsFlowReadings) {
    Project project = open_version(3);
    EXPECT_EQ(project.all<HeightReadingRow>()->size(), 2U);
    EXPECT_TRUE(project.all<HeightReadingRow>()->back().struck);
    ASSERT_EQ(project.all<FlowReadingRow>()->size(), 1U);
    EXPECT_EQ(project.all<FlowReadingRow>()->front().row.head_m, 0.152);
    EXPECT_EQ(project.site()->leave_m3s, 0.004);
    EXPECT_TRUE(project.verify().empty());
}

} // namespace
} // namespace rillmark::testing
