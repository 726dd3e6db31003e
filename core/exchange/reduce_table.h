// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "exchange/csv.h"
#include "expected.h"
#include "units/units.h"

#include <cstddef>
#include <map>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace rillmark {

/// A column or parameter that a method takes.
struct ReduceField {
    std::string_view name;
    std::optional<Quantity> quantity; // none: text
    bool required = false;
    bool difference = false;        // an uncertainty: the zero of a temperature scale does not enter
    std::string_view what = {};     // code of its description, worded by the UI
    std::string_view fallback = {}; // parameters: what holds when it is not given, as it would be typed
};

/// A parameter as given beside the file.
struct TypedParameter {
    std::string name; // "rating_a" or "start_level_ft"
    std::string value;
};

/// The unit of a field whose header names none: the SI unit, and degrees for angles.
[[nodiscard]] Unit plain_unit(Quantity quantity);

/// A parameter as read.
struct ReduceValue {
    std::string text;         // as typed
    std::optional<double> si; // where it is a quantity
};

/// The cells of a file that a method asked for, read and brought to SI.
class ReduceTable {
public:
    [[nodiscard]] std::size_t size() const { return m_lines.size(); }
    [[nodiscard]] std::int64_t line(std::size_t row) const { return m_lines[row]; }

    /// The value of a cell; nothing for an empty cell, for one of text and for a column that the file has not. `field`
    /// is one of the method's columns.
    [[nodiscard]] std::optional<double> number(std::size_t row, std::string_view field) const;
    /// The text of a cell, as typed; empty where there is none.
    [[nodiscard]] const std::string& text(std::size_t row, std::string_view field) const;
    [[nodiscard]] bool has_column(std::string_view field) const { return m_columns.contains(field); }
    /// Whether a cell is there and not empty.
    [[nodiscard]] bool has(std::size_t row, std::string_view field) const;

    [[nodiscard]] std::optional<double> parameter(std::string_view field) const;
    [[nodiscard]] const std::string& text_parameter(std::string_view field) const;

    /// The finding with the place of a cell.
    [[nodiscard]] Finding at(Finding finding, std::size_t row, std::string_view field) const;
    /// The finding with the place of a row.
    [[nodiscard]] Finding at(Finding finding, std::size_t row) const { return at(std::move(finding), row, {}); }

private:
    struct Column {
        std::vector<std::string> texts;
        std::vector<std::optional<double>> numbers; // empty of a column of text
    };
    friend Expected<ReduceTable> read_reduce_table(const CsvTable&, std::span<const ReduceField>,
                                                   std::span<const ReduceField>, const std::vector<TypedParameter>&);
    std::string m_file;
    std::vector<std::int64_t> m_lines;
    std::map<std::string_view, Column, std::less<>> m_columns;
    std::map<std::string_view, ReduceValue, std::less<>> m_parameters;
};

/// Reads the columns and parameters that a method takes.
///
/// A header or parameter is the name of a field, or the name, `_` and a unit in which `_` stands for `/`: `depth_ft`,
/// `velocity_ft_s`, `discharge_L_s`; case does not count. Without a unit it is plain_unit. A cell may carry its own
/// unit. In a file separated by semicolons the decimal mark is the comma if any cell is a number with a comma, else,
/// and in every other file, the point; parse_quantity says what either makes of the other mark.
///
/// Refuses, with the place: `exchange.column_unknown`, `exchange.column_unit_unknown`, `exchange.column_twice`,
/// `exchange.column_missing`, `exchange.cell_empty` (of a required column), what parse_quantity refuses of a cell, and
/// `exchange.parameter_unknown`, `exchange.parameter_unit_unknown`, `exchange.parameter_twice` and what parse_quantity
/// refuses of a parameter (argument `parameter`).
[[nodiscard]] Expected<ReduceTable> read_reduce_table(const CsvTable& table, std::span<const ReduceField> columns,
                                                      std::span<const ReduceField> parameters,
                                                      const std::vector<TypedParameter>& typed);

} // namespace rillmark
