// SPDX-License-Identifier: GPL-3.0-or-later
#include "project/open_checks.h"

#include "project/files.h"
#include "project/sqlite_finding.h"
#include "project/tables.h"

#include <sqlite3.h>

#include <algorithm>
#include <map>
#include <set>

namespace rillmark {

namespace {

using sqlite::Access;
using sqlite::Database;
using sqlite::Run;
using sqlite::SqliteError;

// "GPKG": OGC 12-128r18, Requirement 2.
constexpr std::int64_t kGeoPackageId = 0x47504B47;
// "GP10" and "GP11", the marks of GeoPackage 1.0 and 1.1: OGC 12-128r18, clause 1.1.1.1.1.
constexpr std::int64_t kGeoPackage10Id = 0x47503130;
constexpr std::int64_t kGeoPackage11Id = 0x47503131;

struct SchemaObject {
    std::string type;
    std::string table;
    std::string sql; // plain; empty for the indexes that SQLite makes by itself
};
using SchemaObjects = std::map<std::string, SchemaObject>;

SchemaObjects read_schema(Database& database) {
    SchemaObjects objects;
    Run query = database.run("SELECT name, type, tbl_name, sql FROM sqlite_schema");
    while (query.step())
        objects[query.text(0)] = {query.text(1), query.text(2), plain_sql(query.text_or_empty(3))};
    return objects;
}

SchemaObjects reference_schema(std::span<const MigrationStep> steps, std::int64_t version) {
    Database memory({}, Access::Memory);
    for (const MigrationStep& step : steps)
        if (step.version <= version)
            memory.execute(step.sql);
    return read_schema(memory);
}

Finding differs(const std::string& where, const std::string& object) {
    return refusal("project.schema_differs", where, {{"object", object, Quantity::Number}});
}

bool starts_with_ignoring_case(const std::string& text, const std::string& start) {
    return sqlite3_strnicmp(text.c_str(), start.c_str(), static_cast<int>(start.size())) == 0;
}

/// The objects of the file against those that it should have.
Expected<void> compare(const SchemaObjects& file, const SchemaObjects& ours, const std::string& where) {
    std::set<std::string> our_tables;
    for (const auto& [name, object] : ours) {
        const auto found = file.find(name);
        if (found == file.end() || found->second.type != object.type || found->second.table != object.table ||
            found->second.sql != object.sql)
            return differs(where, name);
        our_tables.insert(object.table);
    }
    for (const auto& [name, object] : file) {
        if (ours.contains(name))
            continue;
        const bool plain_table = object.type == "table" && !starts_with_ignoring_case(object.sql, "create virtual");
        const bool foreign_index = object.type == "index" && !our_tables.contains(object.table);
        if (!plain_table && !foreign_index)
            return differs(where, name);
    }
    return {};
}

/// A newer file is only read, so it is enough that it has the columns that we read.
Expected<void> has_our_columns(Database& database, const SchemaObjects& file, const std::string& where) {
    for (const Table& table : tables()) {
        const auto found = file.find(table.name);
        if (found == file.end() || found->second.type != "table" ||
            starts_with_ignoring_case(found->second.sql, "create virtual"))
            return differs(where, table.name);
        std::set<std::string> names;
        Run query = database.run("SELECT name FROM pragma_table_info('" + table.name + "')");
        while (query.step())
            names.insert(query.text(0));
        for (const TableColumn& column : table.columns)
            if (!names.contains(column.name))
                return differs(where, table.name + "." + column.name);
    }
    return {};
}

/// An older file lacks the tables that came later.
bool has_table(Database& database, const std::string& name) {
    Run query = database.run("SELECT 1 FROM sqlite_schema WHERE type = 'table' AND name = ?");
    return query.bind(1, name).step();
}

/// A stray bit shows here, before anything is written to the file. The pictures are left out: reading hundreds of
/// megabytes would keep the user waiting, and verify() looks at them.
Expected<void> check_pages(Database& database, const std::string& where) {
    for (const Table& table : tables()) {
        if (table.name == PhotoRow::kTable || !has_table(database, table.name))
            continue;
        const std::string result = database.text("PRAGMA quick_check('" + table.name + "')");
        if (result != "ok")
            return refusal("project.damaged", where, {{"detail", result, Quantity::Number}});
    }
    return {};
}

Finding cannot_look(const SqliteError& error, const std::string& where) {
    const bool side_file = error.code() == SQLITE_CANTOPEN || error.code() == SQLITE_READONLY;
    return side_file ? refusal("project.side_file", where) : sqlite_finding(error, where);
}

} // namespace

std::string plain_sql(const std::string& sql) {
    std::string plain;
    for (std::size_t i = 0; i < sql.size(); ++i) {
        const char c = sql[i];
        if (sql.compare(i, 2, "--") == 0) {
            i = std::min(sql.find('\n', i), sql.size());
        } else if (sql.compare(i, 2, "/*") == 0) {
            const std::size_t end = sql.find("*/", i + 2);
            i = end == std::string::npos ? sql.size() : end + 1;
        } else if (c == '\'' || c == '"' || c == '`' || c == '[') {
            const std::size_t end = std::min(sql.find(c == '[' ? ']' : c, i + 1), sql.size() - 1);
            plain.append(sql, i, end - i + 1);
            i = end;
            continue;
        } else if (c != ' ' && c != '\n' && c != '\r' && c != '\t' && c != '\f') {
            plain += c;
            continue;
        }
        if (!plain.empty() && plain.back() != ' ')
            plain += ' ';
    }
    if (!plain.empty() && plain.back() == ' ')
        plain.pop_back();
    return plain;
}

Expected<SchemaState> check_schema(Database& database, std::span<const MigrationStep> steps, const std::string& where) {
    const std::int64_t mark = database.integer("PRAGMA application_id");
    if (mark == kGeoPackage10Id || mark == kGeoPackage11Id)
        return refusal("project.foreign_geopackage", where);
    if (mark != kGeoPackageId)
        return refusal("project.not_a_geopackage", where);

    const SchemaObjects file = read_schema(database);
    for (const char* table : {"schema_version", "site", "edit_log"}) {
        const auto found = file.find(table);
        if (found == file.end() || found->second.type != "table" ||
            starts_with_ignoring_case(found->second.sql, "create virtual"))
            return refusal("project.foreign_geopackage", where);
    }

    SchemaState state;
    state.version = database.integer("SELECT coalesce(max(version), 0) FROM schema_version");
    const std::int64_t latest = steps.back().version;
    if (state.version < 1)
        return differs(where, "schema_version");
    state.older = state.version < latest;
    state.newer = state.version > latest;
    const auto fits = state.newer ? has_our_columns(database, file, where)
                                  : compare(file, reference_schema(steps, state.version), where);
    if (!fits)
        return fits.error();
    return state;
}

Expected<SchemaState> look_at_file(const std::filesystem::path& path, std::span<const MigrationStep> steps) {
    if (const auto header = check_header(path); !header)
        return header.error();
    const std::string where = path.filename().string();
    try {
        Database database(path, has_side_files(path) ? Access::Read : Access::Look);
        auto state = check_schema(database, steps, where);
        if (!state)
            return state;
        if (const auto pages = check_pages(database, where); !pages)
            return pages.error();
        return state;
    } catch (const SqliteError& error) {
        return cannot_look(error, where);
    }
}

Database open_to_read(const std::filesystem::path& path) {
    try {
        Database database(path, Access::Read);
        database.touch();
        return database;
    } catch (const SqliteError& error) {
        if ((error.code() != SQLITE_CANTOPEN && error.code() != SQLITE_READONLY) || has_side_files(path))
            throw;
    }
    return {path, Access::Look};
}

} // namespace rillmark
