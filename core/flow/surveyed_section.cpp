// SPDX-License-Identifier: GPL-3.0-or-later
#include "flow/surveyed_section.h"

#include <algorithm>
#include <cmath>
#include <cstddef>

namespace rillmark {

WettedSection wetted_section(const std::vector<SectionPoint>& points, double level_m) {
    WettedSection wet;
    for (std::size_t i = 1; i < points.size(); ++i) {
        const double first_m = level_m - points[i - 1].height_m;
        const double second_m = level_m - points[i].height_m;
        const double deeper_m = std::max(first_m, second_m);
        const double shallower_m = std::min(first_m, second_m);
        if (deeper_m <= 0.0)
            continue;
        // part of the line that lies under water
        const double part = shallower_m >= 0.0 ? 1.0 : deeper_m / (deeper_m - shallower_m);
        const double width_m = part * (points[i].offset_m - points[i - 1].offset_m);
        wet.width_m += width_m;
        wet.area_m2 += 0.5 * width_m * (deeper_m + std::max(shallower_m, 0.0));
        wet.perimeter_m += std::hypot(width_m, deeper_m - std::max(shallower_m, 0.0));
    }
    if (points.empty())
        return wet;
    for (const SectionPoint& end : {points.front(), points.back()}) {
        const double depth_m = level_m - end.height_m;
        if (depth_m > 0.0) {
            wet.open = true;
            wet.perimeter_m += depth_m;
        }
    }
    return wet;
}

} // namespace rillmark
