// SPDX-License-Identifier: GPL-3.0-or-later
#include "exchange/clock_time.h"
#include "exchange/reduce_methods.h"
#include "power/energy.h"
#include "power/turbine_tables.h"
#include "water/gravity.h"
#include "water/water.h"

#include <chrono>
#include <map>

namespace rillmark {

namespace {

constexpr ReduceField kColumns[] = {
    {"date", {}, true, false, "exchange.energy.date"},
    {"flow", Quantity::Discharge, true, false, "exchange.energy.flow"},
};
constexpr ReduceField kParameters[] = {
    {"design_flow", Quantity::Discharge, false, false, "exchange.energy.design_flow"},
    {"net_head", Quantity::Length, false, false, "exchange.energy.net_head"},
    {"loss", Quantity::Length, false, false, "exchange.energy.loss", "0"},
    {"flow_to_leave", Quantity::Discharge, false, false, "exchange.energy.flow_to_leave", "0"},
    {"turbine", {}, false, false, "exchange.energy.turbine"},
    {"efficiency", Quantity::Ratio, false, false, "exchange.energy.efficiency", "0.9"},
    {"latitude", Quantity::Coordinate, false, false, "exchange.energy.latitude", "45"},
    {"water_temperature", Quantity::Temperature, false, false, "exchange.energy.water_temperature", "10"},
    {"u_flow", Quantity::Ratio, false, true, "exchange.energy.uncertainty", "0.1"},
    {"u_head", Quantity::Ratio, false, true, "exchange.energy.uncertainty", "0.01"},
    {"u_efficiency", Quantity::Ratio, false, true, "exchange.energy.uncertainty", "0.05"},
};
// Design flows of the curve, as parts of the design flow given; our choice.
constexpr double kCurveStep = 0.1;
constexpr int kCurveSteps = 20;

Expected<double> needed(const ReduceTable& table, const char* name) {
    if (const std::optional<double> value = table.parameter(name))
        return *value;
    return refusal("exchange.parameter_missing", {}, {{"parameter", std::string(name)}});
}

Expected<std::vector<FlowDay>> read_days(const ReduceTable& table) {
    using namespace std::chrono;
    std::vector<FlowDay> days;
    std::map<sys_days, std::int64_t> lines;
    for (std::size_t row = 0; row < table.size(); ++row) {
        const std::string& text = table.text(row, "date");
        const std::optional<double> time_s = clock_time_s(text + " 0:00");
        if (!time_s)
            return table.at(refusal("exchange.date_unreadable", {}, {{"cell", text}}), row, "date");
        const sys_days date = floor<std::chrono::days>(sys_seconds{seconds{static_cast<std::int64_t>(*time_s)}});
        const auto [first, fresh] = lines.emplace(date, table.line(row));
        if (!fresh)
            return table.at(refusal("exchange.date_twice", {}, {{"cell", text}, {"first_line", first->second}}), row,
                            "date");
        const year_month_day ymd{date};
        const double flow_m3s = table.number(row, "flow").value_or(0.0);
        if (flow_m3s < 0.0)
            return table.at(refusal("power.negative", "power.flow", {{"value", flow_m3s, Quantity::Discharge}}), row,
                            "flow");
        days.push_back({static_cast<int>(ymd.year()), static_cast<unsigned>(ymd.month()), flow_m3s});
    }
    return days;
}

Expected<EnergyPlant> read_plant(const ReduceTable& table) {
    const Expected<double> design = needed(table, "design_flow");
    const Expected<double> net_head = needed(table, "net_head");
    if (!design || !net_head)
        return design ? net_head.error() : design.error();
    const double design_m3s = *design;
    const double net_m = *net_head;
    const double loss_m = table.parameter("loss").value_or(0.0);
    if (net_m <= 0.0)
        return refusal("power.not_positive", "power.net_head", {{"value", net_m, Quantity::Length}});
    if (loss_m < 0.0)
        return refusal("power.negative", "power.friction_loss", {{"value", loss_m, Quantity::Length}});
    const Expected<double> density = water_density_kgm3(table.parameter("water_temperature").value_or(0.0));
    if (!density)
        return density.error();
    const Expected<double> gravity = normal_gravity_ms2({table.parameter("latitude").value_or(0.0), 0.0});
    if (!gravity)
        return gravity.error();
    EnergyPlant plant;
    plant.design_flow_m3s = design_m3s;
    plant.leave.fixed_m3s = table.parameter("flow_to_leave").value_or(0.0);
    // the loss grows with the square of the flow
    plant.net_head_m = [=](double flow_m3s) {
        return net_m + loss_m * (1.0 - flow_m3s * flow_m3s / (design_m3s * design_m3s));
    };
    plant.turbine_efficiency = [](double) { return 1.0; };
    plant.other_efficiency = table.parameter("efficiency").value_or(0.0);
    plant.density_kgm3 = *density;
    plant.gravity_ms2 = *gravity;
    plant.u_flow = table.parameter("u_flow").value_or(0.0);
    plant.u_head = table.parameter("u_head").value_or(0.0);
    plant.u_efficiency = table.parameter("u_efficiency").value_or(0.0);
    if (table.text_parameter("turbine").empty())
        return plant;
    const Expected<TurbineTables> tables = read_turbine_tables();
    if (!tables)
        return tables.error();
    const Expected<TurbineKind> kind = tables->kind(table.text_parameter("turbine"));
    if (!kind)
        return kind.error();
    plant.smallest_flow = kind->smallest_flow;
    plant.turbine_efficiency = [turbine = *kind](double ratio) { return turbine.efficiency_at(ratio); };
    return plant;
}

ResultTable months_of(const EnergyYear& year) {
    ResultTable months{"exchange.table.energy_months",
                       {{"exchange.result.month", {}},
                        {"exchange.result.days", Quantity::Number},
                        {"exchange.result.energy", Quantity::Energy},
                        {"exchange.result.running", Quantity::Ratio}},
                       {}};
    for (std::size_t i = 0; i < year.months.size(); ++i) {
        const std::optional<MonthOfEnergy>& month = year.months[i];
        if (month)
            months.rows.push_back({std::to_string(i + 1), Estimate{static_cast<double>(month->days), 0.0},
                                   Estimate{month->energy_J, 0.0}, Estimate{month->running, 0.0}});
    }
    return months;
}

ResultTable curve_table(const DesignCurve& curve) {
    ResultTable table{"exchange.table.design_curve",
                      {{"exchange.result.design_flow", Quantity::Discharge},
                       {"exchange.result.rated_power", Quantity::Power},
                       {"exchange.result.energy", Quantity::Energy},
                       {"exchange.result.capacity_factor", Quantity::Ratio}},
                      {}};
    for (const DesignPoint& point : curve.points)
        table.rows.push_back({Estimate{point.design_flow_m3s, 0.0}, Estimate{point.rated_W, 0.0},
                              Estimate{point.energy_J, 0.0}, Estimate{point.capacity_factor, 0.0}});
    return table;
}

/// The curve as far as the pipe can carry: the loss given is that of one pipe, and uses up the head in the end.
Expected<DesignCurve> curve_around(std::span<const FlowDay> days, const EnergyPlant& plant) {
    std::vector<double> flows_m3s;
    for (int i = 1; i <= kCurveSteps; ++i) {
        const double flow_m3s = kCurveStep * i * plant.design_flow_m3s;
        if (plant.net_head_m(flow_m3s) > 0.0)
            flows_m3s.push_back(flow_m3s);
    }
    return design_curve(days, plant, flows_m3s);
}

Expected<Reduction> reduce_energy(const ReduceTable& table) {
    const Expected<std::vector<FlowDay>> days = read_days(table);
    if (!days)
        return days.error();
    const Expected<EnergyPlant> plant = read_plant(table);
    if (!plant)
        return plant.error();
    const Expected<EnergyYear> year = energy_of_days(*days, *plant);
    if (!year)
        return year.error();
    const Expected<DesignCurve> curve = curve_around(*days, *plant);
    if (!curve)
        return curve.error();
    Reduction reduction;
    const auto add = [&](const char* code, Estimate value, Quantity quantity) {
        reduction.results.push_back({code, {}, value, quantity});
    };
    add("exchange.result.energy", year->energy_J.estimate, Quantity::Energy);
    add("exchange.result.rated_power", {year->rated_W, 0.0}, Quantity::Power);
    add("exchange.result.capacity_factor", year->capacity_factor, Quantity::Ratio);
    add("exchange.result.running", {year->running, 0.0}, Quantity::Ratio);
    add("exchange.result.months_without_power", {static_cast<double>(year->months_without_power), 0.0},
        Quantity::Number);
    if (year->year_spread_J)
        add("exchange.result.year_spread", {*year->year_spread_J, 0.0}, Quantity::Energy);
    if (curve->knee)
        add("exchange.result.knee_flow", {curve->points[*curve->knee].design_flow_m3s, 0.0}, Quantity::Discharge);
    reduction.tables = {months_of(*year), curve_table(*curve)};
    reduction.findings = year->findings;
    if (!table.text_parameter("turbine").empty())
        reduction.findings.push_back(note("power.part_flow_unconfirmed"));
    return reduction;
}

} // namespace

const ReduceMethod& energy_method() {
    static constexpr ReduceMethod method{"energy", "exchange.method.energy", kColumns, kParameters, reduce_energy};
    return method;
}

} // namespace rillmark
