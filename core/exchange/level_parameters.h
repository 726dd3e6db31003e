// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "exchange/reduce_table.h"
#include "uncertainty/estimate.h"

#include <optional>
#include <string>
#include <string_view>

namespace rillmark {

/// Parameters that several methods of levelling take. The uncertainty that holds where none is given is 2 mm in 100 m, that
/// of a two-peg test with readings to 1 mm and pegs 100 m apart: our choice, no source.
inline constexpr ReduceField kCollimationParameter{"collimation", Quantity::Ratio, false, false,
                                                   "exchange.levels.collimation"};
inline constexpr ReduceField kCollimationUncertaintyParameter{
    "collimation_uncertainty", Quantity::Ratio, false, true, "exchange.levels.collimation_uncertainty", "0.00002"};
inline constexpr ReduceField kCurvatureParameter{"curvature", {}, false, false, "exchange.levels.curvature", "no"};

/// The collimation with its uncertainty, where it is given.
[[nodiscard]] std::optional<Estimate> collimation_parameter(const ReduceTable& table);

/// An answer that is "yes" or "no"; refuses anything else (`exchange.answer_unknown`), with the name of what was asked.
[[nodiscard]] Expected<bool> yes_or_no(const std::string& answer, std::string_view name);
/// The same of a parameter.
[[nodiscard]] Expected<bool> yes_no_parameter(const ReduceTable& table, std::string_view name);

} // namespace rillmark
