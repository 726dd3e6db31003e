// SPDX-License-Identifier: GPL-3.0-or-later
#include "power/tables.h"

#include "power/table_reader.h"

#include <algorithm>
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

PipeSize read_pipe(TableReader& t, std::size_t row) {
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

Conductor read_conductor(TableReader& t, std::size_t row) {
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

Fitting read_fitting(TableReader& t, std::size_t row) {
    return {t.text(row, "id"), t.text(row, "label"), t.number(row, "k"), t.text(row, "source"),
            t.text(row, "provenance")};
}

EfficiencyRange read_efficiency(TableReader& t, std::size_t row) {
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
    const auto pipes = read_table<PipeSize>(TableReader(texts, "pipes.csv"), read_pipe);
    if (!pipes)
        return pipes.error();
    const auto conductors = read_table<Conductor>(TableReader(texts, "conductors.csv"), read_conductor);
    if (!conductors)
        return conductors.error();
    const auto fittings = read_table<Fitting>(TableReader(texts, "fittings.csv"), read_fitting);
    if (!fittings)
        return fittings.error();
    const auto efficiencies = read_table<EfficiencyRange>(TableReader(texts, "efficiencies.csv"), read_efficiency);
    if (!efficiencies)
        return efficiencies.error();
    return PowerTables{*pipes, *conductors, *fittings, *efficiencies};
}

} // namespace rillmark
