// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "flow/float_gauging.h"

#include <span>
#include <vector>

namespace rillmark {

/// A section that has been checked.
struct FloatSectionArea {
    double width_m = 0.0;
    double area_m2 = 0.0;
    std::vector<SoundedDepth> profile; // by rising distance; empty where width and depth were given
};

/// Checks and works out one section. Refuses as float_gauging says; `place` is its place in the list, from 0.
[[nodiscard]] Expected<FloatSectionArea> float_section_area(const FloatSection& section, std::size_t place);

/// Area of the profile between two distances.
[[nodiscard]] double strip_area_m2(std::span<const SoundedDepth> profile, double from_m, double to_m);

} // namespace rillmark
