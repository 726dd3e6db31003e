// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/project/merge_fixture.h"

#include "words/words.h"

#include <sys/wait.h>

#include <algorithm>
#include <chrono>
#include <csignal>

namespace rillmark::testing {
namespace {

TEST_F(MergeTest, UnitesReadingsPhotosAndStrikeOuts) {
    Id book = 0;
    Id shared = 0;
    {
        Project project = create();
        book = *project.book(level_book("L"));
        shared = *project.book(sight(book, 0, 1.5));
    }
    const fs::path a = copy_of(path, "a.gpkg");
    const fs::path b = copy_of(path, "b.gpkg");
    Id place = 0;
    Id photo = 0;
    Id by_b = 0;
    {
        Project project = open_as("A", a);
        ASSERT_TRUE(project.book(sight(book, 1, 1.25)).ok());
        ASSERT_TRUE(project.strike("level_sight", shared, "staff leaned").ok());
    }
    {
        Project project = open_as("B", b);
        StationRow row = station("Intake");
        row.longitude_deg = 8.5;
        row.latitude_deg = 46.5;
        place = *project.book(row);
        photo = *project.book_photo({{}, {1, 2, 3}, {9}}, place);
        by_b = *project.book(sight(book, 1, 2.75));
    }
    const auto report = merge_into(a, {b});
    ASSERT_TRUE(report.ok()) << report.error().code;
    EXPECT_TRUE(report->changed);
    EXPECT_TRUE(report->conflicts.empty());
    EXPECT_EQ(report->changed_cells, 0);
    std::string added;
    for (const auto& part : report->added)
        added += part.file + " " + part.table + " " + std::to_string(part.rows) + "; ";
    EXPECT_EQ(added, "b.gpkg station 1; b.gpkg level_sight 1; b.gpkg photo 1; b.gpkg station_photo 1; b.gpkg edit_log 3; ");

    Project project = open_as("A", a);
    EXPECT_TRUE(project.verify().empty());
    const auto sights = project.all<SightRow>();
    ASSERT_EQ(sights->size(), 3U);
    EXPECT_TRUE(sights->at(0).struck);
    EXPECT_EQ(sights->at(0).struck_reason, "staff leaned");
    EXPECT_TRUE(std::ranges::any_of(*sights, [&](const auto& one) { return one.row.id == by_b && !one.struck; }));
    EXPECT_EQ(project.get<StationRow>(place)->row.latitude_deg, 46.5);
    EXPECT_EQ(*project.picture(photo), (std::vector<unsigned char>{1, 2, 3}));
    EXPECT_EQ(project.photo_links()->at(0).station_id, place);
    // The file goes on: its counts lie above those of both.
    const auto next = project.book(note("after"));
    ASSERT_TRUE(next.ok());
    EXPECT_EQ(project.last_action()->id, *next);
    ASSERT_TRUE(project.undo().ok());
    EXPECT_TRUE(project.all<NoteRow>()->at(0).struck);
}

TEST_F(MergeTest, TheLaterChangeHoldsAndTheConflictIsTold) {
    LevelBookRow book = level_book("L");
    {
        Project project = create();
        book.id = *project.book(book);
        book = project.get<LevelBookRow>(book.id)->row;
    }
    const fs::path a = copy_of(path, "a.gpkg");
    const fs::path b = copy_of(path, "b.gpkg");
    {
        LevelBookRow changed = book;
        changed.name = "A's name";
        changed.observer = "Ann";
        changed.length_m = 120;
        clock_ms += 2000;
        ASSERT_TRUE(open_as("A", a).change(changed).ok());
        changed = book;
        changed.name = "B's name";
        changed.instrument = "level 7";
        changed.length_m = 120;
        clock_ms -= 1000;
        ASSERT_TRUE(open_as("B", b).change(changed).ok());
    }
    const fs::path ab = copy_of(a, "ab.gpkg");
    const auto report = merge_into(ab, {b});
    ASSERT_TRUE(report.ok()) << report.error().code;
    EXPECT_EQ(report->changed_cells, 1); // instrument
    ASSERT_EQ(report->conflicts.size(), 1U);
    const MergeConflict& conflict = report->conflicts[0];
    EXPECT_EQ(conflict.table + "." + conflict.column, "level_book.name");
    EXPECT_EQ(conflict.row_id, book.id);
    EXPECT_EQ(conflict.file, "b.gpkg");
    EXPECT_EQ(conflict.mine.value, "A's name");
    EXPECT_EQ(conflict.mine.device, "A");
    EXPECT_EQ(conflict.mine.at, stamp(36'002'000));
    EXPECT_EQ(conflict.other.value, "B's name");
    EXPECT_EQ(conflict.other.device, "B");
    EXPECT_EQ(conflict.other.at, stamp(36'001'000));
    EXPECT_EQ(conflict.kept, "A's name");
    const auto row = open_as("A", ab).get<LevelBookRow>(book.id)->row;
    EXPECT_EQ(row.name, "A's name");
    EXPECT_EQ(row.observer, "Ann");
    EXPECT_EQ(row.instrument, "level 7");
    EXPECT_EQ(row.length_m, 120);
    EXPECT_EQ(open_as("A", ab).edit_log()->size(), 1U + 3U + 3U);
    EXPECT_EQ(content(merged("ba.gpkg", b, {a})), content(ab));

    // Once told, never again: B's clock is behind, but its change saw A's.
    const fs::path later = copy_of(ab, "later.gpkg");
    LevelBookRow changed = row;
    changed.name = "agreed";
    clock_ms -= 5000;
    ASSERT_TRUE(open_as("B", later).change(changed).ok());
    for (const auto& [mine, other] : {std::pair(a, later), std::pair(later, a), std::pair(ab, later)}) {
        const fs::path result = copy_of(mine, "result.gpkg");
        const auto again = merge_into(result, {other});
        ASSERT_TRUE(again.ok());
        EXPECT_TRUE(again->conflicts.empty());
        EXPECT_EQ(content(result), content(later));
    }
}

TEST_F(MergeTest, APositionIsTakenAsOne) {
    StationRow row = station("Intake");
    {
        Project project = create();
        row.longitude_deg = 8.0;
        row.latitude_deg = 46.0;
        row.id = *project.book(row);
        row = project.get<StationRow>(row.id)->row;
    }
    const fs::path a = copy_of(path, "a.gpkg");
    const fs::path b = copy_of(path, "b.gpkg");
    StationRow none = row;
    none.longitude_deg.reset();
    none.latitude_deg.reset();
    StationRow moved = row;
    moved.longitude_deg = 9.0; // the latitude does not stand in the log
    for (const int b_later_ms : {1000, -1000}) {
        copy_of(path, "a.gpkg");
        copy_of(path, "b.gpkg");
        ASSERT_TRUE(open_as("A", a).change(none).ok());
        clock_ms += b_later_ms;
        ASSERT_TRUE(open_as("B", b).change(moved).ok());
        const fs::path ab = merged("ab.gpkg", a, {b});
        EXPECT_EQ(content(merged("ba.gpkg", b, {a})), content(ab));
        Project project = open_as("A", ab);
        EXPECT_TRUE(project.verify().empty());
        const auto kept = project.get<StationRow>(row.id)->row;
        EXPECT_EQ(kept.longitude_deg, b_later_ms > 0 ? std::optional(9.0) : std::nullopt);
        EXPECT_EQ(kept.latitude_deg, b_later_ms > 0 ? std::optional(46.0) : std::nullopt);
    }
}

TEST_F(MergeTest, AnotherSiteOnlyWhenAskedFor) {
    { Project project = create(); }
    const fs::path other = folder / "other.gpkg";
    Id kept_note = 0;
    {
        auto made = Project::create(other, "Other Creek", device("B"));
        ASSERT_TRUE(made.ok());
        SiteRow site = *made->site();
        site.note = "not ours";
        ASSERT_TRUE(made->change(site).ok());
        kept_note = *made->book(note("theirs"));
    }
    const std::string before = file_bytes(path);
    const auto refused = merge_into(path, {other});
    ASSERT_FALSE(refused.ok());
    EXPECT_EQ(refused.error().code, "project.other_site");
    EXPECT_TRUE(file_bytes(path) == before);
    const auto report = merge_into(path, {other}, {.allow_other_site = true});
    ASSERT_TRUE(report.ok()) << report.error().code;
    Project project = reopen();
    EXPECT_EQ(project.site()->name, "Test Creek");
    EXPECT_EQ(project.site()->note, "");
    EXPECT_EQ(project.all<SiteRow>()->size(), 1U);
    EXPECT_EQ(project.get<NoteRow>(kept_note)->row.text, "theirs");
    EXPECT_EQ(project.edit_log()->size(), 1U);
    EXPECT_TRUE(project.verify().empty());
}

TEST_F(MergeTest, BadFilesAreRefusedAndMineStays) {
    Id reading = 0;
    {
        Project project = create();
        ASSERT_TRUE(project.book(station("A")).ok());
        reading = *project.book(note("as written"));
    }
    const fs::path other = copy_of(path, "other.gpkg");
    ASSERT_TRUE(open_as("B", other).book(note("B")).ok());
    const std::string good = file_bytes(other);
    const std::string mine = file_bytes(path);
    const auto code = [&](const fs::path& file) {
        const auto report = merge_into(path, {file});
        EXPECT_TRUE(file_bytes(path) == mine);
        return report.ok() ? "merged" : report.error().code;
    };
    EXPECT_EQ(code(path), "project.merge_itself");
    EXPECT_EQ(code(folder / "none.gpkg"), "project.missing");
    write_bytes(other, "a text");
    EXPECT_EQ(code(other), "project.not_a_database");
    write_bytes(other, good.substr(0, good.size() / 2));
    EXPECT_EQ(code(other), "project.damaged");
    const std::string key = std::to_string(reading);
    const std::vector<std::pair<std::string, std::string>> faults = {
        {"DROP TRIGGER note_never_changed", "project.schema_differs"},
        {"UPDATE station SET geom = X'00'", "project.geometry_differs"},
        {"INSERT INTO strike_out VALUES (5, 'note', 77, 'r', 0, '2026-11-25T10:30:00.000Z', 9)", "project.broken_reference"},
        {"PRAGMA ignore_check_constraints = ON; INSERT INTO container_fill (id, test_id, volume_m3, time_s, typed, observed_at, booked_order) VALUES (5, 1, -1, 1, '', "
         "'2026-11-25T10:30:00.000Z', 9)",
         "project.broken_reference"},
        {"PRAGMA ignore_check_constraints = ON; INSERT INTO meter (id, name, slope_m, intercept_ms, individual_rating, created_at, booked_order) VALUES (5, 'm', 77, 0, 0, "
         "'2026-11-25T10:30:00.000Z', 9)",
         "project.out_of_range"},
        {"INSERT INTO edit_log SELECT 5, 90, 5, NULL, at, 'x', 'changed', 'station', id, 'route_order', NULL, 'no number' "
         "FROM station, (SELECT at FROM edit_log LIMIT 1)",
         "project.damaged"},
        {"INSERT INTO edit_log SELECT 5, 90, 5, NULL, at, 'x', 'changed', 'station', id, 'name', 'A', NULL FROM station, "
         "(SELECT at FROM edit_log LIMIT 1)",
         "project.out_of_range"},
        {"CREATE TEMP TABLE t AS SELECT sql FROM sqlite_schema WHERE name = 'note_never_changed'; DROP TRIGGER "
         "note_never_changed; UPDATE note SET text = 'forged' WHERE id = " + key +
             "; CREATE TRIGGER note_never_changed BEFORE UPDATE ON note BEGIN SELECT RAISE(ABORT, 'note: a row is never "
             "changed'); END",
         "project.row_differs"},
    };
    for (const auto& [sql, expected] : faults) {
        write_bytes(other, good);
        ASSERT_EQ(RawDatabase(other).execute(sql), "") << sql;
        const std::string bytes = file_bytes(other);
        EXPECT_EQ(code(other), expected) << sql;
        EXPECT_TRUE(file_bytes(other) == bytes) << sql;
    }
    for (const auto& entry : fs::directory_iterator(folder)) // nothing is left lying about
        EXPECT_TRUE(entry.path() == path || entry.path() == other) << entry;
}

TEST_F(MergeTest, AFileInUseIsLeftAlone) {
    { Project project = create(); }
    const fs::path other = copy_of(path, "other.gpkg");
    ASSERT_TRUE(open_as("B", other).book(note("B")).ok());
    {
        Project app = reopen();
        ASSERT_TRUE(app.book(note("from the app")).ok());
        EXPECT_EQ(merge_into(path, {other}).error().code, "project.busy");
        EXPECT_TRUE(app.book(note("it goes on")).ok());
    }
    // The other may be in use: what is in its -wal file counts.
    Project app = open_as("B", other);
    ASSERT_TRUE(app.book(note("in the side file")).ok());
    ASSERT_TRUE(merge_into(path, {other}).ok());
    EXPECT_EQ(reopen().all<NoteRow>()->size(), 4U);
}

TEST_F(MergeTest, NothingNewLeavesTheFileUntouched) {
    { Project project = create(); }
    const fs::path other = copy_of(path, "other.gpkg");
    ASSERT_TRUE(reopen().book(note("mine")).ok());
    const std::string before = file_bytes(path);
    const auto report = merge_into(path, {other, other});
    ASSERT_TRUE(report.ok()) << report.error().code;
    EXPECT_FALSE(report->changed);
    EXPECT_TRUE(file_bytes(path) == before);
    EXPECT_FALSE(merge_into(path, {})->changed);
}

TEST_F(MergeTest, AChangeByAnotherProgramIsTold) {
    Id id = 0;
    {
        Project project = create();
        id = *project.book(station("Intake"));
    }
    const fs::path other = copy_of(path, "other.gpkg");
    ASSERT_EQ(RawDatabase(other).execute("UPDATE station SET name = 'Weir'"), "");
    const fs::path back = merged("back.gpkg", other, {path});
    const auto report = merge_into(path, {other});
    ASSERT_TRUE(report.ok());
    ASSERT_EQ(report->conflicts.size(), 1U);
    EXPECT_EQ(report->conflicts[0].other.value, "Weir");
    EXPECT_EQ(report->conflicts[0].other.at, "");
    EXPECT_EQ(reopen().get<StationRow>(id)->row.name, "Weir"); // the greater text
    EXPECT_EQ(content(back), content(path));
}

TEST_F(MergeTest, BothTookAStrikeOutBack) {
    Id id = 0;
    {
        Project project = create();
        id = *project.book(note("x"));
        ASSERT_TRUE(project.strike("note", id, "doubt").ok());
    }
    const fs::path other = copy_of(path, "other.gpkg");
    ASSERT_TRUE(reopen().restore("note", id, "it is right").ok());
    ASSERT_TRUE(open_as("B", other).restore("note", id, "it is right").ok());
    ASSERT_TRUE(merge_into(path, {other}).ok());
    Project project = reopen();
    EXPECT_FALSE(project.get<NoteRow>(id)->struck);
    ASSERT_TRUE(project.strike("note", id, "no, wrong").ok());
    EXPECT_TRUE(project.get<NoteRow>(id)->struck);
    ASSERT_TRUE(project.undo().ok());
    EXPECT_FALSE(project.get<NoteRow>(id)->struck);
}

TEST_F(MergeTest, AKillLeavesTheOldFileOrTheMerged) {
    { Project project = create(); }
    const fs::path other = copy_of(path, "other.gpkg");
    ASSERT_TRUE(open_as("B", other)
                    .together([](Project::Batch& batch) -> Expected<void> {
                        for (int i = 0; i < 300; ++i)
                            static_cast<void>(batch.book(note("B")));
                        return {};
                    })
                    .ok());
    ASSERT_TRUE(reopen().book(note("mine")).ok());
    const std::string old_content = content(path);
    const std::string old_bytes = file_bytes(path);
    const std::string new_content = content(merged("whole.gpkg", path, {other}));
    int old_found = 0;
    int new_found = 0;
    constexpr int kKills = 40;
    const auto start = std::chrono::steady_clock::now();
    merged("timed.gpkg", path, {other});
    const auto whole_us = std::chrono::duration_cast<std::chrono::microseconds>(std::chrono::steady_clock::now() - start).count();
    std::uniform_int_distribution<useconds_t> delay_us(0, static_cast<useconds_t>(std::min<std::int64_t>(whole_us * 5 / 2, 900'000)));
    for (int i = 0; i < kKills; ++i) {
        write_bytes(path, old_bytes);
        const pid_t child = ::fork();
        ASSERT_GE(child, 0);
        if (child == 0)
            ::_exit(merge_into(path, {other}).ok() ? 0 : 1);
        ::usleep(delay_us(engine));
        ::kill(child, SIGKILL);
        int status = 0;
        ASSERT_EQ(::waitpid(child, &status, 0), child);
        ASSERT_FALSE(WIFEXITED(status) && WEXITSTATUS(status) != 0);
        const std::string found = content(path);
        ASSERT_TRUE(found == old_content || found == new_content) << i;
        ASSERT_TRUE(reopen().verify().empty());
        ++(found == old_content ? old_found : new_found);
        for (const auto& entry : fs::directory_iterator(folder)) // what a killed merge left
            if (entry.path().filename().string().starts_with("."))
                fs::remove(entry.path());
    }
    EXPECT_GT(old_found, 0);
    EXPECT_GT(new_found, 0);
    RecordProperty("old", old_found);
    RecordProperty("merged", new_found);
}

TEST(MergeWords, EveryCodeHasItsWords) {
    for (const char* code :
         {"project.other_site", "project.merge_itself", "project.row_differs", "project.merge_failed"})
        EXPECT_NE(words::find(code), nullptr) << code;
}

} // namespace
} // namespace rillmark::testing
