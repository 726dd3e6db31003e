// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

namespace rillmark {

/// Coverage factor of every +/- that is shown: about 95 % for a normal error (JCGM 100:2008, 6.3.3).
inline constexpr double kCoverageFactor = 2.0;

/// A measured or derived quantity: its value and its standard uncertainty (JCGM 100:2008, 2.3.1), both in one SI unit.
struct Estimate {
    double value = 0.0;
    double standard_uncertainty = 0.0; // >= 0

    /// The half-width shown as +/- (k = 2).
    [[nodiscard]] double expanded() const { return kCoverageFactor * standard_uncertainty; }
};

/// The part that one input has in the variance of a result.
struct BudgetLine {
    std::string input;         // code of the input, worded by the UI ("flow.fill_scatter", "levels.staff_reading")
    std::string subject;       // the station, book or test it belongs to, as the user named it; may be empty
    double contribution = 0.0; // |sensitivity| x standard uncertainty, in the unit of the result
    double share = 0.0;        // part of the variance; with correlated inputs a line may be negative, the sum is 1
};

/// A result with the list of what made its uncertainty, largest share first.
struct Budgeted {
    Estimate estimate;
    std::vector<BudgetLine> budget;
};

} // namespace rillmark
