// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "project/records.h"

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace rillmark {

namespace sqlite {
class Database;
class Run;
} // namespace sqlite

enum class CellKind : std::uint8_t { Integer, Real, Text, Boolean, Blob, Point };

/// A column as other programs see it.
struct TableColumn {
    std::string name;
    CellKind kind = CellKind::Text;
    bool required = false;
    std::string title;
    std::string unit;
};

/// A table of the file with all its columns, those that no record holds included (geometry, picture, order of booking).
struct Table {
    enum class Sort : std::uint8_t { Item, Observation, Bookkeeping };
    std::string name;
    Sort sort = Sort::Observation;
    bool geometry = false;
    std::vector<TableColumn> columns;
};

/// Every table of ours, made from the columns of the records.
[[nodiscard]] const std::vector<Table>& tables();
/// nullptr when there is no such table.
[[nodiscard]] const Table* find_table(std::string_view name);
[[nodiscard]] const TableColumn* find_column(const Table& table, std::string_view name);
/// "DOUBLE", "DATETIME", ...: the type that the schema declares for a column.
[[nodiscard]] std::string declared_type(const TableColumn& column);

/// Writes title and unit of every column to gpkg_data_columns (GeoPackage Schema extension).
void describe_columns(sqlite::Database& database);

/// The shortest text that reads back to the same number.
[[nodiscard]] std::string number_text(double value);
[[nodiscard]] std::string number_text(std::int64_t value);
/// Binds a value as the edit log keeps it to a parameter of the column's kind; a text that is no number is refused by
/// an SqliteError.
void bind_text(sqlite::Run& run, int index, CellKind kind, const std::string& text);

} // namespace rillmark
