// SPDX-License-Identifier: GPL-3.0-or-later
#include "words/words.h"

#include <array>

namespace rillmark::words {

namespace {

constexpr std::array kWords = std::to_array<Word>({
    // Opening and making a file.
    {"project.missing", RILLMARK_TR("There is no file {where}. Check the name and whether the card or disk is in place."),
     ""},
    {"project.exists",
     RILLMARK_TR("There is a file {where} already, and it is never written over. Choose another name."), ""},
    {"project.not_a_database",
     RILLMARK_TR("{where} is not a project file. A project file ends in .gpkg and was made by this program."), ""},
    {"project.not_a_geopackage",
     RILLMARK_TR("{where} is a database, but not a GeoPackage, so it is no project file. Nothing was written to it."), ""},
    {"project.foreign_geopackage",
     RILLMARK_TR("{where} is a GeoPackage made by another program, not a project file. Nothing was written to it. Open it "
                 "with a map program instead."),
     ""},
    {"project.schema_differs",
     RILLMARK_TR("{where} is not built as a project file should be: {object} is missing, different or added. Nothing was "
                 "written to it. Use an untouched copy of the file."),
     ""},
    {"project.damaged",
     RILLMARK_TR("{where} is damaged ({detail}). Leave the file as it is and go on with the last good copy."), ""},
    {"project.side_file",
     RILLMARK_TR("The last changes of {where} lie in a second file beside it that cannot be read here. Copy the file and "
                 "those that begin with the same name into a folder that can be written, and open it there."),
     ""},
    {"project.older_read_only",
     RILLMARK_TR("{where} was made by an earlier version and cannot be brought up to date here, because it cannot be "
                 "written. Copy it into a folder that can be written, and open it there."),
     ""},
    {"project.newer_version",
     RILLMARK_TR("{where} was written by a newer version of this program. It can be read but not changed. Update the "
                 "program to work on it."),
     ""},
    // Writing.
    {"project.busy",
     RILLMARK_TR("Another program is writing to {where}. Nothing was stored; close the other program or try again."), ""},
    {"project.read_only",
     RILLMARK_TR("{where} cannot be written here. Nothing was stored. Copy it into a folder that can be written."), ""},
    {"project.disk_full",
     RILLMARK_TR("The disk is full: {where} could not be written and nothing was stored. All earlier readings are safe. "
                 "Make room, then enter it again."),
     ""},
    {"project.io",
     RILLMARK_TR("The disk did not do what it was asked to with {where} ({detail}). Nothing was stored. Save a copy on "
                 "another disk."),
     ""},
    {"project.too_big", RILLMARK_TR("This is too large to be stored in {where}. Make the picture smaller."), ""},
    {"project.out_of_range",
     RILLMARK_TR("The value for {column} in {table} is missing or not possible, so it was not stored. Check the number "
                 "and its unit."),
     "common practice, no source"},
    {"project.broken_reference",
     RILLMARK_TR("A row of {table} speaks of another row that is not there. Enter or choose that one first."), ""},
    {"project.duplicate_id",
     RILLMARK_TR("This row of {table} is in the file already; it was not stored a second time."), ""},
    {"project.never_changed",
     RILLMARK_TR("Readings in {table} are never changed. Strike the reading out with a reason and enter it anew."), ""},
    {"project.unknown_column",
     RILLMARK_TR("{column} of {where} cannot take this value. Change it on its page."), ""},
    {"project.no_such_row", RILLMARK_TR("The row is no longer in {table}. Open the page again."), ""},
    {"project.no_such_table", RILLMARK_TR("Rows of {table} cannot be struck out or changed in this way."), ""},
    {"project.already_struck", RILLMARK_TR("This row of {table} is struck out already."), ""},
    {"project.not_struck", RILLMARK_TR("This row of {table} is not struck out, so there is nothing to take back."), ""},
    {"project.reason_missing",
     RILLMARK_TR("Say why the row is struck out: the reason stays legible with it, as in a field book."), ""},
    {"project.nothing_to_undo", RILLMARK_TR("There is nothing to undo in {where}."), ""},
    // Checking and handing over.
    {"project.copy_failed",
     RILLMARK_TR("The copy {where} did not pass its check ({detail}) and was removed. Run the check on the project to see "
                 "what is wrong."),
     ""},
    {"project.not_registered",
     RILLMARK_TR("Other programs will not find the table {table}: it is not registered as it should be."),
     "OGC 12-128r18, GeoPackage Encoding Standard"},
    {"project.not_described",
     RILLMARK_TR("The column {column} of {table} has lost its title or unit for other programs."),
     "OGC 12-128r18, GeoPackage Encoding Standard, Schema extension"},
    {"project.geometry_differs",
     RILLMARK_TR("The point that other programs see for row {id} of {table} is not at its longitude and latitude."),
     "OGC 12-128r18, GeoPackage Encoding Standard, clause 2.1.3"},
});

} // namespace

std::span<const Word> project_words() {
    return kWords;
}

} // namespace rillmark::words
