// SPDX-License-Identifier: GPL-3.0-or-later
#include "exchange/reduce_methods.h"
#include "exchange/reduce_words.h"
#include "exchange/row_places.h"
#include "flow/salt_calibration.h"

namespace rillmark {

namespace {

constexpr ReduceField kColumns[] = {
    {"added", Quantity::Volume, true, false, "exchange.salt_calibration.added"},
    {"ec", Quantity::Conductivity, true, false, "exchange.salt_calibration.ec"},
};
constexpr ReduceField kParameters[] = {
    {"sample", Quantity::Volume, false, false, "exchange.salt_calibration.sample"},
    {"solution", Quantity::Density, false, false, "exchange.salt_calibration.solution"},
    {"solvent_ec", Quantity::Conductivity, false, false, "exchange.salt_calibration.solvent_ec"},
    {"sample_uncertainty", Quantity::Ratio, false, false, "exchange.salt_calibration.sample_uncertainty", "0.005"},
    {"solution_uncertainty", Quantity::Ratio, false, false, "exchange.salt_calibration.solution_uncertainty", "0.005"},
    {"added_uncertainty", Quantity::Ratio, false, false, "exchange.salt_calibration.added_uncertainty", "0.005"},
    {"resolution", Quantity::Conductivity, false, false, "exchange.salt_calibration.resolution", "1 uS/cm"},
};
constexpr PlacedField kPlaces[] = {{"added_m3", "added"}, {"ec_Sm", "ec"}};

Expected<Reduction> reduce_salt_calibration(const ReduceTable& table) {
    for (const char* needed : {"sample", "solution"})
        if (!table.parameter(needed))
            return parameter_missing(needed);
    SaltCalibrationInput input;
    input.sample_m3 = *table.parameter("sample");
    input.solution_kgm3 = *table.parameter("solution");
    input.solvent_ec_Sm = table.parameter("solvent_ec");
    input.sample_u_rel = *table.parameter("sample_uncertainty");
    input.solution_u_rel = *table.parameter("solution_uncertainty");
    input.added_u_rel = *table.parameter("added_uncertainty");
    input.resolution_Sm = *table.parameter("resolution");
    std::vector<std::size_t> rows;
    for (std::size_t row = 0; row < table.size(); ++row) {
        input.additions.push_back({table.line(row), *table.number(row, "added"), *table.number(row, "ec"), false});
        rows.push_back(row);
    }
    const RowPlaces places{table, rows, kPlaces};
    const Expected<SaltCalibration> calibration = salt_calibration(input);
    if (!calibration)
        return places.put(calibration.error());

    const Estimate& factor = calibration->factor.estimate;
    Reduction reduction;
    reduction.results = {
        {"exchange.result.calibration_factor",
         {},
         {factor.value / factor_unit(), factor.standard_uncertainty / factor_unit()},
         Quantity::Number},
        {"exchange.result.calibration_scatter", {}, {calibration->line.scatter_kgm3, 0.0}, Quantity::Density},
        {"exchange.result.calibrated_to", {}, {calibration->highest_ec_Sm, 0.0}, Quantity::Conductivity}};
    ResultTable points{"exchange.table.calibration",
                       {{"exchange.result.conductivity", Quantity::Conductivity},
                        {"exchange.result.concentration", Quantity::Density},
                        {"exchange.result.off_line", Quantity::Density}},
                       {}};
    for (const CalibrationPoint& point : calibration->points)
        points.rows.push_back({Estimate{point.ec_Sm, 0.0}, Estimate{point.concentration_kgm3, 0.0},
                               Estimate{point.concentration_kgm3 - calibration->line.intercept_kgm3 -
                                            calibration->line.slope * point.ec_Sm,
                                        0.0}});
    reduction.tables.push_back(std::move(points));
    for (const Finding& finding : calibration->findings)
        reduction.findings.push_back(places.put(finding));
    return reduction;
}

} // namespace

const ReduceMethod& salt_calibration_method() {
    static constexpr ReduceMethod method{"salt-calibration", "exchange.method.salt_calibration", kColumns, kParameters,
                                         reduce_salt_calibration};
    return method;
}

} // namespace rillmark
