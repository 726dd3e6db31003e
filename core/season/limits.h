// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

namespace rillmark {

/// More than any river carries, m3/s: a flow above is a slip of the unit. Our choice, no source.
inline constexpr double kGreatestFlow_m3s = 1e5;
/// Farther from the zero of its gauge, m, a stage is a slip of the unit. Our choice, no source.
inline constexpr double kLargestStage_m = 100.0;

} // namespace rillmark
