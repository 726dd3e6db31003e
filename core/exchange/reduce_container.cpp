// SPDX-License-Identifier: GPL-3.0-or-later
#include "exchange/reduce_methods.h"
#include "exchange/row_places.h"
#include "flow/container.h"

namespace rillmark {

namespace {

constexpr ReduceField kColumns[] = {
    {"volume", Quantity::Volume, false, false, "exchange.container.volume"},
    {"full", Quantity::Mass, false, false, "exchange.container.full"},
    {"empty", Quantity::Mass, false, false, "exchange.container.empty"},
    {"temperature", Quantity::Temperature, false, false, "exchange.container.temperature"},
    {"time", Quantity::Time, true, false, "exchange.container.time"},
};
constexpr ReduceField kParameters[] = {
    {"volume_uncertainty", Quantity::Ratio, false, false, "exchange.container.volume_uncertainty", "0.01"},
    {"reaction", Quantity::Time, false, false, "exchange.container.reaction", "0.2"},
};
constexpr PlacedField kPlaces[] = {{"volume_m3", "volume"}, {"time_s", "time"}};

/// The volume of a row: as read at a mark, or weighed.
Expected<double> volume_m3(const ReduceTable& table, std::size_t row) {
    const std::optional<double> full_kg = table.number(row, "full");
    const std::optional<double> empty_kg = table.number(row, "empty");
    if (const std::optional<double> marked = table.number(row, "volume")) {
        if (full_kg || empty_kg)
            return table.at(refusal("exchange.volume_twice"), row, "volume");
        return *marked;
    }
    if (!full_kg)
        return table.at(refusal("exchange.cell_empty"), row, empty_kg ? "full" : "volume");
    if (!empty_kg)
        return table.at(refusal("exchange.cell_empty"), row, "empty");
    const Expected<double> weighed =
        weighed_volume_m3(*full_kg, *empty_kg, table.number(row, "temperature").value_or(kAssumedWater_C));
    if (!weighed)
        return table.at(weighed.error(), row, weighed.error().code == "flow.bad_weight" ? "full" : "temperature");
    return *weighed;
}

Expected<Reduction> reduce_container(const ReduceTable& table) {
    std::vector<ContainerFill> fills;
    for (std::size_t row = 0; row < table.size(); ++row) {
        const Expected<double> volume = volume_m3(table, row);
        if (!volume)
            return volume.error();
        fills.push_back({table.line(row), *volume, *table.number(row, "time"), false});
    }
    std::vector<std::size_t> rows(fills.size());
    for (std::size_t row = 0; row < rows.size(); ++row)
        rows[row] = row;
    const RowPlaces places{table, rows, kPlaces};

    const Expected<FlowResult> flow =
        container(fills, {*table.parameter("volume_uncertainty"), *table.parameter("reaction")});
    if (!flow)
        return places.put(flow.error());
    Reduction reduction;
    reduction.results = {{"exchange.result.discharge", {}, flow->discharge.estimate, Quantity::Discharge},
                         {"exchange.result.fills", {}, {static_cast<double>(fills.size()), 0.0}, Quantity::Number}};
    ResultTable each{"exchange.table.fills",
                     {{"exchange.result.volume", Quantity::Volume},
                      {"exchange.result.time", Quantity::Time},
                      {"exchange.result.discharge", Quantity::Discharge}},
                     {}};
    for (const ContainerFill& fill : fills)
        each.rows.push_back(
            {Estimate{fill.volume_m3, 0.0}, Estimate{fill.time_s, 0.0}, Estimate{fill.volume_m3 / fill.time_s, 0.0}});
    reduction.tables.push_back(std::move(each));
    for (const Finding& finding : flow->findings)
        reduction.findings.push_back(places.put(finding));
    return reduction;
}

} // namespace

const ReduceMethod& container_method() {
    static constexpr ReduceMethod method{"container", "exchange.method.container", kColumns, kParameters,
                                         reduce_container};
    return method;
}

} // namespace rillmark
