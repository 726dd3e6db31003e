// SPDX-License-Identifier: GPL-3.0-or-later
#include "exchange/reduce_methods.h"
#include "exchange/reduce_rises.h"
#include "heights/zenith.h"

namespace rillmark {

namespace {

constexpr ReduceField kColumns[] = {
    kFromColumn,
    kToColumn,
    {"zenith", Quantity::Angle, true, false, "exchange.zenith.zenith"},
    {"slope_distance", Quantity::Length, false, false, "exchange.rises.slope_distance"},
    {"level_distance", Quantity::Length, false, false, "exchange.rises.level_distance"},
    {"instrument_height", Quantity::Length, true, false, "exchange.zenith.instrument_height"},
    {"target_height", Quantity::Length, true, false, "exchange.rises.target_height"},
    {"reverse_zenith", Quantity::Angle, false, false, "exchange.zenith.reverse"},
    {"reverse_slope_distance", Quantity::Length, false, false, "exchange.zenith.reverse"},
    {"reverse_level_distance", Quantity::Length, false, false, "exchange.zenith.reverse"},
    {"reverse_instrument_height", Quantity::Length, false, false, "exchange.zenith.reverse"},
    {"reverse_target_height", Quantity::Length, false, false, "exchange.zenith.reverse"},
};
constexpr ReduceField kParameters[] = {
    {"angle_uncertainty", Quantity::Angle, false, true, "exchange.rises.angle_uncertainty", "10 arcsec"},
    {"index_correction", Quantity::Angle, false, false, "exchange.rises.index_correction", "0"},
    {"index_uncertainty", Quantity::Angle, false, true, "exchange.rises.index_uncertainty", "20 arcsec"},
    {"distance_uncertainty", Quantity::Length, false, true, "exchange.rises.distance_uncertainty", "0.01"},
    {"height_uncertainty", Quantity::Length, false, true, "exchange.zenith.height_uncertainty", "0.002"},
    {"refraction", Quantity::Number, false, false, "exchange.zenith.refraction", "0.14"},
    {"refraction_uncertainty", Quantity::Number, false, true, "exchange.zenith.refraction_uncertainty", "0.1"},
};
constexpr PlacedField kPlaces[] = {{"levels.zenith", "zenith"},
                                   {"levels.distance", "slope_distance"},
                                   {"levels.reverse_reading", "reverse_zenith"},
                                   {"levels.instrument_height", "instrument_height"},
                                   {"levels.target_height", "target_height"},
                                   {"slope_distance", "slope_distance"},
                                   {"reverse_slope_distance", "reverse_slope_distance"},
                                   {"reverse_instrument_height", "reverse_instrument_height"},
                                   {"reverse_target_height", "reverse_target_height"}};

Expected<ZenithSight> sight_of(const ReduceTable& table, std::size_t row, const std::string& prefix) {
    const Expected<GivenDistance> distance = given_distance(table, row, prefix);
    if (!distance)
        return distance.error();
    for (const char* column : {"instrument_height", "target_height"})
        if (!table.number(row, prefix + column))
            return refusal("exchange.cell_empty", prefix + column);
    const double height_u_m = *table.parameter("height_uncertainty");
    ZenithSight sight;
    sight.zenith_rad = *table.number(row, prefix + "zenith");
    sight.distance_m = distance->length_m;
    sight.distance_u_m = *table.parameter("distance_uncertainty");
    sight.distance_is = distance->is;
    sight.instrument_height_m = {*table.number(row, prefix + "instrument_height"), height_u_m};
    sight.target_height_m = {*table.number(row, prefix + "target_height"), height_u_m};
    return sight;
}

Expected<RowRise> rise_of(const ReduceTable& table, std::size_t row) {
    ZenithLine line;
    Expected<ZenithSight> forward = sight_of(table, row, {});
    if (!forward)
        return forward.error();
    line.forward = *forward;
    if (table.number(row, "reverse_zenith")) {
        Expected<ZenithSight> reverse = sight_of(table, row, "reverse_");
        if (!reverse)
            return reverse.error();
        line.reverse = *reverse;
    }
    line.index_correction_rad = {*table.parameter("index_correction"), *table.parameter("index_uncertainty")};
    line.reading_u_rad = *table.parameter("angle_uncertainty");
    line.refraction = {*table.parameter("refraction"), *table.parameter("refraction_uncertainty")};
    Expected<SightedRise> rise = zenith_line(line);
    if (!rise)
        return rise.error();
    return RowRise(std::move(rise).value());
}

Expected<Reduction> reduce_zenith(const ReduceTable& table) {
    return reduce_rises(table, kPlaces, [&](std::size_t row) { return rise_of(table, row); });
}

} // namespace

const ReduceMethod& zenith_method() {
    static constexpr ReduceMethod method{"zenith", "exchange.method.zenith", kColumns, kParameters, reduce_zenith};
    return method;
}

} // namespace rillmark
