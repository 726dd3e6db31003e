// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "expected.h"
#include "project/records.h"

#include <cstdint>
#include <filesystem>
#include <optional>
#include <string>
#include <vector>

namespace rillmark {

struct MergeOptions {
    bool allow_other_site = false; // the site row of mine stays, that of the other file is left out
};

/// A value of one column as the edit log keeps it (numbers in SI as text; empty: no value) and who wrote it last.
/// Time and device are empty when the log does not say.
struct MergeSide {
    std::optional<std::string> value;
    std::string at;
    std::string device;
};

/// A column that two files say differently, each by a change that the other had not seen, or without the edit log.
struct MergeConflict {
    std::string file; // of the other side
    std::string table;
    Id row_id = 0;
    std::string column;
    MergeSide mine;
    MergeSide other;
    std::optional<std::string> kept;
};

struct MergeReport {
    struct Added {
        std::string file;
        std::string table;
        std::int64_t rows = 0;
    };
    std::vector<Added> added;       // tables that got rows, in the order of the files and of tables()
    std::int64_t changed_cells = 0; // columns of items of mine that took another value
    std::vector<MergeConflict> conflicts;
    bool changed = false; // false: the others held nothing new, and the file was not touched
};

/// Brings into the project file `mine` everything that the project files `others` hold beside it.
///
/// Rows are united by their keys and keep the key, the place in the order of booking and the log rows that they got in
/// their own file. `sequence` and `booked_order` are therefore counts in the manner of a logical clock: a row made after
/// a merge counts on from the highest, and rows with the same count are told apart by their key.
/// A column of an item that has different values takes that of the latest change in both edit logs. Latest: by the time
/// of the change, but never before the change whose value it replaced (the clocks of two devices may differ); then by
/// sequence, device and key. Longitude and latitude of a station are taken together, as one position. A column that
/// differs without a change in the log takes the greater of the values as text. (Choice taken here; common practice for
/// replicated records, no source.)
/// The merged content does not depend on the order or the number of merges, but for what is local to each file:
/// schema_version (when it came to its schema), gpkg_contents (informative), and the order in which station_photo lists
/// its rows. With allow_other_site the site row is that of `mine`.
///
/// The others are only read, as untrusted input: the checks of Project::open() and of verify(). The work is done on a
/// copy beside `mine` which takes its place when it is whole and verified, so that a kill leaves the one or the other.
/// An older `mine` is brought up to date first, as by Project::open().
/// Refuses, leaving `mine` as it was: what Project::open() refuses of any file; `project.other_site`,
/// `project.merge_itself` (the same file twice), `project.row_differs` (the same key for two different observations, a
/// damaged or tampered file), `project.older_read_only` and `project.newer_version` of an other file,
/// `project.merge_failed` (the merged copy did not pass its check), `project.busy` (mine is open in another program).
Expected<MergeReport> merge_into(const std::filesystem::path& mine, const std::vector<std::filesystem::path>& others,
                                 const MergeOptions& options = {});

} // namespace rillmark
