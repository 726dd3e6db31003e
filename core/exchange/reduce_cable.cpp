// SPDX-License-Identifier: GPL-3.0-or-later
#include "exchange/reduce_methods.h"
#include "exchange/row_places.h"
#include "power/cable_size.h"

#include <algorithm>
#include <iterator>

namespace rillmark {

namespace {

constexpr ReduceField kColumns[] = {
    {"case", {}, false, false, "exchange.penstock.case"},
    {"power", Quantity::Power, true, false, "exchange.cable.power"},
    {"length", Quantity::Length, true, false, "exchange.cable.length"},
    {"voltage", Quantity::Voltage, true, false, "exchange.cable.voltage"},
    {"system", {}, false, false, "exchange.cable.system"},
    {"power_factor", Quantity::Number, false, false, "exchange.cable.power_factor"},
    {"conductor", {}, false, false, "exchange.cable.conductor"},
    {"material", {}, false, false, "exchange.cable.material"},
    {"sizes", {}, false, false, "exchange.cable.sizes"},
    {"largest_loss", Quantity::Ratio, false, false, "exchange.cable.largest_loss"},
    {"conductor_temperature", Quantity::Temperature, false, false, "exchange.cable.temperature"},
};
constexpr PlacedField kPlaces[] = {
    {"power.cable_power", "power"},       {"power.cable_length", "length"},
    {"power.voltage", "voltage"},         {"power.power_factor", "power_factor"},
    {"power.cable_loss", "largest_loss"}, {"power.conductor_temperature", "conductor_temperature"},
};

std::optional<Current> current_of(const std::string& text) {
    if (text.empty() || text == "single-phase")
        return Current::SinglePhase;
    if (text == "three-phase")
        return Current::ThreePhase;
    return text == "dc" ? std::optional(Current::Direct) : std::nullopt;
}

Expected<SizedConductor> named(const PowerTables& tables, const std::string& id, const CableDemand& demand) {
    const Expected<Conductor> conductor = tables.conductor(id);
    if (!conductor)
        return conductor.error();
    const Expected<double> resistance = resistance_at_ohm_per_m(*conductor, demand.conductor_temperature_C);
    if (!resistance)
        return resistance.error();
    CableRun cable = demand.cable;
    cable.resistance_ohm_per_m = *resistance;
    cable.reactance_ohm_per_m = conductor->reactance_ohm_per_m.value_or(0.0);
    const Expected<CableLoss> loss = cable_from_sent(cable, demand.sent_W);
    if (!loss)
        return loss.error();
    return SizedConductor{*conductor, *loss};
}

/// The conductor of the row, or the thinnest of its material and list of sizes that loses no more than the row allows.
Expected<SizedConductor> conductor_of(const ReduceTable& table, std::size_t row, const PowerTables& tables,
                                      const CableDemand& demand) {
    const std::string id = table.text(row, "conductor");
    if (!id.empty())
        return named(tables, id, demand);
    if (!table.number(row, "largest_loss"))
        return refusal("exchange.conductor_or_loss");
    std::string material = table.text(row, "material");
    if (material.empty())
        material = "copper";
    std::string sizes = table.text(row, "sizes");
    if (sizes.empty())
        sizes = "iec";
    std::vector<Conductor> conductors;
    std::ranges::copy_if(tables.conductors, std::back_inserter(conductors), [&](const Conductor& one) {
        return one.material == material && one.id.starts_with(sizes + "-");
    });
    if (conductors.empty())
        return refusal("exchange.no_such_conductors", {}, {{"material", material}, {"sizes", sizes}});
    return conductor_for_loss(conductors, demand);
}

std::string_view column_of(const Finding& finding) {
    if (finding.code == "exchange.no_such_conductors")
        return "sizes";
    if (finding.code == "power.unknown_conductor" || finding.code == "exchange.conductor_or_loss")
        return "conductor";
    const auto field = std::ranges::find(kPlaces, finding.where, &PlacedField::where);
    return field == std::end(kPlaces) ? std::string_view{} : field->column;
}

Expected<void> reduce_case(const ReduceTable& table, std::size_t row, const PowerTables& tables, Reduction& reduction) {
    const std::optional<Current> system = current_of(table.text(row, "system"));
    if (!system)
        return table.at(refusal("exchange.current_unknown", {}, {{"text", table.text(row, "system")}}), row, "system");
    CableDemand demand;
    demand.cable.system = *system;
    demand.cable.length_m = table.number(row, "length").value_or(0.0);
    demand.cable.voltage_V = table.number(row, "voltage").value_or(0.0);
    demand.cable.power_factor = table.number(row, "power_factor").value_or(1.0);
    demand.conductor_temperature_C = table.number(row, "conductor_temperature").value_or(kConductorTemperature_C);
    demand.sent_W = table.number(row, "power").value_or(0.0);
    demand.largest_loss = table.number(row, "largest_loss").value_or(0.0);
    const Expected<SizedConductor> sized = conductor_of(table, row, tables, demand);
    if (!sized)
        return table.at(sized.error(), row, column_of(sized.error()));
    std::string subject = table.text(row, "case");
    if (subject.empty() && table.size() > 1)
        subject = std::to_string(row + 1);
    const CableLoss& loss = sized->loss;
    const auto exact = [](double value) { return Estimate{value, 0.0}; };
    reduction.tables.front().rows.push_back({subject, sized->conductor.id, exact(loss.current_A), exact(loss.drop_V),
                                             exact(loss.loss_W), exact(loss.loss_W / loss.sent_W),
                                             exact(loss.delivered_W)});
    return {};
}

Expected<Reduction> reduce_cable(const ReduceTable& table) {
    const Expected<PowerTables> tables = read_power_tables();
    if (!tables)
        return tables.error();
    Reduction reduction;
    reduction.tables.push_back({"exchange.table.cables",
                                {{"exchange.result.case", {}},
                                 {"exchange.result.conductor", {}},
                                 {"exchange.result.current", Quantity::Current},
                                 {"exchange.result.drop", Quantity::Voltage},
                                 {"exchange.result.cable_loss", Quantity::Power},
                                 {"exchange.result.cable_loss_share", Quantity::Ratio},
                                 {"exchange.result.delivered", Quantity::Power}},
                                {}});
    for (std::size_t row = 0; row < table.size(); ++row)
        if (const Expected<void> done = reduce_case(table, row, *tables, reduction); !done)
            return done.error();
    reduction.findings.push_back(note("power.cable_loss_only"));
    return reduction;
}

} // namespace

const ReduceMethod& cable_method() {
    static constexpr ReduceMethod method{"cable", "exchange.method.cable", kColumns, {}, reduce_cable};
    return method;
}

} // namespace rillmark
