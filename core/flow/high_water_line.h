// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "expected.h"
#include "flow/slope_area.h"

#include <vector>

namespace rillmark {

/// The straight line through high-water marks: level and fall are independent at `middle_m`.
struct HighWaterLine {
    double middle_m = 0.0;  // mean distance of the marks
    Estimate level_m;       // there
    Estimate slope;         // falls downstream: above zero
    double scatter_m = 0.0; // standard deviation about the line; 0 for two marks

    [[nodiscard]] double level_at(double distance_m, double level, double fall) const {
        return level - fall * (distance_m - middle_m);
    }
};

/// Least squares through the marks that are not struck, all of one weight. Refuses `flow.bad_mark` and
/// `flow.few_marks`, see slope_area().
[[nodiscard]] Expected<HighWaterLine> high_water_line(const std::vector<HighWaterMark>& marks, double mark_u_m);

} // namespace rillmark
