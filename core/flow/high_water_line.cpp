// SPDX-License-Identifier: GPL-3.0-or-later
#include "flow/high_water_line.h"

#include "flow/limits.h"
#include "flow/student_factor.h"

#include <algorithm>
#include <cmath>

namespace rillmark {

namespace {

constexpr double kLeastSpread_m = 0.1; // marks nearer than that are at one place

} // namespace

Expected<HighWaterLine> high_water_line(const std::vector<HighWaterMark>& marks, double mark_u_m) {
    HighWaterLine line;
    std::vector<HighWaterMark> used;
    std::int64_t row = 0;
    for (const HighWaterMark& mark : marks) {
        ++row;
        if (mark.struck)
            continue;
        if (!in_range(mark.distance_m, -kHighestWater_m, kHighestWater_m) ||
            !in_range(mark.height_m, -kHighestWater_m, kHighestWater_m))
            return refusal("flow.bad_mark", "height_m", {{"row", row}});
        used.push_back(mark);
    }
    const double count = static_cast<double>(used.size());
    double mean_height_m = 0.0;
    for (const HighWaterMark& mark : used) {
        line.middle_m += mark.distance_m / count;
        mean_height_m += mark.height_m / count;
    }
    double spread = 0.0;
    double together = 0.0;
    for (const HighWaterMark& mark : used) {
        spread += (mark.distance_m - line.middle_m) * (mark.distance_m - line.middle_m);
        together += (mark.distance_m - line.middle_m) * (mark.height_m - mean_height_m);
    }
    if (used.size() < 2 || spread < kLeastSpread_m * kLeastSpread_m)
        return refusal("flow.few_marks", {}, {{"count", static_cast<std::int64_t>(used.size())}});
    line.slope.value = -together / spread;
    double squares = 0.0;
    for (const HighWaterMark& mark : used) {
        const double off_m = mark.height_m - line.level_at(mark.distance_m, mean_height_m, line.slope.value);
        squares += off_m * off_m;
    }
    const int freedom = static_cast<int>(used.size()) - 2;
    line.scatter_m = freedom > 0 ? std::sqrt(squares / freedom) : 0.0;
    // a scatter that the marks' own uncertainty explains says nothing new
    const bool more = line.scatter_m > kMarksScatter * mark_u_m;
    const double u_m = more ? line.scatter_m * student_factor(freedom) : std::max(line.scatter_m, mark_u_m);
    line.level_m = {mean_height_m, u_m / std::sqrt(count)};
    line.slope.standard_uncertainty = u_m / std::sqrt(spread);
    return line;
}

} // namespace rillmark
