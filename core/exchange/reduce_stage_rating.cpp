// SPDX-License-Identifier: GPL-3.0-or-later
#include "exchange/reduce_methods.h"
#include "exchange/row_places.h"
#include "season/stage_rating.h"

#include <cmath>

namespace rillmark {

namespace {

constexpr ReduceField kColumns[] = {
    {"stage", Quantity::Length, true, false, "exchange.stage_rating.stage"},
    {"flow", Quantity::Discharge, false, false, "exchange.stage_rating.flow"},
    {"u_flow", Quantity::Discharge, false, true, "exchange.stage_rating.u_flow"},
    {"time", {}, false, false, "exchange.stage_rating.time"},
};
constexpr ReduceField kParameters[] = {
    {"zero_flow_stage", Quantity::Length, false, false, "exchange.stage_rating.zero_flow_stage"},
    {"flow_uncertainty", Quantity::Ratio, false, false, "exchange.stage_rating.flow_uncertainty", "0.07"},
    {"at", Quantity::Length, false, false, "exchange.stage_rating.at"},
};
constexpr PlacedField kPlaces[] = {{"stage_m", "stage"}, {"discharge_m3s", "flow"}};

void add_rated(const StageRating& rating, double stage_m, Reduction& reduction) {
    const RatedFlow flow = rating.at(stage_m);
    if (flow.range != RatedRange::Within)
        reduction.findings.push_back(
            warning(flow.range == RatedRange::NoFlow ? "flow.stage_no_flow" : "flow.stage_outside_rating", {},
                    {{"stage", stage_m, Quantity::Length},
                     {"lowest", rating.lowest_stage_m, Quantity::Length},
                     {"highest", rating.highest_stage_m, Quantity::Length}}));
    if (flow.range == RatedRange::NoFlow)
        return;
    reduction.results.push_back({"exchange.result.discharge", {}, flow.discharge, Quantity::Discharge});
    reduction.results.push_back({"exchange.result.discharge_lowest", {}, {flow.lowest, 0.0}, Quantity::Discharge});
    reduction.results.push_back({"exchange.result.discharge_highest", {}, {flow.highest, 0.0}, Quantity::Discharge});
}

ResultTable visit_table(const std::vector<StageVisit>& visits, const StageRating& rating) {
    ResultTable table{"exchange.table.visits",
                      {{"exchange.result.stage", Quantity::Length},
                       {"exchange.result.discharge", Quantity::Discharge},
                       {"exchange.result.rated", Quantity::Discharge},
                       {"exchange.result.deviation", Quantity::Ratio}},
                      {}};
    for (const StageVisit& visit : visits) {
        const Estimate rated = rating.at(visit.stage_m).discharge;
        table.rows.push_back({Estimate{visit.stage_m, 0.0}, Estimate{visit.discharge_m3s, 0.0}, rated,
                              Estimate{visit.discharge_m3s / rated.value - 1.0, 0.0}});
    }
    return table;
}

const char* range_name(RatedRange range) {
    switch (range) {
    case RatedRange::Below:
        return "below";
    case RatedRange::Within:
        return "within";
    case RatedRange::Above:
        return "above";
    case RatedRange::NoFlow:
        return "no flow";
    }
    return "";
}

/// The flows of the rows that have a stage alone: the log of the gauge.
ResultTable log_table(const ReduceTable& table, const std::vector<std::size_t>& log, const StageRating& rating) {
    ResultTable flows{"exchange.table.stage_log",
                      {{"exchange.result.time", {}},
                       {"exchange.result.stage", Quantity::Length},
                       {"exchange.result.discharge", Quantity::Discharge},
                       {"exchange.result.discharge_lowest", Quantity::Discharge},
                       {"exchange.result.discharge_highest", Quantity::Discharge},
                       {"exchange.result.rated_range", {}}},
                      {}};
    for (const std::size_t row : log) {
        const double stage_m = *table.number(row, "stage");
        const RatedFlow flow = rating.at(stage_m);
        std::vector<ResultTable::Cell>& cells = flows.rows.emplace_back();
        cells = {table.text(row, "time"), Estimate{stage_m, 0.0}, {}, {}, {}, range_name(flow.range)};
        if (flow.range != RatedRange::NoFlow) {
            cells[2] = flow.discharge;
            cells[3] = Estimate{flow.lowest, 0.0};
            cells[4] = Estimate{flow.highest, 0.0};
        }
    }
    return flows;
}

Expected<Reduction> reduce_stage_rating(const ReduceTable& table) {
    std::vector<StageVisit> visits;
    std::vector<std::size_t> rows;
    std::vector<std::size_t> log;
    for (std::size_t row = 0; row < table.size(); ++row) {
        const std::optional<double> flow_m3s = table.number(row, "flow");
        if (!flow_m3s) {
            log.push_back(row);
            continue;
        }
        visits.push_back({table.line(row), *table.number(row, "stage"), *flow_m3s, table.number(row, "u_flow"), false});
        rows.push_back(row);
    }
    const Expected<StageRating> rating =
        fit_stage_rating(visits, {table.parameter("zero_flow_stage"), *table.parameter("flow_uncertainty")});
    if (!rating)
        return RowPlaces{table, rows, kPlaces}.put(rating.error());
    const auto u = [&](std::size_t place) { return std::sqrt(rating->covariance[4 * place]); }; // its diagonal
    Reduction reduction;
    reduction.results = {{"exchange.result.rating_a", {}, {rating->a, rating->a * u(0)}, Quantity::Discharge},
                         {"exchange.result.rating_b", {}, {rating->b, u(1)}, Quantity::Number},
                         {"exchange.result.rating_h0", {}, {rating->h0_m, u(2)}, Quantity::Length},
                         {"exchange.result.scatter", {}, {rating->scatter_rel, 0.0}, Quantity::Ratio}};
    reduction.findings = rating->findings;
    if (const std::optional<double> stage_m = table.parameter("at"))
        add_rated(*rating, *stage_m, reduction);
    reduction.tables.push_back(visit_table(visits, *rating));
    if (!log.empty())
        reduction.tables.push_back(log_table(table, log, *rating));
    return reduction;
}

} // namespace

const ReduceMethod& stage_rating_method() {
    static constexpr ReduceMethod method{"stage-rating", "exchange.method.stage_rating", kColumns, kParameters,
                                         reduce_stage_rating};
    return method;
}

} // namespace rillmark
