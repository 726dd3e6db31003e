// SPDX-License-Identifier: GPL-3.0-or-later
#include "project/resolve_conflict.h"

#include "core/project/merge_fixture.h"

namespace rillmark::testing {
namespace {

/// One book that two devices named and measured differently.
class ResolveConflict : public MergeTest {
protected:
    MergeReport conflicting() {
        LevelBookRow book;
        book.name = "Line";
        {
            Project project = open_as("A", path);
            book.id = *project.book(book);
            book = project.get<LevelBookRow>(book.id)->row;
        }
        const fs::path other = copy_of(path, "b.gpkg");
        LevelBookRow mine = book;
        mine.name = "Mine";
        mine.length_m = 120.5;
        LevelBookRow theirs = book;
        theirs.name = "Theirs";
        clock_ms += 1000;
        EXPECT_TRUE(open_as("A", path).change(mine).ok());
        theirs.length_m = 98.25;
        clock_ms += 1000;
        EXPECT_TRUE(open_as("B", other).change(theirs).ok());
        const auto report = merge_into(path, {other});
        EXPECT_TRUE(report.ok());
        return report.value_or({});
    }
    const MergeConflict& about(const MergeReport& report, const std::string& column) {
        const auto hit = std::ranges::find(report.conflicts, column, &MergeConflict::column);
        EXPECT_NE(hit, report.conflicts.end()) << column;
        return *hit;
    }
};

TEST_F(ResolveConflict, EitherValueCanStandAndBothStayInTheHistory) {
    create();
    const MergeReport report = conflicting();
    ASSERT_EQ(report.conflicts.size(), 2u);
    Project project = open_as("A", path);
    const Id book = report.conflicts[0].row_id;
    EXPECT_EQ(project.get<LevelBookRow>(book)->row.name, "Theirs"); // the later one
    const std::size_t logged = project.edit_log()->size();
    ASSERT_TRUE(resolve_conflict(project, about(report, "name"), false).ok());
    ASSERT_TRUE(resolve_conflict(project, about(report, "length_m"), false).ok());
    EXPECT_EQ(project.get<LevelBookRow>(book)->row.name, "Mine");
    EXPECT_EQ(project.get<LevelBookRow>(book)->row.length_m, 120.5);
    EXPECT_EQ(project.edit_log()->size(), logged + 2);
    ASSERT_TRUE(resolve_conflict(project, about(report, "length_m"), true).ok());
    EXPECT_EQ(project.get<LevelBookRow>(book)->row.length_m, 98.25);
    ASSERT_TRUE(resolve_conflict(project, about(report, "length_m"), true).ok());
    EXPECT_EQ(project.edit_log()->size(), logged + 3); // what stands already is not written again
}

TEST_F(ResolveConflict, WhatItDoesNotKnowIsRefused) {
    create();
    const MergeReport report = conflicting();
    Project project = open_as("A", path);
    MergeConflict conflict = about(report, "length_m");
    conflict.other.value = "long";
    EXPECT_EQ(resolve_conflict(project, conflict, true).error().code, "project.unknown_column");
    conflict.other.value.reset(); // empty is a value of a column that may be empty
    EXPECT_TRUE(resolve_conflict(project, conflict, true).ok());
    EXPECT_FALSE(project.get<LevelBookRow>(conflict.row_id)->row.length_m);
    conflict.column = "id";
    EXPECT_EQ(resolve_conflict(project, conflict, false).error().code, "project.unknown_column");
    conflict.table = "level_sight";
    EXPECT_EQ(resolve_conflict(project, conflict, false).error().code, "project.unknown_column");
    conflict = about(report, "name");
    conflict.row_id = 4711;
    EXPECT_EQ(resolve_conflict(project, conflict, false).error().code, "project.no_such_row");
}

} // namespace
} // namespace rillmark::testing
