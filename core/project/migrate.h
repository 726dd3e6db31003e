// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "embedded_text.h"
#include "expected.h"
#include "project/sqlite.h"

#include <filesystem>
#include <functional>
#include <span>
#include <string>
#include <vector>

namespace rillmark {

/// One numbered step of the schema: takes a file from version - 1 to version.
struct MigrationStep {
    std::int64_t version = 0;
    std::string sql;
};

/// The steps in the order of their versions; the number is the start of the file name ("0001_base.sql").
[[nodiscard]] std::vector<MigrationStep> migration_steps(std::span<const EmbeddedText> texts);

/// Takes a database from version `from` (0: empty) through the steps above it. Each step is one transaction with its
/// row in schema_version as the last statement; after the last step the columns are described anew. Throws SqliteError;
/// a step that fails leaves the file at the version before it.
void apply_steps(sqlite::Database& database, std::span<const MigrationStep> steps, std::int64_t from,
                 const std::function<std::string()>& now_utc);

/// Writes a whole copy beside the file, "<name>.version-<from>.gpkg" (or with a number after it), before its schema is
/// changed. Returns the path of the copy. Refuses `project.disk_full`, `project.read_only`, `project.io`.
Expected<std::filesystem::path> copy_before_migration(const std::filesystem::path& path, std::int64_t from,
                                                      std::int64_t random);

/// VACUUM INTO: the whole database as one file under a new name, without side files.
void vacuum_into(sqlite::Database& database, const std::filesystem::path& to);

} // namespace rillmark
