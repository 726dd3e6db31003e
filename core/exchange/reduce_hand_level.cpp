// SPDX-License-Identifier: GPL-3.0-or-later
#include "exchange/reduce_methods.h"
#include "exchange/reduce_rises.h"
#include "heights/hand_level.h"

#include <cmath>

namespace rillmark {

namespace {

constexpr ReduceField kColumns[] = {
    kFromColumn,
    kToColumn,
    {"sights", Quantity::Number, true, false, "exchange.hand_level.sights"},
    {"eye_height", Quantity::Length, true, false, "exchange.hand_level.eye_height"},
    {"part", Quantity::Length, false, false, "exchange.hand_level.part"},
    {"last_reading", Quantity::Length, false, false, "exchange.hand_level.last_reading"},
    {"direction", {}, false, false, "exchange.rises.direction"},
    {"observer", {}, false, false, "exchange.rises.observer"},
};
constexpr ReduceField kParameters[] = {
    {"eye_height_uncertainty", Quantity::Length, false, false, "exchange.rises.eye_height_uncertainty", "0.01"},
    {"pointing", Quantity::Length, false, false, "exchange.hand_level.pointing", "0.03"},
};
constexpr PlacedField kPlaces[] = {{"levels.sights", "sights"},
                                   {"levels.eye_height", "eye_height"},
                                   {"levels.part", "part"},
                                   {"levels.last_staff_reading", "last_reading"},
                                   {"direction", "direction"}};

Expected<RowRise> rise_of(const ReduceTable& table, std::size_t row) {
    const Expected<bool> down = leads_down(table, row);
    if (!down)
        return down.error();
    const double sights = *table.number(row, "sights");
    if (!(std::abs(sights) <= 1e6) || sights != std::floor(sights))
        return refusal("exchange.not_whole", "levels.sights", {{"value", sights, Quantity::Number}});
    HandLevelLine line;
    line.sights = static_cast<int>(sights);
    line.eye_height_m = {*table.number(row, "eye_height"), *table.parameter("eye_height_uncertainty")};
    line.part_m = table.number(row, "part").value_or(0.0);
    line.last_staff_reading_m = table.number(row, "last_reading");
    line.pointing_m = *table.parameter("pointing");
    line.downwards = *down;
    line.run = table.text(row, "observer");
    Expected<MeasuredRise> rise = hand_level(line);
    if (!rise)
        return rise.error();
    return RowRise(std::move(rise).value());
}

Expected<Reduction> reduce_hand_level(const ReduceTable& table) {
    return reduce_rises(table, kPlaces, [&](std::size_t row) { return rise_of(table, row); });
}

} // namespace

const ReduceMethod& hand_level_method() {
    static constexpr ReduceMethod method{"hand-level", "exchange.method.hand_level", kColumns, kParameters,
                                         reduce_hand_level};
    return method;
}

} // namespace rillmark
