// SPDX-License-Identifier: GPL-3.0-or-later
#include "position/station_kind.h"

#include <algorithm>
#include <array>

namespace rillmark {

namespace {

constexpr std::array kKinds{
    StationKindEntry{StationKind::Intake, "intake", StationLine::Pipe},
    StationKindEntry{StationKind::RoutePoint, "route-point", StationLine::Pipe},
    StationKindEntry{StationKind::HighPoint, "high-point", StationLine::Pipe},
    StationKindEntry{StationKind::Powerhouse, "powerhouse", StationLine::Pipe},
    StationKindEntry{StationKind::Tailwater, "tailwater", StationLine::None},
    StationKindEntry{StationKind::FloodMark, "flood-mark", StationLine::None},
    StationKindEntry{StationKind::BoundaryCorner, "boundary-corner", StationLine::Boundary},
    StationKindEntry{StationKind::CablePoint, "cable-point", StationLine::Cable},
    StationKindEntry{StationKind::House, "house", StationLine::Cable},
    StationKindEntry{StationKind::Benchmark, "benchmark", StationLine::None},
    StationKindEntry{StationKind::Crossing, "crossing", StationLine::None},
    StationKindEntry{StationKind::Access, "access", StationLine::None},
    StationKindEntry{StationKind::Hazard, "hazard", StationLine::None},
    StationKindEntry{StationKind::Other, "other", StationLine::None},
};

const StationKindEntry& entry_of(StationKind kind) {
    const auto hit = std::find_if(kKinds.begin(), kKinds.end(),
                                  [kind](const StationKindEntry& entry) { return entry.kind == kind; });
    return hit == kKinds.end() ? kKinds.back() : *hit;
}

} // namespace

std::span<const StationKindEntry> station_kinds() {
    return kKinds;
}

std::string_view station_kind_id(StationKind kind) {
    return entry_of(kind).id;
}

StationKind station_kind_from_id(std::string_view id) {
    const auto hit = std::find_if(kKinds.begin(), kKinds.end(),
                                  [id](const StationKindEntry& entry) { return entry.id == id; });
    return hit == kKinds.end() ? StationKind::Other : hit->kind;
}

StationLine station_line(StationKind kind) {
    return entry_of(kind).line;
}

} // namespace rillmark
