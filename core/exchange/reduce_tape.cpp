// SPDX-License-Identifier: GPL-3.0-or-later
#include "exchange/reduce_methods.h"
#include "exchange/reduce_rises.h"
#include "exchange/reduce_words.h"
#include "heights/taped_distance.h"

#include <cmath>

namespace rillmark {

namespace {

constexpr ReduceField kColumns[] = {
    kFromColumn,
    kToColumn,
    {"slope_distance", Quantity::Length, false, false, "exchange.tape.slope_distance"},
    {"level_distance", Quantity::Length, false, false, "exchange.tape.level_distance"},
    {"lengths", Quantity::Number, false, false, "exchange.tape.lengths"},
    {"rise", Quantity::Length, false, false, "exchange.tape.rise"},
    {"rise_uncertainty", Quantity::Length, false, true, "exchange.tape.rise_uncertainty"},
};
constexpr ReduceField kParameters[] = {
    {"instrument", {}, false, false, "exchange.tape.instrument", "tape"},
};
constexpr ReduceWord<DistancePrecision> kInstruments[] = {{"tape", kTapePrecision}, {"laser", kLaserPrecision}};
constexpr PlacedField kPlaces[] = {
    {"levels.tape_lengths", "lengths"}, {"levels.rise", "rise"}, {"levels.rise_uncertainty", "rise_uncertainty"}};

struct Row {
    ReducedDistance distance;
    Findings findings;
};

/// Where both distances are given each counts as measured, and the rise only judges them.
Expected<Row> reduced_row(const ReduceTable& table, std::size_t row, const DistancePrecision& precision) {
    const double lengths = table.number(row, "lengths").value_or(1.0);
    if (!(lengths >= 1.0 && lengths <= 1e4) || lengths != std::floor(lengths))
        return refusal("exchange.not_whole", "levels.tape_lengths", {{"value", lengths, Quantity::Number}});
    const Estimate rise{table.number(row, "rise").value_or(0.0), table.number(row, "rise_uncertainty").value_or(0.0)};
    const auto measured = [&](double length_m, SightDistance is) {
        return taped_distance({length_m, is, static_cast<int>(lengths), precision}, rise);
    };
    const std::optional<double> slope_m = table.number(row, "slope_distance");
    const std::optional<double> level_m = table.number(row, "level_distance");
    if (!slope_m && !level_m)
        return refusal("exchange.no_distance", "slope_distance");
    Expected<ReducedDistance> by_slope = slope_m ? measured(*slope_m, SightDistance::Slope) : ReducedDistance{};
    Expected<ReducedDistance> by_level = level_m ? measured(*level_m, SightDistance::Level) : ReducedDistance{};
    if (!by_slope)
        return by_slope.error();
    if (!by_level)
        return by_level.error();
    if (!slope_m || !level_m)
        return Row{slope_m ? *by_slope : *by_level, {}};
    const ReducedDistance both{by_level->level_m, by_slope->slope_m};
    return Row{both, judge_distances(both, rise)};
}

Finding placed(const ReduceTable& table, std::size_t row, Finding finding) {
    finding.args.push_back({"row", std::int64_t{1}});
    const std::vector<std::size_t> rows{row};
    const bool is_distance = finding.where == "levels.distance";
    const PlacedField distance{"levels.distance",
                               table.number(row, "slope_distance") ? "slope_distance" : "level_distance"};
    return RowPlaces{table, rows, is_distance ? std::span(&distance, 1) : std::span<const PlacedField>(kPlaces)}.put(
        std::move(finding));
}

Expected<Reduction> reduce_tape(const ReduceTable& table) {
    const Expected<DistancePrecision> precision = word_parameter<DistancePrecision>(table, "instrument", kInstruments);
    if (!precision)
        return precision.error();
    Reduction reduction;
    ResultTable stretches{"exchange.table.stretches",
                          {{"exchange.result.from", {}},
                           {"exchange.result.to", {}},
                           {"exchange.result.level_distance", Quantity::Length},
                           {"exchange.result.slope_distance", Quantity::Length}},
                          {}};
    ReducedDistance sum;
    // what goes with the length is one error of the whole line; what goes with the laying is one of each stretch
    double own_variance = 0.0;
    for (std::size_t row = 0; row < table.size(); ++row) {
        const Expected<Row> one = reduced_row(table, row, *precision);
        if (!one)
            return placed(table, row, one.error());
        for (const Finding& finding : one->findings)
            reduction.findings.push_back(placed(table, row, finding));
        stretches.rows.push_back(
            {table.text(row, "from"), table.text(row, "to"), one->distance.level_m, one->distance.slope_m});
        sum.level_m.value += one->distance.level_m.value;
        sum.slope_m.value += one->distance.slope_m.value;
        own_variance += precision->fixed_m * precision->fixed_m * table.number(row, "lengths").value_or(1.0);
    }
    const auto with_doubt = [&](double length_m) {
        return Estimate{length_m, std::hypot(precision->per_length * length_m, std::sqrt(own_variance))};
    };
    reduction.results = {{"exchange.result.level_distance", {}, with_doubt(sum.level_m.value), Quantity::Length},
                         {"exchange.result.slope_distance", {}, with_doubt(sum.slope_m.value), Quantity::Length},
                         {"exchange.result.stretches", {}, {static_cast<double>(table.size()), 0.0}, Quantity::Number}};
    reduction.tables.push_back(std::move(stretches));
    return reduction;
}

} // namespace

const ReduceMethod& tape_method() {
    static constexpr ReduceMethod method{"tape", "exchange.method.tape", kColumns, kParameters, reduce_tape};
    return method;
}

} // namespace rillmark
