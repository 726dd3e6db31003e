// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "expected.h"
#include "project/migrate.h"
#include "project/sqlite.h"

#include <filesystem>
#include <span>
#include <string>

namespace rillmark {

/// What a file turned out to be.
struct SchemaState {
    std::int64_t version = 0;
    bool older = false;
    bool newer = false;
};

/// Compares a database with our schema without writing to it: the marks of a GeoPackage, our tables, and word for word
/// (comments and spaces aside) what each table, index and trigger says. Other programs may have added plain tables;
/// a view, a virtual table, a trigger or an index on our tables that is not ours is refused.
/// Refuses: `project.not_a_geopackage`, `project.foreign_geopackage`, `project.schema_differs`. Throws SqliteError.
Expected<SchemaState> check_schema(sqlite::Database& database, std::span<const MigrationStep> steps,
                                   const std::string& where);

/// Opens a file read-only, checks header, schema and the structure of its pages, and closes it again.
/// Refuses as check_schema() does, and `project.missing`, `project.not_a_database`, `project.damaged`, `project.busy`,
/// `project.side_file` (its last changes lie in a side file that cannot be read here).
Expected<SchemaState> look_at_file(const std::filesystem::path& path, std::span<const MigrationStep> steps);

/// A reader's connection. Where no side files can be made (a read-only folder) and none lie there, the file is taken as
/// it stands. Throws SqliteError.
[[nodiscard]] sqlite::Database open_to_read(const std::filesystem::path& path);

/// A statement without comments and with single spaces, for comparing.
[[nodiscard]] std::string plain_sql(const std::string& sql);

} // namespace rillmark
