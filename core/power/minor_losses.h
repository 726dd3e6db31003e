// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "expected.h"
#include "power/tables.h"

#include <string>
#include <vector>

namespace rillmark {

struct FittingCount {
    std::string id; // key of the fittings table
    int count = 0;  // >= 0
};

// Relative standard uncertainty of a loss coefficient: methods differ by 20 to 50 %, Crane against
// Rennels for one; common practice, no source), taken as +/- 40 % at k = 2.
inline constexpr double kMinorLossUncertainty = 0.2;

/// The sum of the loss coefficients of the fittings along a pipe of one bore, with its standard uncertainty (all errors
/// taken as one, since they come of one method). Refuses an unknown fitting (`power.unknown_fitting`) and a negative
/// count
/// (`power.negative`).
[[nodiscard]] Expected<Estimate> sum_of_k(const PowerTables& tables, const std::vector<FittingCount>& fittings);

} // namespace rillmark
