// SPDX-License-Identifier: GPL-3.0-or-later
#include "exchange/level_parameters.h"
#include "exchange/reduce_methods.h"
#include "levelling/reciprocal.h"

namespace rillmark {

namespace {

constexpr ReduceField kColumns[] = {
    {"crossing", {}, false, false, "exchange.reciprocal.crossing"},
    {"a_from_a", Quantity::Length, true, false, "exchange.reciprocal.a_from_a"},
    {"b_from_a", Quantity::Length, true, false, "exchange.reciprocal.b_from_a"},
    {"a_from_b", Quantity::Length, true, false, "exchange.reciprocal.a_from_b"},
    {"b_from_b", Quantity::Length, true, false, "exchange.reciprocal.b_from_b"},
    {"distance", Quantity::Length, false, false, "exchange.reciprocal.distance"},
};
constexpr ReduceField kParameters[] = {
    kCollimationParameter,
    kCollimationUncertaintyParameter,
    {"near_uncertainty", Quantity::Length, false, true, "exchange.reciprocal.near_uncertainty", "0.0015"},
    {"far_uncertainty", Quantity::Length, false, true, "exchange.reciprocal.far_uncertainty", "0.003"},
    {"refraction_change", Quantity::Number, false, true, "exchange.reciprocal.refraction_change", "0.1"},
};

/// The finding with the cell it is about; a bank (1 from A, 2 from B) is a pair of columns.
Finding placed(const ReduceTable& table, std::size_t row, Finding finding) {
    std::string_view column;
    if (finding.where == "levels.sight_length")
        column = "distance";
    for (Arg& arg : finding.args) {
        const auto* const bank = std::get_if<std::int64_t>(&arg.value);
        if (arg.name != "row" || bank == nullptr)
            continue;
        const bool staff_a = finding.where == "levels.reading_a";
        column = *bank == 1 ? (staff_a ? "a_from_a" : "b_from_a") : (staff_a ? "a_from_b" : "b_from_b");
        arg.value = table.line(row);
    }
    return table.at(std::move(finding), row, column);
}

Expected<Reduction> reduce_reciprocal(const ReduceTable& table) {
    ReciprocalOptions options;
    options.collimation = collimation_parameter(table);
    options.near_uncertainty_m = *table.parameter("near_uncertainty");
    options.far_uncertainty_m = *table.parameter("far_uncertainty");
    options.refraction_change = *table.parameter("refraction_change");
    Reduction reduction;
    for (std::size_t row = 0; row < table.size(); ++row) {
        const Expected<ReciprocalResult> crossing =
            reciprocal({{*table.number(row, "a_from_a"), *table.number(row, "b_from_a")},
                        {*table.number(row, "a_from_b"), *table.number(row, "b_from_b")},
                        table.number(row, "distance")},
                       options);
        if (!crossing)
            return placed(table, row, crossing.error());
        const std::string& name = table.text(row, "crossing");
        reduction.results.push_back({"exchange.result.rise_a_to_b", name, crossing->rise, Quantity::Length});
        reduction.results.push_back({"exchange.result.line_error", name, crossing->line_error, Quantity::Length});
        if (crossing->refraction_k)
            reduction.results.push_back(
                {"exchange.result.refraction", name, *crossing->refraction_k, Quantity::Number});
        for (const Finding& finding : crossing->findings)
            reduction.findings.push_back(placed(table, row, finding));
    }
    return reduction;
}

} // namespace

const ReduceMethod& reciprocal_method() {
    static constexpr ReduceMethod method{"reciprocal", "exchange.method.reciprocal", kColumns, kParameters,
                                         reduce_reciprocal};
    return method;
}

} // namespace rillmark
