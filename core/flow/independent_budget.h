// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "uncertainty/estimate.h"

#include <vector>

namespace rillmark {

/// A result whose inputs are independent, from the contribution of each [unit of the value, >= 0]: combined in
/// quadrature (JCGM 100:2008, equation 10). Fills in the shares and sorts the lines, largest first.
[[nodiscard]] Budgeted combine_independent(double value, std::vector<BudgetLine> lines);

} // namespace rillmark
