// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "power/water_to_wire.h"
#include "uncertainty/monte_carlo.h"

namespace rillmark {

/// Where the efficiency of the drive comes from: entered with its +/-, or the range in which it is commonly found.
enum class DriveShape { Normal, Range };

/// Watts at the house of the chain by drawing all its inputs (see draw_estimate); at the generator where no cable is
/// chosen. Roughness, coefficients, cable resistance and water temperature are kept within what they can be, and a
/// draw in which the pipe or the cable cannot carry the flow brings no watts. A bore is anything between
/// the limits of its wall, and so is a drive's efficiency of a usual range (rectangular, see PipeSize::bore and
/// EfficiencyRange::estimate); all else is normal.
/// Refuses as draw_estimate does, and a chain that gives no watts (`power.no_watts`).
[[nodiscard]] Expected<DrawnEstimate> draw_watts(const ChainInput& input, std::mt19937_64& engine,
                                                 const DrawOptions& options = {},
                                                 DriveShape drive = DriveShape::Normal);

/// The input whose better knowledge would narrow the watts most.
struct NextStep {
    std::string input;     // code, as in BudgetLine::input
    std::string subject;   // as in BudgetLine::subject
    double share = 0.0;    // of the variance
    double now_W = 0.0;    // +/- (k = 2)
    double halved_W = 0.0; // +/- with its uncertainty halved: four times the readings, say
    double known_W = 0.0;  // +/- if it were known exactly
};
/// Nothing where no input has a part in the variance. The scatter of the friction formula itself is left out: nobody at
/// the creek can narrow it. What to do is worded per input.
[[nodiscard]] std::optional<NextStep> next_step(const Budgeted& watts);
/// The same as a note: `power.do_next_gross_head` and so on, with its numbers.
[[nodiscard]] Finding next_step_note(const NextStep& step);

} // namespace rillmark
