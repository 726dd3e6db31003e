// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <span>
#include <string_view>

namespace rillmark {

/// What a station is for.
enum class StationKind {
    Intake,
    RoutePoint,
    HighPoint,
    Powerhouse,
    Tailwater,
    FloodMark,
    BoundaryCorner,
    CablePoint,
    House,
    Benchmark,
    Crossing,
    Access,
    Hazard,
    Other, // a kind of a newer version, or none of the above
};

/// The line that stations of a kind are joined to, in the order in which they were walked.
enum class StationLine { None, Pipe, Cable, Boundary };

struct StationKindEntry {
    StationKind kind;
    std::string_view id; // as stored in the project file; never changes
    StationLine line;
};

/// All kinds in the order in which they are offered. A new kind is one value of the enum and one line of this table.
[[nodiscard]] std::span<const StationKindEntry> station_kinds();

[[nodiscard]] std::string_view station_kind_id(StationKind kind);
/// The kind for a stored id; Other for an id that this version does not know. Keep the text as it was read when writing
/// back, so that nothing of a newer version is lost.
[[nodiscard]] StationKind station_kind_from_id(std::string_view id);
[[nodiscard]] StationLine station_line(StationKind kind);

} // namespace rillmark
