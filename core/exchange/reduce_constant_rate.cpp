// SPDX-License-Identifier: GPL-3.0-or-later
#include "exchange/reduce_methods.h"
#include "exchange/reduce_words.h"
#include "exchange/row_places.h"
#include "flow/constant_rate.h"
#include "flow/salt_calibration.h"

namespace rillmark {

namespace {

constexpr ReduceField kColumns[] = {
    {"background", Quantity::Density, false, false, "exchange.constant_rate.background"},
    {"plateau", Quantity::Density, false, false, "exchange.constant_rate.plateau"},
    {"background_ec", Quantity::Conductivity, false, false, "exchange.constant_rate.background_ec"},
    {"plateau_ec", Quantity::Conductivity, false, false, "exchange.constant_rate.plateau_ec"},
};
constexpr ReduceField kParameters[] = {
    {"injection", Quantity::Discharge, false, false, "exchange.constant_rate.injection"},
    {"injection_uncertainty", Quantity::Ratio, false, false, "exchange.constant_rate.injection_uncertainty", "0.01"},
    {"tracer", Quantity::Density, false, false, "exchange.constant_rate.tracer"},
    {"tracer_uncertainty", Quantity::Ratio, false, false, "exchange.constant_rate.tracer_uncertainty", "0.01"},
    {"factor", Quantity::Number, false, false, "exchange.salt_slug.factor"},
    {"factor_uncertainty", Quantity::Ratio, false, false, "exchange.salt_slug.factor_uncertainty"},
    {"mixing_uncertainty", Quantity::Ratio, false, false, "exchange.salt_slug.mixing_uncertainty", "0.03"},
};

/// The cells of a column that are filled, and their rows.
struct Readings {
    std::vector<double> values;
    std::vector<std::size_t> rows;
};

Readings readings_of(const ReduceTable& table, std::string_view column) {
    Readings readings;
    for (std::size_t row = 0; row < table.size(); ++row)
        if (const std::optional<double> value = table.number(row, column)) {
            readings.values.push_back(*value);
            readings.rows.push_back(row);
        }
    return readings;
}

Expected<Reduction> reduce_constant_rate(const ReduceTable& table) {
    for (const char* needed : {"injection", "tracer"})
        if (!table.parameter(needed))
            return parameter_missing(needed);
    const bool by_ec = table.has_column("background_ec") || table.has_column("plateau_ec");
    if (by_ec && (table.has_column("background") || table.has_column("plateau")))
        return refusal("exchange.readings_mixed");
    const std::string_view background_column = by_ec ? "background_ec" : "background";
    const std::string_view plateau_column = by_ec ? "plateau_ec" : "plateau";
    const Readings background = readings_of(table, background_column);
    const Readings plateau = readings_of(table, plateau_column);

    ConstantRateInput input;
    const double injection_m3s = *table.parameter("injection");
    const double tracer_kgm3 = *table.parameter("tracer");
    input.injection_m3s = {injection_m3s, injection_m3s * *table.parameter("injection_uncertainty")};
    input.tracer_kgm3 = {tracer_kgm3, tracer_kgm3 * *table.parameter("tracer_uncertainty")};
    input.background = background.values;
    input.plateau = plateau.values;
    input.mixing_u_rel = *table.parameter("mixing_uncertainty");
    if (by_ec) {
        const double generic_rel = kGenericSaltFactor.standard_uncertainty / kGenericSaltFactor.value;
        const double factor =
            table.parameter("factor").value_or(kGenericSaltFactor.value / factor_unit()) * factor_unit();
        input.factor = Estimate{factor, factor * table.parameter("factor_uncertainty").value_or(generic_rel)};
    }
    const Expected<ConstantRateResult> gauging = constant_rate(input);
    if (!gauging) {
        const bool of_plateau = gauging.error().where == "plateau";
        const PlacedField place[] = {
            {of_plateau ? "plateau" : "background", of_plateau ? plateau_column : background_column}};
        return RowPlaces{table, of_plateau ? plateau.rows : background.rows, place}.put(gauging.error());
    }
    Reduction reduction;
    reduction.results = {
        {"exchange.result.discharge", {}, gauging->flow.discharge.estimate, Quantity::Discharge},
        {"exchange.result.discharge_at_sampler", {}, {gauging->at_sampler_m3s, 0.0}, Quantity::Discharge},
        {"exchange.result.plateau_rise", {}, {gauging->rise_kgm3, 0.0}, Quantity::Density}};
    reduction.findings = gauging->flow.findings;
    return reduction;
}

} // namespace

const ReduceMethod& constant_rate_method() {
    static constexpr ReduceMethod method{"constant-rate", "exchange.method.constant_rate", kColumns, kParameters,
                                         reduce_constant_rate};
    return method;
}

} // namespace rillmark
