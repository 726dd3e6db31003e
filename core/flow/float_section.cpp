// SPDX-License-Identifier: GPL-3.0-or-later
#include "flow/float_section.h"

#include "flow/limits.h"
#include "flow/tracer_input.h"
#include "units/in_range.h"

#include <algorithm>

namespace rillmark {

namespace {

constexpr double kNarrowest_m = 0.01;

Expected<FloatSectionArea> sounded(const std::vector<SoundedDepth>& soundings, std::size_t place) {
    for (std::size_t i = 0; i < soundings.size(); ++i) {
        if (!in_range(soundings[i].distance_m, -kFarthest_m, kFarthest_m))
            return bad_row_value("flow.bad_distance", "distance_m", i, soundings[i].distance_m, Quantity::Length);
        if (!in_range(soundings[i].depth_m, 0.0, kDeepest_m))
            return bad_row_value("flow.bad_depth", "depth_m", i, soundings[i].depth_m, Quantity::Length);
        for (std::size_t k = 0; k < i; ++k)
            if (soundings[k].distance_m == soundings[i].distance_m)
                return refusal("flow.same_distance", "distance_m",
                               {{"other", static_cast<std::int64_t>(k) + 1},
                                {"row", static_cast<std::int64_t>(i) + 1},
                                {"distance", soundings[i].distance_m, Quantity::Length}});
    }
    FloatSectionArea area;
    area.profile = soundings;
    std::ranges::sort(area.profile, {}, &SoundedDepth::distance_m);
    const double from_m = area.profile.front().distance_m;
    const double to_m = area.profile.back().distance_m;
    area.width_m = to_m - from_m;
    area.area_m2 = strip_area_m2(area.profile, from_m, to_m);
    if (!(area.area_m2 > 0.0))
        return refusal("flow.float_no_area", {}, {{"section", static_cast<std::int64_t>(place) + 1}});
    return area;
}

} // namespace

Expected<FloatSectionArea> float_section_area(const FloatSection& section, std::size_t place) {
    const bool plain = section.width_m && section.mean_depth_m;
    const bool part = section.width_m || section.mean_depth_m;
    if (section.soundings.empty() ? !plain : part)
        return refusal("flow.float_section_unclear", {}, {{"section", static_cast<std::int64_t>(place) + 1}});
    if (!section.soundings.empty())
        return sounded(section.soundings, place);
    if (!in_range(*section.width_m, kNarrowest_m, kFarthest_m))
        return refusal("flow.bad_width", "width_m", {{"value", *section.width_m, Quantity::Length}});
    if (!in_range(*section.mean_depth_m, kShallowest_m, kDeepest_m))
        return refusal("flow.bad_mean_depth", "mean_depth_m", {{"value", *section.mean_depth_m, Quantity::Length}});
    return FloatSectionArea{*section.width_m, *section.width_m * *section.mean_depth_m, {}};
}

double strip_area_m2(std::span<const SoundedDepth> profile, double from_m, double to_m) {
    double area_m2 = 0.0;
    for (std::size_t i = 1; i < profile.size(); ++i) {
        const SoundedDepth& a = profile[i - 1];
        const SoundedDepth& b = profile[i];
        const double left_m = std::max(from_m, a.distance_m);
        const double right_m = std::min(to_m, b.distance_m);
        if (!(right_m > left_m))
            continue;
        const double slope = (b.depth_m - a.depth_m) / (b.distance_m - a.distance_m);
        const double middle_m = 0.5 * (left_m + right_m);
        area_m2 += (right_m - left_m) * (a.depth_m + slope * (middle_m - a.distance_m));
    }
    return area_m2;
}

} // namespace rillmark
