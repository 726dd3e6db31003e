// SPDX-License-Identifier: GPL-3.0-or-later
#include "exchange/reduce_methods.h"
#include "power/turbine.h"
#include "water/gravity.h"

#include <algorithm>

namespace rillmark {

namespace {

constexpr ReduceField kColumns[] = {
    {"case", {}, false, false, "exchange.turbine.case"},
    {"net_head", Quantity::Length, true, false, "exchange.turbine.net_head"},
    {"flow", Quantity::Discharge, true, false, "exchange.turbine.flow"},
};
constexpr ReduceField kParameters[] = {
    {"frequency", Quantity::Number, false, false, "exchange.turbine.frequency", "50"},
    {"altitude", Quantity::Length, false, false, "exchange.turbine.altitude", "0"},
    {"latitude", Quantity::Coordinate, false, false, "exchange.turbine.latitude", "45"},
    {"water_temperature", Quantity::Temperature, false, false, "exchange.turbine.water_temperature", "15"},
};

// Stable names for other programs.
const char* name_of(TurbineFit fit) {
    switch (fit) {
    case TurbineFit::Fits:
        return "fits";
    case TurbineFit::HeadTooLow:
        return "head-too-low";
    case TurbineFit::HeadTooHigh:
        return "head-too-high";
    case TurbineFit::NoDirectSpeed:
        return "no-direct-speed";
    case TurbineFit::NotChecked:
        break;
    }
    return "head-only";
}

ResultTable::Cell exact(const std::optional<double>& value) {
    if (!value)
        return std::monostate{};
    return Estimate{*value, 0.0};
}

std::vector<ResultTable::Cell> row_of(const TurbineOption& option, const std::string& subject) {
    const auto of = [](const auto& part, auto member) -> std::optional<double> {
        return part ? std::optional<double>(static_cast<double>((*part).*member)) : std::nullopt;
    };
    std::vector<ResultTable::Cell> row{subject, option.kind.id, std::string(name_of(option.fit)),
                                       exact(option.shaft_W), exact(option.speed_rpm)};
    row.push_back(exact(option.jets ? std::optional<double>(*option.jets) : std::nullopt));
    row.push_back(exact(of(option.specific, &SpecificSpeed::ns_kW)));
    row.push_back(exact(of(option.wheel, &ImpulseWheel::wheel_m)));
    row.push_back(exact(of(option.wheel, &ImpulseWheel::jet_m)));
    row.push_back(exact(option.runaway_max_rpm));
    row.push_back(exact(option.setting_m));
    return row;
}

std::string_view column_of(const Finding& finding) {
    return finding.where == "power.net_head" ? "net_head" : finding.where == "power.flow" ? "flow" : "";
}

Expected<Reduction> reduce_turbine(const ReduceTable& table) {
    const Expected<TurbineTables> tables = read_turbine_tables();
    if (!tables)
        return tables.error();
    const Expected<double> gravity =
        normal_gravity_ms2({table.parameter("latitude").value_or(0.0), table.parameter("altitude").value_or(0.0)});
    if (!gravity)
        return gravity.error();
    ResultTable kinds{"exchange.table.turbines",
                      {{"exchange.result.case", {}},
                       {"exchange.result.turbine", {}},
                       {"exchange.result.fit", {}},
                       {"exchange.result.shaft_power", Quantity::Power},
                       {"exchange.result.turbine_rpm", Quantity::Number},
                       {"exchange.result.jets", Quantity::Number},
                       {"exchange.result.ns_kw_m", Quantity::Number},
                       {"exchange.result.wheel", Quantity::Length},
                       {"exchange.result.jet", Quantity::Bore},
                       {"exchange.result.runaway_rpm", Quantity::Number},
                       {"exchange.result.setting", Quantity::Length}},
                      {}};
    Reduction reduction;
    for (std::size_t row = 0; row < table.size(); ++row) {
        TurbineSite site;
        site.net_head_m = table.number(row, "net_head").value_or(0.0);
        site.flow_m3s = table.number(row, "flow").value_or(0.0);
        site.frequency_Hz = table.parameter("frequency").value_or(site.frequency_Hz);
        site.altitude_m = table.parameter("altitude").value_or(site.altitude_m);
        site.water_temperature_C = table.parameter("water_temperature").value_or(site.water_temperature_C);
        site.gravity_ms2 = *gravity;
        const Expected<std::vector<TurbineOption>> options = turbine_options(site, *tables);
        if (!options)
            return table.at(options.error(), row, column_of(options.error()));
        std::string subject = table.text(row, "case");
        if (subject.empty() && table.size() > 1)
            subject = std::to_string(row + 1);
        for (const TurbineOption& option : *options)
            kinds.rows.push_back(row_of(option, subject));
    }
    reduction.tables.push_back(std::move(kinds));
    reduction.findings.push_back(note("power.part_flow_unconfirmed"));
    return reduction;
}

} // namespace

const ReduceMethod& turbine_method() {
    static constexpr ReduceMethod method{"turbine", "exchange.method.turbine", kColumns, kParameters, reduce_turbine};
    return method;
}

} // namespace rillmark
