// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "embedded_text.h"
#include "exchange/csv.h"
#include "expected.h"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace rillmark {

/// One of our own tables. The first thing that is wrong with it is kept in `fault`; reading goes on with empty values,
/// so that the code of a table stays a plain list of its columns.
class TableReader {
public:
    TableReader(std::span<const EmbeddedText> texts, std::string_view file) : m_file(file) {
        const auto text =
            std::find_if(texts.begin(), texts.end(), [&](const EmbeddedText& t) { return t.file == file; });
        if (text == texts.end()) {
            m_fault = refusal("power.table_missing", m_file);
            return;
        }
        Expected<CsvTable> csv = read_csv(text->text, m_file);
        if (csv)
            m_csv = std::move(csv).value();
        else
            m_fault = csv.error();
    }

    [[nodiscard]] std::size_t size() const { return m_csv.size(); }
    [[nodiscard]] const std::optional<Finding>& fault() const { return m_fault; }

    std::string text(std::size_t row, const char* column) {
        const auto found = std::find(m_csv.header.begin(), m_csv.header.end(), column);
        if (found == m_csv.header.end()) {
            keep(refusal("power.table_column_missing", m_file, {{"column", std::string(column)}}));
            return {};
        }
        const auto index = static_cast<std::size_t>(found - m_csv.header.begin());
        return std::string(m_csv.cell(row, index));
    }

    double number(std::size_t row, const char* column) {
        const std::string cell = text(row, column);
        double value = 0.0;
        const auto [end, error] = std::from_chars(cell.data(), cell.data() + cell.size(), value);
        if (error != std::errc{} || end != cell.data() + cell.size() || !std::isfinite(value) || value <= 0.0)
            bad_cell(row, column, cell);
        return value;
    }

    std::optional<double> number_if_any(std::size_t row, const char* column) {
        if (text(row, column).empty())
            return std::nullopt;
        return number(row, column);
    }

private:
    void keep(Finding fault) {
        if (!m_fault)
            m_fault = std::move(fault);
    }
    void bad_cell(std::size_t row, const char* column, const std::string& cell) {
        keep(refusal("power.table_bad_cell", m_file,
                     {{"line", m_csv.line(row)}, {"column", std::string(column)}, {"cell", cell}}));
    }

    std::string m_file;
    CsvTable m_csv;
    std::optional<Finding> m_fault;
};

template <class Item>
using ReadRow = Item (*)(TableReader&, std::size_t);

template <class Item>
Expected<std::vector<Item>> read_table(TableReader table, ReadRow<Item> read_row) {
    std::vector<Item> items;
    for (std::size_t row = 0; row < table.size(); ++row)
        items.push_back(read_row(table, row));
    if (table.fault())
        return *table.fault();
    return items;
}

} // namespace rillmark
