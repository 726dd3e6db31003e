// SPDX-License-Identifier: GPL-3.0-or-later
#include "levelling/staff_checks.h"

#include "levelling/level_book.h"

#include <cmath>
#include <utility>

namespace rillmark {

namespace {

Finding refused(const char* code, const FieldPlace& place, std::vector<Arg> args) {
    if (place.setup)
        args.push_back({"row", *place.setup, Quantity::Number});
    return refusal(code, place.where, std::move(args));
}

} // namespace

Expected<void> check_staff_reading(double reading_m, const FieldPlace& place) {
    if (std::abs(reading_m) <= kLongestReading_m)
        return {};
    return refused("levels.field_reading_impossible", place,
                   {{"reading", reading_m, Quantity::Length}, {"limit", kLongestReading_m, Quantity::Length}});
}

Expected<void> check_sight_length(double distance_m, const FieldPlace& place) {
    if (distance_m >= 0.0 && distance_m <= kLongestSight_m)
        return {};
    return refused("levels.sight_length_impossible", place,
                   {{"distance", distance_m, Quantity::Length}, {"limit", kLongestSight_m, Quantity::Length}});
}

Expected<void> check_uncertainty_above_zero(double uncertainty_m, const std::string& where) {
    if (std::isfinite(uncertainty_m) && uncertainty_m > 0.0)
        return {};
    return refusal("levels.uncertainty_impossible", where, {{"uncertainty", uncertainty_m, Quantity::Length}});
}

} // namespace rillmark
