// SPDX-License-Identifier: GPL-3.0-or-later
#include "exchange/reduce_methods.h"
#include "exchange/reduce_rises.h"
#include "heights/hose_gauge.h"

namespace rillmark {

namespace {

constexpr ReduceField kColumns[] = {
    kFromColumn,
    kToColumn,
    {"pressure", Quantity::Pressure, true, false, "exchange.hose_gauge.pressure"},
    {"zero", Quantity::Pressure, false, false, "exchange.hose_gauge.zero"},
    {"full_scale", Quantity::Pressure, true, false, "exchange.hose_gauge.full_scale"},
    {"resolution", Quantity::Pressure, true, false, "exchange.hose_gauge.resolution"},
    {"gauge_height", Quantity::Length, true, false, "exchange.hose_gauge.gauge_height"},
    {"water_height", Quantity::Length, true, false, "exchange.hose_gauge.water_height"},
    {"temperature", Quantity::Temperature, false, false, "exchange.hose_gauge.temperature"},
    {"gauge", {}, false, false, "exchange.hose_gauge.gauge"},
    {"direction", {}, false, false, "exchange.rises.direction"},
};
constexpr ReduceField kParameters[] = {
    {"class", Quantity::Ratio, false, false, "exchange.hose_gauge.class", "0.016"},
    {"temperature_uncertainty", Quantity::Temperature, false, true, "exchange.rises.temperature_uncertainty", "5"},
    {"height_uncertainty", Quantity::Length, false, true, "exchange.hose_gauge.height_uncertainty", "0.01"},
    {"latitude", Quantity::Coordinate, false, false, "exchange.penstock.latitude", "45"},
    {"altitude", Quantity::Length, false, false, "exchange.penstock.altitude", "0"},
};
constexpr PlacedField kPlaces[] = {
    {"levels.gauge_reading", "pressure"},       {"levels.gauge_zero", "zero"},
    {"levels.gauge_full_scale", "full_scale"},  {"levels.gauge_resolution", "resolution"},
    {"levels.gauge_height", "gauge_height"},    {"levels.hose_surface", "water_height"},
    {"levels.hose_temperature", "temperature"}, {"direction", "direction"}};

Expected<RowRise> rise_of(const ReduceTable& table, std::size_t row) {
    const Expected<bool> down = leads_down(table, row);
    if (!down)
        return down.error();
    const double height_u_m = *table.parameter("height_uncertainty");
    HoseStretch stretch;
    stretch.gauge.full_scale_Pa = *table.number(row, "full_scale");
    stretch.gauge.class_rel = *table.parameter("class");
    stretch.gauge.resolution_Pa = *table.number(row, "resolution");
    stretch.gauge.zero_Pa = table.number(row, "zero");
    stretch.gauge.name = table.text(row, "gauge");
    stretch.pressure_Pa = *table.number(row, "pressure");
    stretch.gauge_above_lower_m = {*table.number(row, "gauge_height"), height_u_m};
    stretch.water_above_upper_m = {*table.number(row, "water_height"), height_u_m};
    stretch.water_temperature_C = {table.number(row, "temperature").value_or(kHoseWater_C.value),
                                   *table.parameter("temperature_uncertainty")};
    stretch.place = {*table.parameter("latitude"), *table.parameter("altitude")};
    stretch.downwards = *down;
    Expected<MeasuredRise> rise = hose_gauge(stretch);
    if (!rise)
        return rise.error();
    return RowRise(std::move(rise).value());
}

Expected<Reduction> reduce_hose_gauge(const ReduceTable& table) {
    return reduce_rises(table, kPlaces, [&](std::size_t row) { return rise_of(table, row); });
}

} // namespace

const ReduceMethod& hose_gauge_method() {
    static constexpr ReduceMethod method{"hose-gauge", "exchange.method.hose_gauge", kColumns, kParameters,
                                         reduce_hose_gauge};
    return method;
}

} // namespace rillmark
