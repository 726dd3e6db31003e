// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "flow/velocity_area.h"

#include <cstddef>
#include <optional>
#include <vector>

namespace rillmark {

/// A vertical, its place in the list as given, from 1, and the part of the section that it is in, from 0.
struct PlacedVertical {
    std::int64_t row = 0;
    const Vertical* vertical = nullptr;
    std::size_t part = 0;
};

/// A vertical that has been checked and has its velocity: what velocity_area computes with and judges.
struct GaugedVertical : PlacedVertical {
    std::optional<VerticalVelocity> measured;
    bool wall_estimated = false; // velocity by the share of the neighbour
    double velocity_ms = 0.0;    // normal to the section
};

/// The verticals beside the one at `index` in its part of the section; nothing beyond an end.
struct Neighbours {
    const GaugedVertical* left = nullptr;
    const GaugedVertical* right = nullptr;
};
[[nodiscard]] Neighbours neighbours(const std::vector<GaugedVertical>& section, std::size_t index);

/// Checks the verticals that are not struck, sorts them by distance and gives each its velocity. Refuses as
/// velocity_area says. The result points into `verticals`.
[[nodiscard]] Expected<std::vector<GaugedVertical>> gauged_section(const std::vector<Vertical>& verticals,
                                                                   const VelocityAreaOptions& options);

/// Everything that velocity_area warns of or notes, given its result so far.
[[nodiscard]] Findings velocity_area_findings(const std::vector<GaugedVertical>& section,
                                              const VelocityAreaResult& result, const VelocityAreaOptions& options);

} // namespace rillmark
