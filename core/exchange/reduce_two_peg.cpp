// SPDX-License-Identifier: GPL-3.0-or-later
#include "exchange/level_parameters.h"
#include "exchange/reduce_methods.h"
#include "exchange/row_places.h"
#include "levelling/two_peg.h"

#include <numeric>

namespace rillmark {

namespace {

constexpr ReduceField kColumns[] = {
    {"distance_a", Quantity::Length, true, false, "exchange.two_peg.distance_a"},
    {"reading_a", Quantity::Length, true, false, "exchange.two_peg.reading_a"},
    {"distance_b", Quantity::Length, true, false, "exchange.two_peg.distance_b"},
    {"reading_b", Quantity::Length, true, false, "exchange.two_peg.reading_b"},
};
constexpr ReduceField kParameters[] = {
    {"reading_uncertainty", Quantity::Length, false, true, "exchange.two_peg.reading_uncertainty", "0.001"},
    {"limit", Quantity::Ratio, false, false, "exchange.two_peg.limit", "0.00003"},
    {"known_rise", Quantity::Length, false, false, "exchange.two_peg.known_rise"},
    {"known_rise_uncertainty", Quantity::Length, false, true, "exchange.two_peg.known_rise_uncertainty", "0.001"},
    kCurvatureParameter,
};
constexpr PlacedField kPlaces[] = {{"levels.distance_a", "distance_a"},
                                   {"levels.reading_a", "reading_a"},
                                   {"levels.distance_b", "distance_b"},
                                   {"levels.reading_b", "reading_b"}};
constexpr double kHundredMetres_m = 100.0;

Expected<TwoPegOptions> options_of(const ReduceTable& table) {
    const Expected<bool> curvature = yes_no_parameter(table, "curvature");
    if (!curvature)
        return curvature.error();
    TwoPegOptions options;
    options.reading_uncertainty_m = *table.parameter("reading_uncertainty");
    options.limit = *table.parameter("limit");
    if (const std::optional<double> rise_m = table.parameter("known_rise"))
        options.known_rise = Estimate{*rise_m, *table.parameter("known_rise_uncertainty")};
    if (*curvature)
        options.curvature = EarthCurvature{};
    return options;
}

Expected<Reduction> reduce_two_peg(const ReduceTable& table) {
    const Expected<TwoPegOptions> options = options_of(table);
    if (!options)
        return options.error();
    std::vector<PegSetup> setups;
    for (std::size_t row = 0; row < table.size(); ++row)
        setups.push_back({*table.number(row, "distance_a"), *table.number(row, "reading_a"),
                          *table.number(row, "distance_b"), *table.number(row, "reading_b")});
    std::vector<std::size_t> rows(setups.size());
    std::iota(rows.begin(), rows.end(), std::size_t{0});
    const RowPlaces places{table, rows, kPlaces};

    const Expected<TwoPegResult> test = two_peg(setups, *options);
    if (!test)
        return places.put(test.error());
    const Estimate e = test->collimation;
    Reduction reduction;
    reduction.results = {{"exchange.result.collimation", {}, e, Quantity::Ratio},
                         {"exchange.result.collimation_in_100_m",
                          {},
                          {e.value * kHundredMetres_m, e.standard_uncertainty * kHundredMetres_m},
                          Quantity::Length},
                         {"exchange.result.rise_a_to_b", {}, test->rise, Quantity::Length}};
    ResultTable right{"exchange.table.right_readings",
                      {{"exchange.result.right_reading_a", Quantity::Length},
                       {"exchange.result.right_reading_b", Quantity::Length}},
                      {}};
    for (const RightReadings& one : test->right_readings)
        right.rows.push_back({Estimate{one.a_m, 0.0}, Estimate{one.b_m, 0.0}});
    reduction.tables.push_back(std::move(right));
    reduction.findings = test->findings;
    return reduction;
}

} // namespace

const ReduceMethod& two_peg_method() {
    static constexpr ReduceMethod method{"two-peg", "exchange.method.two_peg", kColumns, kParameters, reduce_two_peg};
    return method;
}

} // namespace rillmark
