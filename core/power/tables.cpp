// SPDX-License-Identifier: GPL-3.0-or-later
#include "power/tables.h"

#include "exchange/csv.h"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <cstdint>
#include <numbers>

namespace rillmark {

namespace {

// The largest wall is that much thicker than the smallest; common practice, from memory, unconfirmed.
constexpr double kWallTolerance = 0.12;
// Relative standard uncertainty of a design roughness; common practice, no source.
constexpr double kRoughnessUncertainty = 0.5;

Estimate rectangular(double lowest, double highest) {
    return {0.5 * (lowest + highest), 0.5 * (highest - lowest) / std::numbers::sqrt3};
}

/// One of our own tables. The first thing that is wrong with it is kept in `fault`; reading goes on with empty values,
/// so that the code of a table stays a plain list of its columns.
class Table {
public:
    Table(std::span<const EmbeddedText> texts, std::string_view file) : m_file(file) {
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

    [[nodiscard]] std::size_t size() const { return m_csv.rows.size(); }
    [[nodiscard]] const std::optional<Finding>& fault() const { return m_fault; }

    std::string text(std::size_t row, const char* column) {
        const auto found = std::find(m_csv.header.begin(), m_csv.header.end(), column);
        if (found == m_csv.header.end()) {
            keep(refusal("power.table_column_missing", m_file, {{"column", std::string(column)}}));
            return {};
        }
        const auto index = static_cast<std::size_t>(found - m_csv.header.begin());
        return m_csv.rows[row].cells[index];
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
                     {{"line", m_csv.rows[row].line}, {"column", std::string(column)}, {"cell", cell}}));
    }

    std::string m_file;
    CsvTable m_csv;
    std::optional<Finding> m_fault;
};

template <class Item>
using ReadRow = Item (*)(Table&, std::size_t);

template <class Item>
Expected<std::vector<Item>> read(Table table, ReadRow<Item> read_row) {
    std::vector<Item> items;
    for (std::size_t row = 0; row < table.size(); ++row)
        items.push_back(read_row(table, row));
    if (table.fault())
        return *table.fault();
    return items;
}

PipeSize read_pipe(Table& t, std::size_t row) {
    return {t.text(row, "id"),
            t.text(row, "label"),
            t.text(row, "material"),
            t.number(row, "outside_m"),
            t.number(row, "wall_m"),
            t.number(row, "bore_m"),
            t.number(row, "pressure_rating_Pa"),
            t.number(row, "roughness_m"),
            t.text(row, "source"),
            t.text(row, "provenance")};
}

Conductor read_conductor(Table& t, std::size_t row) {
    return {t.text(row, "id"),
            t.text(row, "label"),
            t.text(row, "material"),
            t.number(row, "area_m2"),
            t.number(row, "resistance_ohm_per_m"),
            t.number(row, "resistance_temperature_C"),
            t.number_if_any(row, "reactance_ohm_per_m"),
            t.text(row, "source"),
            t.text(row, "provenance")};
}

Fitting read_fitting(Table& t, std::size_t row) {
    return {t.text(row, "id"), t.text(row, "label"), t.number(row, "k"), t.text(row, "source"),
            t.text(row, "provenance")};
}

EfficiencyRange read_efficiency(Table& t, std::size_t row) {
    return {t.text(row, "id"),        t.text(row, "label"),  t.text(row, "kind"),      t.number(row, "lowest"),
            t.number(row, "highest"), t.text(row, "source"), t.text(row, "provenance")};
}

template <class Item>
Expected<Item> row_of(const std::vector<Item>& items, std::string_view id, const char* unknown) {
    const auto found = std::find_if(items.begin(), items.end(), [&](const Item& item) { return item.id == id; });
    if (found == items.end())
        return refusal(unknown, {}, {{"id", std::string(id)}});
    return *found;
}

} // namespace

Estimate PipeSize::bore() const {
    return {bore_m, rectangular(0.0, 2.0 * kWallTolerance * wall_m).standard_uncertainty};
}

Estimate PipeSize::roughness() const {
    return {roughness_m, kRoughnessUncertainty * roughness_m};
}

Estimate EfficiencyRange::estimate() const {
    return rectangular(lowest, highest);
}

Expected<PipeSize> PowerTables::pipe(std::string_view id) const {
    return row_of(pipes, id, "power.unknown_pipe");
}
Expected<Conductor> PowerTables::conductor(std::string_view id) const {
    return row_of(conductors, id, "power.unknown_conductor");
}
Expected<Fitting> PowerTables::fitting(std::string_view id) const {
    return row_of(fittings, id, "power.unknown_fitting");
}
Expected<EfficiencyRange> PowerTables::efficiency(std::string_view id) const {
    return row_of(efficiencies, id, "power.unknown_machine");
}

Expected<PowerTables> read_power_tables(std::span<const EmbeddedText> texts) {
    const auto pipes = read<PipeSize>(Table(texts, "pipes.csv"), read_pipe);
    if (!pipes)
        return pipes.error();
    const auto conductors = read<Conductor>(Table(texts, "conductors.csv"), read_conductor);
    if (!conductors)
        return conductors.error();
    const auto fittings = read<Fitting>(Table(texts, "fittings.csv"), read_fitting);
    if (!fittings)
        return fittings.error();
    const auto efficiencies = read<EfficiencyRange>(Table(texts, "efficiencies.csv"), read_efficiency);
    if (!efficiencies)
        return efficiencies.error();
    return PowerTables{*pipes, *conductors, *fittings, *efficiencies};
}

} // namespace rillmark
