// SPDX-License-Identifier: GPL-3.0-or-later
#include "exchange/head_table.h"

#include "exchange/row_places.h"

#include <cstddef>
#include <utility>

namespace rillmark {

std::vector<HeadReading> head_readings(const ReduceTable& table) {
    std::vector<HeadReading> readings;
    for (std::size_t row = 0; row < table.size(); ++row)
        readings.push_back({table.line(row), *table.number(row, "head"), false});
    return readings;
}

HeadGauge head_gauge(const ReduceTable& table) {
    return {*table.parameter("zero"), *table.parameter("reading_uncertainty"), *table.parameter("zero_uncertainty")};
}

Finding head_place(const ReduceTable& table, Finding finding) {
    static constexpr PlacedField kPlaces[] = {{"reading_m", "head"}};
    std::vector<std::size_t> rows(table.size());
    for (std::size_t row = 0; row < rows.size(); ++row)
        rows[row] = row;
    return RowPlaces{table, rows, kPlaces}.put(std::move(finding));
}

Reduction head_reduction(const ReduceTable& table, const FlowResult& flow, double head_m) {
    Reduction reduction;
    reduction.results = {{"exchange.result.discharge", {}, flow.discharge.estimate, Quantity::Discharge},
                         {"exchange.result.head", {}, {head_m, 0.0}, Quantity::Length}};
    for (const Finding& finding : flow.findings)
        reduction.findings.push_back(head_place(table, finding));
    return reduction;
}

} // namespace rillmark
