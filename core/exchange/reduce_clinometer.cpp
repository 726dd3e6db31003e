// SPDX-License-Identifier: GPL-3.0-or-later
#include "exchange/reduce_methods.h"
#include "exchange/reduce_rises.h"
#include "heights/clinometer.h"

namespace rillmark {

namespace {

constexpr ReduceField kColumns[] = {
    kFromColumn,
    kToColumn,
    {"angle", Quantity::Angle, false, false, "exchange.clinometer.angle"},
    {"slope", Quantity::Slope, false, false, "exchange.clinometer.slope"},
    {"reverse_angle", Quantity::Angle, false, false, "exchange.clinometer.reverse"},
    {"reverse_slope", Quantity::Slope, false, false, "exchange.clinometer.reverse"},
    {"slope_distance", Quantity::Length, false, false, "exchange.rises.slope_distance"},
    {"level_distance", Quantity::Length, false, false, "exchange.rises.level_distance"},
    {"eye_height", Quantity::Length, true, false, "exchange.clinometer.eye_height"},
    {"target_height", Quantity::Length, true, false, "exchange.rises.target_height"},
};
constexpr ReduceField kParameters[] = {
    {"angle_uncertainty", Quantity::Angle, false, true, "exchange.rises.angle_uncertainty", "0.25"},
    {"index_correction", Quantity::Angle, false, false, "exchange.rises.index_correction", "0"},
    {"index_uncertainty", Quantity::Angle, false, true, "exchange.rises.index_uncertainty", "0.25"},
    {"distance_uncertainty", Quantity::Length, false, true, "exchange.rises.distance_uncertainty", "0.1"},
    {"eye_height_uncertainty", Quantity::Length, false, true, "exchange.rises.eye_height_uncertainty", "0.01"},
    {"target_height_uncertainty", Quantity::Length, false, true, "exchange.rises.target_height_uncertainty", "0.01"},
};
constexpr PlacedField kPlaces[] = {{"levels.forward_reading", "angle"},   {"levels.reverse_reading", "reverse_angle"},
                                   {"levels.distance", "slope_distance"}, {"slope_distance", "slope_distance"},
                                   {"levels.eye_height", "eye_height"},   {"levels.target_height", "target_height"}};

Expected<RowRise> rise_of(const ReduceTable& table, std::size_t row) {
    const Expected<GivenDistance> distance = given_distance(table, row);
    if (!distance)
        return distance.error();
    ClinometerSight sight;
    sight.forward = {table.number(row, "angle"), table.number(row, "slope")};
    const ClinometerReading reverse{table.number(row, "reverse_angle"), table.number(row, "reverse_slope")};
    if (reverse.angle_rad || reverse.slope)
        sight.reverse = reverse;
    sight.distance_m = distance->length_m;
    sight.distance_u_m = *table.parameter("distance_uncertainty");
    sight.distance_is = distance->is;
    sight.eye_height_m = {*table.number(row, "eye_height"), *table.parameter("eye_height_uncertainty")};
    sight.target_height_m = {*table.number(row, "target_height"), *table.parameter("target_height_uncertainty")};
    sight.index_correction_rad = {*table.parameter("index_correction"), *table.parameter("index_uncertainty")};
    sight.reading_u_rad = *table.parameter("angle_uncertainty");
    Expected<SightedRise> rise = clinometer(sight);
    if (!rise)
        return rise.error();
    return RowRise(std::move(rise).value());
}

Expected<Reduction> reduce_clinometer(const ReduceTable& table) {
    return reduce_rises(table, kPlaces, [&](std::size_t row) { return rise_of(table, row); });
}

} // namespace

const ReduceMethod& clinometer_method() {
    static constexpr ReduceMethod method{"clinometer", "exchange.method.clinometer", kColumns, kParameters,
                                         reduce_clinometer};
    return method;
}

} // namespace rillmark
