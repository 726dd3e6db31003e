// SPDX-License-Identifier: GPL-3.0-or-later
#include "project/tables.h"

#include "project/rows.h"

#include <fmt/format.h>
#include <sqlite3.h>

#include <algorithm>
#include <charconv>

namespace rillmark {

namespace {

constexpr const char* kOrderTitle = "Place in the order of booking";

template <class Record>
Table table_of() {
    Table table;
    table.name = Record::kTable;
    table.sort = kIsItem<Record> ? Table::Sort::Item : Table::Sort::Observation;
    table.geometry = kHasGeometry<Record>;
    for (const Column<Record>& column : columns<Record>())
        table.columns.push_back(
            {column.name, rows::kind_of(column), rows::required(column), column.title, column.unit});
    if (table.geometry)
        table.columns.push_back({"geom", CellKind::Point, false, "Position (WGS 84, x = longitude)", "deg"});
    if (table.name == PhotoRow::kTable) {
        table.columns.push_back({"data", CellKind::Blob, true, "The picture", ""});
        table.columns.push_back({"thumbnail", CellKind::Blob, false, "The picture made small, JPEG", ""});
    }
    table.columns.push_back({"booked_order", CellKind::Integer, true, kOrderTitle, ""});
    return table;
}

std::vector<Table> bookkeeping_tables() {
    using enum CellKind;
    return {
        {"station_photo", Table::Sort::Bookkeeping, false,
         {{"base_id", Integer, true, "Station", ""}, {"related_id", Integer, true, "Photo", ""}}},
        {"edit_log", Table::Sort::Bookkeeping, false,
         {{"id", Integer, true, "Key", ""},
          {"sequence", Integer, true, kOrderTitle, ""},
          {"action_id", Integer, true, "Key of the first entry of the same deed", ""},
          {"undoes", Integer, false, "Deed that this one takes back", ""},
          {"at", Text, true, "Time (UTC)", ""},
          {"device", Text, true, "Device that wrote it", ""},
          {"verb", Text, true, "What was done", ""},
          {"table_name", Text, true, "Table", ""},
          {"row_id", Integer, true, "Key of the row", ""},
          {"column_name", Text, false, "Column changed", ""},
          {"before", Text, false, "Value before", ""},
          {"after", Text, false, "Value after, or the reason", ""}}},
        {"schema_version", Table::Sort::Bookkeeping, false,
         {{"version", Integer, true, "Version of the schema", ""},
          {"applied_at", Text, true, "Time the file came to it (UTC)", ""}}},
    };
}

std::vector<Table> all_tables() {
    std::vector<Table> list;
    for_each_record([&]<class Record>(const Record&) { list.push_back(table_of<Record>()); });
    for (Table& table : bookkeeping_tables())
        list.push_back(std::move(table));
    return list;
}

template <class Number>
Number parsed(const std::string& text) {
    Number value{};
    const char* end = text.data() + text.size();
    const auto [stopped, error] = std::from_chars(text.data(), end, value);
    if (error != std::errc() || stopped != end)
        throw sqlite::SqliteError(SQLITE_MISMATCH, "edit_log");
    return value;
}

} // namespace

const std::vector<Table>& tables() {
    static const std::vector<Table> list = all_tables();
    return list;
}

const Table* find_table(std::string_view name) {
    const auto found = std::ranges::find(tables(), name, &Table::name);
    return found == tables().end() ? nullptr : &*found;
}

const TableColumn* find_column(const Table& table, std::string_view name) {
    const auto found = std::ranges::find(table.columns, name, &TableColumn::name);
    return found == table.columns.end() ? nullptr : &*found;
}

std::string declared_type(const TableColumn& column) {
    switch (column.kind) {
    case CellKind::Integer: return "INTEGER";
    case CellKind::Real: return "DOUBLE";
    case CellKind::Boolean: return "BOOLEAN";
    case CellKind::Blob: return "BLOB";
    case CellKind::Point: return "POINT";
    case CellKind::Text: break;
    }
    return column.name == "at" || column.name.ends_with("_at") ? "DATETIME" : "TEXT";
}

void describe_columns(sqlite::Database& database) {
    database.execute("DELETE FROM gpkg_data_columns");
    for (const Table& table : tables())
        for (const TableColumn& column : table.columns)
            database.run("INSERT INTO gpkg_data_columns (table_name, column_name, name, title, description) "
                         "VALUES (?, ?, ?, ?, ?)")
                .bind(1, table.name)
                .bind(2, column.name)
                .bind(3, column.name)
                .bind(4, column.title)
                .bind(5, column.unit.empty() ? std::string("no unit") : "unit: " + column.unit)
                .step();
}

std::string number_text(double value) {
    return fmt::format("{}", value);
}

std::string number_text(std::int64_t value) {
    return fmt::format("{}", value);
}

void bind_text(sqlite::Run& run, int index, CellKind kind, const std::string& text) {
    switch (kind) {
    case CellKind::Integer:
    case CellKind::Boolean: run.bind(index, parsed<std::int64_t>(text)); return;
    case CellKind::Real: run.bind(index, parsed<double>(text)); return;
    default: run.bind(index, text); return;
    }
}

} // namespace rillmark
