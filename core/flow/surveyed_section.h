// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <vector>

namespace rillmark {

/// A point of the bed or bank, as surveyed across the stream.
struct SectionPoint {
    double offset_m = 0.0; // along the section; does not fall from point to point
    double height_m = 0.0;
};

/// A section across the stream.
struct SurveyedSection {
    std::int64_t id = 0;
    double distance_m = 0.0; // along the stream, rising downstream
    std::vector<SectionPoint> points;
};

/// What a water level wets of a section.
struct WettedSection {
    double area_m2 = 0.0;
    double perimeter_m = 0.0;
    double width_m = 0.0;
    bool open = false; // the water stands above an end of the survey; a vertical wall is taken there

    [[nodiscard]] double hydraulic_radius_m() const { return perimeter_m > 0.0 ? area_m2 / perimeter_m : 0.0; }
};

/// The wetted part of a section below a level water surface, straight lines between the points. Exact to rounding.
/// Nothing is checked: offsets must not fall and all must be finite.
[[nodiscard]] WettedSection wetted_section(const std::vector<SectionPoint>& points, double level_m);

} // namespace rillmark
