// SPDX-License-Identifier: GPL-3.0-or-later
#include "project/sqlite_finding.h"

#include <sqlite3.h>

namespace rillmark {

namespace {

/// The column in "NOT NULL constraint failed: table.column" or "CHECK constraint failed: column".
std::string constrained_column(const std::string& message) {
    const std::size_t colon = message.rfind(": ");
    const std::string name = colon == std::string::npos ? std::string() : message.substr(colon + 2);
    return name.substr(name.find('.') + 1); // npos + 1 is 0
}

} // namespace

Finding sqlite_finding(const sqlite::SqliteError& error, const std::string& where) {
    switch (error.code()) {
    case SQLITE_BUSY:
    case SQLITE_LOCKED: return refusal("project.busy", where);
    case SQLITE_FULL: return refusal("project.disk_full", where);
    case SQLITE_READONLY: return refusal("project.read_only", where);
    case SQLITE_NOTADB: return refusal("project.not_a_database", where);
    case SQLITE_CORRUPT:
    case SQLITE_MISMATCH:
    case SQLITE_CONSTRAINT:
        return refusal("project.damaged", where, {{"detail", std::string(error.what()), Quantity::Number}});
    case SQLITE_TOOBIG: return refusal("project.too_big", where);
    default: break;
    }
    return refusal("project.io", where, {{"detail", std::string(error.what()), Quantity::Number}});
}

Finding write_finding(const sqlite::SqliteError& error, const std::string& table) {
    const Arg table_arg{"table", table, Quantity::Number};
    const std::string message = error.what();
    switch (error.extended_code()) {
    case SQLITE_CONSTRAINT_CHECK:
    case SQLITE_CONSTRAINT_NOTNULL: {
        const std::string column = constrained_column(message);
        return refusal("project.out_of_range", table + "." + column,
                       {table_arg, {"column", column, Quantity::Number}});
    }
    case SQLITE_CONSTRAINT_FOREIGNKEY: return refusal("project.broken_reference", table, {table_arg});
    case SQLITE_CONSTRAINT_PRIMARYKEY:
    case SQLITE_CONSTRAINT_ROWID:
    case SQLITE_CONSTRAINT_UNIQUE: return refusal("project.duplicate_id", table, {table_arg});
    case SQLITE_CONSTRAINT_TRIGGER:
        return refusal(message.ends_with("replaced") ? "project.duplicate_id" : "project.never_changed", table,
                       {table_arg});
    default: break;
    }
    return sqlite_finding(error, table);
}

} // namespace rillmark
