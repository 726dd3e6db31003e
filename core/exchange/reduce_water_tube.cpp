// SPDX-License-Identifier: GPL-3.0-or-later
#include "exchange/reduce_methods.h"
#include "exchange/reduce_rises.h"
#include "heights/water_tube.h"

namespace rillmark {

namespace {

constexpr ReduceField kColumns[] = {
    kFromColumn,
    kToColumn,
    {"from_reading", Quantity::Length, true, false, "exchange.water_tube.from_reading"},
    {"to_reading", Quantity::Length, true, false, "exchange.water_tube.to_reading"},
    {"leg_height", Quantity::Length, false, false, "exchange.water_tube.leg_height"},
    {"from_temperature", Quantity::Temperature, false, false, "exchange.water_tube.from_temperature"},
    {"to_temperature", Quantity::Temperature, false, false, "exchange.water_tube.to_temperature"},
};
constexpr ReduceField kParameters[] = {
    {"setup_uncertainty", Quantity::Length, false, true, "exchange.water_tube.setup_uncertainty", "0.005"},
    {"temperature_uncertainty", Quantity::Temperature, false, true, "exchange.rises.temperature_uncertainty", "2"},
};
constexpr PlacedField kPlaces[] = {
    {"levels.tube_from_reading", "from_reading"},     {"levels.tube_to_reading", "to_reading"},
    {"levels.tube_leg_height", "leg_height"},         {"levels.tube_from_temperature", "from_temperature"},
    {"levels.tube_to_temperature", "to_temperature"}, {"leg_height", "leg_height"},
    {"from_temperature", "from_temperature"},         {"to_temperature", "to_temperature"}};
constexpr const char* kLegColumns[] = {"leg_height", "from_temperature", "to_temperature"};

Expected<std::optional<TubeLegs>> legs_of(const ReduceTable& table, std::size_t row) {
    const char* missing = nullptr;
    int given = 0;
    for (const char* column : kLegColumns) {
        if (table.number(row, column))
            ++given;
        else
            missing = column;
    }
    if (given == 0)
        return std::optional<TubeLegs>{};
    if (missing != nullptr)
        return refusal("exchange.cell_empty", missing);
    return std::optional(TubeLegs{*table.number(row, "leg_height"), *table.number(row, "from_temperature"),
                                  *table.number(row, "to_temperature"), *table.parameter("temperature_uncertainty")});
}

Expected<RowRise> rise_of(const ReduceTable& table, std::size_t row) {
    const Expected<std::optional<TubeLegs>> legs = legs_of(table, row);
    if (!legs)
        return legs.error();
    Expected<MeasuredRise> rise =
        water_tube({{*table.number(row, "from_reading"), *table.number(row, "to_reading"), *legs}},
                   {*table.parameter("setup_uncertainty")});
    if (!rise)
        return rise.error();
    return RowRise(std::move(rise).value());
}

Expected<Reduction> reduce_water_tube(const ReduceTable& table) {
    return reduce_rises(table, kPlaces, [&](std::size_t row) { return rise_of(table, row); });
}

} // namespace

const ReduceMethod& water_tube_method() {
    static constexpr ReduceMethod method{"water-tube", "exchange.method.water_tube", kColumns, kParameters,
                                         reduce_water_tube};
    return method;
}

} // namespace rillmark
