// SPDX-License-Identifier: GPL-3.0-or-later
#include "exchange/reduce_rises.h"

#include "heights/sum_of_rises.h"

#include <algorithm>

namespace rillmark {

namespace {

/// A finding about the only item of a row, at its place in the file.
Finding placed(const ReduceTable& table, std::span<const PlacedField> places, std::size_t row, Finding finding) {
    if (std::ranges::find(finding.args, "row", &Arg::name) == finding.args.end())
        finding.args.push_back({"row", std::int64_t{1}});
    const std::vector<std::size_t> rows{row};
    return RowPlaces{table, rows, places}.put(std::move(finding));
}

bool joins(const ReduceTable& table, std::size_t row) {
    if (row == 0)
        return true;
    const std::string& end = table.text(row - 1, "to");
    const std::string& begin = table.text(row, "from");
    return end.empty() || begin.empty() || end == begin;
}

std::vector<ResultTable::Column> columns_of(bool with_distances) {
    std::vector<ResultTable::Column> columns{
        {"exchange.result.from", {}}, {"exchange.result.to", {}}, {"exchange.result.stretch_rise", Quantity::Length}};
    if (with_distances) {
        columns.push_back({"exchange.result.level_distance", Quantity::Length});
        columns.push_back({"exchange.result.slope_distance", Quantity::Length});
    }
    return columns;
}

std::vector<ResultTable::Cell> cells_of(const ReduceTable& table, std::size_t row, const RowRise& measured) {
    std::vector<ResultTable::Cell> cells{table.text(row, "from"), table.text(row, "to"), measured.rise.estimate()};
    if (measured.level_distance_m)
        cells.push_back(*measured.level_distance_m);
    if (measured.slope_distance_m)
        cells.push_back(*measured.slope_distance_m);
    return cells;
}

} // namespace

Expected<Reduction> reduce_rises(const ReduceTable& table, std::span<const PlacedField> places,
                                 const RiseOfRow& rise_of) {
    Reduction reduction;
    std::vector<MeasuredRise> rises;
    ResultTable stretches{"exchange.table.stretches", {}, {}};
    bool joined = true;
    for (std::size_t row = 0; row < table.size(); ++row) {
        const Expected<RowRise> measured = rise_of(row);
        if (!measured)
            return placed(table, places, row, measured.error());
        for (const Finding& finding : measured->rise.findings)
            reduction.findings.push_back(placed(table, places, row, finding));
        if (!joins(table, row)) {
            joined = false;
            reduction.findings.push_back(
                table.at(warning("exchange.stretches_not_joined", {},
                                 {{"from", table.text(row, "from")}, {"before", table.text(row - 1, "to")}}),
                         row, "from"));
        }
        stretches.columns = columns_of(measured->level_distance_m.has_value());
        stretches.rows.push_back(cells_of(table, row, *measured));
        rises.push_back(measured->rise);
    }
    const Expected<MeasuredRise> sum = sum_of_rises(rises);
    if (!sum)
        return sum.error();
    if (joined) {
        const Estimate rise = sum->estimate();
        reduction.results = {{"exchange.result.rise", {}, rise, Quantity::Length},
                             {"exchange.result.fall", {}, {-rise.value, rise.standard_uncertainty}, Quantity::Length}};
    }
    reduction.results.push_back(
        {"exchange.result.stretches", {}, {static_cast<double>(rises.size()), 0.0}, Quantity::Number});
    reduction.tables.push_back(std::move(stretches));
    return reduction;
}

Expected<bool> leads_down(const ReduceTable& table, std::size_t row) {
    const std::string& direction = table.text(row, "direction");
    if (direction != "down" && direction != "up" && !direction.empty())
        return refusal("exchange.direction_unknown", "direction", {{"cell", direction}});
    return direction == "down";
}

Expected<GivenDistance> given_distance(const ReduceTable& table, std::size_t row, const std::string& prefix) {
    const std::optional<double> slope_m = table.number(row, prefix + "slope_distance");
    const std::optional<double> level_m = table.number(row, prefix + "level_distance");
    if (slope_m.has_value() == level_m.has_value())
        return refusal("exchange.one_distance", prefix + "slope_distance");
    return slope_m ? GivenDistance{*slope_m, SightDistance::Slope} : GivenDistance{*level_m, SightDistance::Level};
}

} // namespace rillmark
