// SPDX-License-Identifier: GPL-3.0-or-later
#include "exchange/reduce_methods.h"
#include "exchange/row_places.h"
#include "power/friction.h"
#include "power/pipe_ageing.h"
#include "power/water_to_wire.h"

#include <algorithm>

namespace rillmark {

namespace {

constexpr ReduceField kColumns[] = {
    {"case", {}, false, false, "exchange.penstock.case"},
    {"flow", Quantity::Discharge, true, false, "exchange.penstock.flow"},
    {"gross_head", Quantity::Length, true, false, "exchange.penstock.gross_head"},
    {"length", Quantity::Length, true, false, "exchange.penstock.length"},
    {"bore", Quantity::Bore, true, false, "exchange.penstock.bore"},
    {"roughness", Quantity::Bore, true, false, "exchange.penstock.roughness"},
    {"minor_k", Quantity::Number, false, false, "exchange.penstock.minor_k"},
    {"water_temperature", Quantity::Temperature, false, false, "exchange.penstock.water_temperature"},
    {"latitude", Quantity::Coordinate, false, false, "exchange.penstock.latitude"},
    {"altitude", Quantity::Length, false, false, "exchange.penstock.altitude"},
    {"material", {}, false, false, "exchange.penstock.material"},
    {"years", Quantity::Number, false, false, "exchange.penstock.years"},
    {"u_flow", Quantity::Discharge, false, true, "exchange.penstock.uncertainty"},
    {"u_gross_head", Quantity::Length, false, true, "exchange.penstock.uncertainty"},
    {"u_length", Quantity::Length, false, true, "exchange.penstock.uncertainty"},
    {"u_bore", Quantity::Bore, false, true, "exchange.penstock.uncertainty"},
    {"u_roughness", Quantity::Bore, false, true, "exchange.penstock.uncertainty"},
    {"u_minor_k", Quantity::Number, false, true, "exchange.penstock.uncertainty"},
    {"u_water_temperature", Quantity::Temperature, false, true, "exchange.penstock.uncertainty"},
};
constexpr PlacedField kPlaces[] = {
    {"power.flow", "flow"},           {"power.gross_head", "gross_head"},
    {"power.pipe_length", "length"},  {"power.bore", "bore"},
    {"power.roughness", "roughness"}, {"power.minor_k", "minor_k"},
    {"power.latitude", "latitude"},   {"power.water_temperature", "water_temperature"},
    {"power.height", "altitude"},
};

Estimate estimate_of(const ReduceTable& table, std::size_t row, const std::string& column, double fallback = 0.0) {
    return {table.number(row, column).value_or(fallback), table.number(row, "u_" + column).value_or(0.0)};
}

ChainInput input_of(const ReduceTable& table, std::size_t row) {
    ChainInput input;
    input.flow_m3s = estimate_of(table, row, "flow");
    input.gross_head_m = estimate_of(table, row, "gross_head");
    input.pipes = {ChainPipe{{estimate_of(table, row, "length"), estimate_of(table, row, "minor_k")},
                             estimate_of(table, row, "bore"),
                             estimate_of(table, row, "roughness"),
                             {},
                             {}}};
    if (table.number(row, "water_temperature"))
        input.water_temperature_C = estimate_of(table, row, "water_temperature");
    input.latitude_deg = table.number(row, "latitude").value_or(input.latitude_deg);
    input.altitude_m = table.number(row, "altitude").value_or(input.altitude_m);
    return input;
}

std::string_view column_of(const Finding& finding) {
    // refusals of the properties of water name their input by their code alone
    if (finding.code == "power.water_temperature_out_of_range")
        return "water_temperature";
    if (finding.code == "power.latitude_out_of_range")
        return "latitude";
    if (finding.code == "power.height_out_of_range")
        return "altitude";
    if (finding.code == "power.too_rough_for_formula")
        return "roughness";
    const auto field = std::ranges::find(kPlaces, finding.where, &PlacedField::where);
    return field == std::end(kPlaces) ? std::string_view{} : field->column;
}

/// The chain of a row, after the years that its wall has aged.
Expected<ChainResult> chain_of(const ReduceTable& table, std::size_t row) {
    const ChainInput input = input_of(table, row);
    const std::optional<double> years = table.number(row, "years");
    if (!years)
        return water_to_wire(input);
    const std::string material[] = {table.text(row, "material")};
    if (material[0].empty())
        return table.at(refusal("exchange.cell_empty"), row, "material");
    const double ages[] = {*years};
    const Expected<std::vector<AgedChain>> aged = over_ages(input, material, ages);
    if (!aged)
        return table.at(aged.error(), row, aged.error().code == "power.age_out_of_range" ? "years" : "material");
    return aged->front().result;
}

/// The friction loss by the other formula, for a new wall of the row's material.
Expected<double> hazen_williams(const ReduceTable& table, std::size_t row) {
    const Expected<WallAgeing> wall = wall_ageing(table.text(row, "material"));
    if (!wall)
        return table.at(wall.error(), row, "material");
    return hazen_williams_loss_m(
        {table.number(row, "length").value_or(0.0), table.number(row, "bore").value_or(0.0), wall->hazen_williams_c},
        table.number(row, "flow").value_or(0.0));
}

Expected<void> reduce_case(const ReduceTable& table, std::size_t row, Reduction& reduction) {
    const Expected<ChainResult> computed = chain_of(table, row);
    if (!computed)
        return computed.error();
    const ChainResult& chain = *computed;
    for (const Finding& finding : chain.findings) {
        if (finding.severity == Severity::Refusal)
            return table.at(finding, row, column_of(finding));
        if (finding.code != "power.missing_cable") // a penstock ends at the turbine
            reduction.findings.push_back(table.at(finding, row));
    }
    std::string subject = table.text(row, "case");
    if (subject.empty() && table.size() > 1)
        subject = std::to_string(row + 1);
    const auto add = [&](const char* code, const std::optional<Estimate>& value, Quantity quantity) {
        if (value)
            reduction.results.push_back({code, subject, *value, quantity});
    };
    add("exchange.result.speed", chain.pipe_speed_ms, Quantity::Velocity);
    add("exchange.result.friction_loss", chain.friction_loss_m, Quantity::Length);
    if (!table.text(row, "material").empty()) {
        const Expected<double> beside_m = hazen_williams(table, row);
        if (!beside_m)
            return beside_m.error();
        add("exchange.result.hazen_williams_loss", Estimate{*beside_m, 0.0}, Quantity::Length);
    }
    add("exchange.result.minor_loss", chain.minor_loss_m, Quantity::Length);
    add("exchange.result.net_head", chain.net_head_m, Quantity::Length);
    add("exchange.result.gross_power", chain.gross_W, Quantity::Power);
    add("exchange.result.net_power", chain.net_W, Quantity::Power);
    if (chain.pipe_capacity_m3s)
        add("exchange.result.pipe_capacity", Estimate{*chain.pipe_capacity_m3s, 0.0}, Quantity::Discharge);
    return {};
}

Expected<Reduction> reduce_penstock(const ReduceTable& table) {
    Reduction reduction;
    for (std::size_t row = 0; row < table.size(); ++row)
        if (const Expected<void> done = reduce_case(table, row, reduction); !done)
            return done.error();
    return reduction;
}

} // namespace

const ReduceMethod& penstock_method() {
    static constexpr ReduceMethod method{"penstock", "exchange.method.penstock", kColumns, {}, reduce_penstock};
    return method;
}

} // namespace rillmark
