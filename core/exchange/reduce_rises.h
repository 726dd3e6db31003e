// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "exchange/reduce.h"
#include "exchange/row_places.h"
#include "heights/inclined_sight.h"

#include <functional>
#include <optional>
#include <string>

namespace rillmark {

/// One row of a file of height differences, computed.
struct RowRise {
    MeasuredRise rise;
    std::optional<Estimate> level_distance_m;
    std::optional<Estimate> slope_distance_m;

    RowRise(MeasuredRise measured) : rise(std::move(measured)) {}
    RowRise(SightedRise sighted)
        : rise(std::move(sighted.rise)), level_distance_m(sighted.level_distance_m),
          slope_distance_m(sighted.slope_distance_m) {}
};

using RiseOfRow = std::function<Expected<RowRise>(std::size_t row)>;

// Text columns of every such file; both may be left out.
inline constexpr ReduceField kFromColumn{"from", {}, false, false, "exchange.rises.from"};
inline constexpr ReduceField kToColumn{"to", {}, false, false, "exchange.rises.to"};

/// The rise of each row and their sum, in which shared effects of one key add up with their signs (sum_of_rises.h).
/// Where a row does not begin at the point at which the one before ends, there is no sum and
/// `exchange.stretches_not_joined` warns; points that are not named count as joined.
[[nodiscard]] Expected<Reduction> reduce_rises(const ReduceTable& table, std::span<const PlacedField> places,
                                               const RiseOfRow& rise_of);

/// A cell that must hold `up` or `down`, or be empty for up; true for down. Refuses `exchange.direction_unknown`.
[[nodiscard]] Expected<bool> leads_down(const ReduceTable& table, std::size_t row);

/// The one of two columns that is filled, as a distance for a sight. Refuses `exchange.one_distance`.
struct GivenDistance {
    double length_m = 0.0;
    SightDistance is = SightDistance::Slope;
};
[[nodiscard]] Expected<GivenDistance> given_distance(const ReduceTable& table, std::size_t row,
                                                     const std::string& prefix = {});

} // namespace rillmark
