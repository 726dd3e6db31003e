// SPDX-License-Identifier: GPL-3.0-or-later
#include "project/merge.h"

#include "embedded_text.h"
#include "project/files.h"
#include "project/merge_rows.h"
#include "project/migrate.h"
#include "project/open_checks.h"
#include "project/project.h"
#include "project/sqlite_finding.h"
#include "project/verify.h"

#include <system_error>

namespace rillmark {

namespace {

namespace fs = std::filesystem;
using sqlite::Access;
using sqlite::Database;

/// Brings an older file up to date; any other is not written to, not even its header.
Expected<void> prepare(const fs::path& mine) {
    const auto state = look_at_file(mine, migration_steps(schema_texts()));
    if (!state)
        return state.error();
    if (state->newer)
        return refusal("project.newer_version", mine.filename().string());
    if (!state->older)
        return {};
    const auto project = Project::open(mine);
    if (!project)
        return project.error();
    return {};
}

Expected<void> check_other(const fs::path& other, const fs::path& mine) {
    const std::string where = other.filename().string();
    const auto state = look_at_file(other, migration_steps(schema_texts()));
    if (!state)
        return state.error();
    std::error_code failed;
    if (fs::equivalent(other, mine, failed))
        return refusal("project.merge_itself", where);
    if (state->older)
        return refusal("project.older_read_only", where);
    if (state->newer)
        return refusal("project.newer_version", where);
    return {};
}

/// The only connection to the file, until it is closed: what another program wrote now would be lost with the old file.
/// Throws SQLITE_BUSY while another program has it open.
void hold_alone(Database& database) {
    database.execute("PRAGMA locking_mode = EXCLUSIVE");
    database.execute("PRAGMA journal_mode = DELETE");
    // The lock of this mode comes with a transaction and stays after it.
    database.execute("BEGIN EXCLUSIVE; COMMIT");
}

void merge_one(Database& merged, const fs::path& other, const MergeOptions& options, MergeReport& report) {
    const std::string where = other.filename().string();
    const auto done = guarded(where, [&] {
        Database source = open_to_read(other);
        source.execute("BEGIN"); // one state of the file for the check and the merge; ends with the connection
        if (const Findings faults = verify_database(source, where); !faults.empty())
            throw Refused{faults.front()};
        merge_rows(merged, source, where, options, report);
    });
    if (!done)
        throw Refused{done.error()};
}

} // namespace

Expected<MergeReport> merge_into(const fs::path& mine, const std::vector<fs::path>& others,
                                 const MergeOptions& options) {
    if (const auto prepared = prepare(mine); !prepared)
        return prepared.error();
    for (const fs::path& other : others)
        if (const auto checked = check_other(other, mine); !checked)
            return checked.error();
    const std::string where = mine.filename().string();
    return guarded(where, [&] {
        std::error_code failed;
        const fs::path place = fs::canonical(mine, failed); // a link stays, and what it leads to is replaced
        if (failed)
            throw Refused{refusal("project.io", where, {{"detail", failed.message(), Quantity::Number}})};
        Database original(place, Access::Write);
        if (original.read_only())
            throw Refused{refusal("project.read_only", where)};
        hold_alone(original);
        PassingFile passing(passing_name(place, system_context().new_id()));
        if (const auto free = check_free_place(passing.path()); !free)
            throw Refused{free.error()};
        vacuum_into(original, passing.path());
        MergeReport report;
        {
            Database merged(passing.path(), Access::Write);
            sqlite::Transaction transaction(merged);
            for (const fs::path& other : others)
                merge_one(merged, other, options, report);
            if (!report.changed)
                return report;
            transaction.commit();
            if (const Findings faults = verify_database(merged, where); !faults.empty())
                throw Refused{refusal("project.merge_failed", where,
                                      {{"detail", faults.front().code, Quantity::Number}})};
        }
        if (const auto placed = passing.replace(place); !placed)
            throw Refused{placed.error()};
        return report;
    });
}

} // namespace rillmark
