// SPDX-License-Identifier: GPL-3.0-or-later
#include "flow/independent_budget.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace rillmark {

Budgeted combine_independent(double value, std::vector<BudgetLine> lines) {
    double variance = 0.0;
    for (const BudgetLine& line : lines)
        variance += line.contribution * line.contribution;
    for (BudgetLine& line : lines)
        line.share = variance > 0.0 ? line.contribution * line.contribution / variance : 0.0;
    std::ranges::stable_sort(lines, [](const BudgetLine& a, const BudgetLine& b) { return a.share > b.share; });
    return {{value, std::sqrt(variance)}, std::move(lines)};
}

} // namespace rillmark
