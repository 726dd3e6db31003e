// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "expected.h"

#include <cstdint>
#include <numbers>
#include <vector>

namespace rillmark {

/// A point of the line of a pipe.
struct PipePoint {
    double chainage_m = 0.0; // along the slope, from the intake down
    double level_m = 0.0;    // of the pipe's axis
    double bend_rad = 0.0;   // change of direction seen from above, 0..pi
};

enum class SpotKind : std::uint8_t {
    High, // traps air: an air valve
    Low,  // traps silt: a drain
};

struct GradeSpot {
    SpotKind kind = SpotKind::High;
    std::size_t point = 0; // of a level crest or bottom the lower end
};

/// A stretch that does not fall.
struct GradeStretch {
    std::size_t from = 0;
    std::size_t to = 0;
    double rise_m = 0.0; // >= 0; 0 where it runs level
};

struct PipeGrade {
    std::vector<GradeSpot> spots;
    std::vector<GradeStretch> not_falling;
};

/// Refuses fewer than two points (`power.too_few_points`), what is not finite, a chainage that does not grow
/// (`power.chainage_not_growing`), levels further apart than the pipe between them is long
/// (`power.rise_longer_than_pipe`) and a bend outside 0..pi (`power.bend_out_of_range`); argument `row` from 1.
[[nodiscard]] Expected<void> check_points(const std::vector<PipePoint>& points);

/// Whether the pipe falls all the way, and where it does not. A pipe that falls everywhere needs no air valve and no
/// drain between its ends; no least fall is asked for. Common practice, no source. Refuses as check_points does.
[[nodiscard]] Expected<PipeGrade> pipe_grade(const std::vector<PipePoint>& points);

/// Change of direction at an inner point, rad: of the slope and of `bend_rad` together, as of two lines in space.
/// `points` as check_points lets through, `point` not its first or last.
[[nodiscard]] double bend_at_rad(const std::vector<PipePoint>& points, std::size_t point);

// Bends from here on are given a thrust block; less is taken up by the joints. 5 degrees; common practice, no source.
inline constexpr double kBendForBlock_rad = std::numbers::pi / 36.0;

} // namespace rillmark
