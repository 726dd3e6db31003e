// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "position/local_frame.h"
#include "position/station_kind.h"
#include "site/heights.h"
#include "site/survey.h"

#include <optional>
#include <string>
#include <vector>

namespace rillmark {

/// A place on the map with its height above mean sea level as receivers gave it.
struct ExportPoint {
    GeoPoint point;
    std::optional<double> height_msl_m;
    std::string time; // UTC, empty for stations
};

struct ExportStation {
    Id id = 0;
    std::string name;
    std::string kind; // id of StationKind, or that of a newer version
    std::string note;
    std::optional<GeoPoint> position;
    std::optional<Estimate> height_m;     // above the datum of the height network
    std::optional<Estimate> fall_m;       // below the intake
    std::optional<Estimate> height_msl_m; // above mean sea level as receivers gave it
};

struct ExportLine {
    StationLine line = StationLine::None;
    std::vector<ExportPoint> points;
    double length_m = 0.0; // level; of a boundary with three corners or more its way round
    /// A boundary with three corners or more.
    [[nodiscard]] bool closed() const { return line == StationLine::Boundary && points.size() >= 3; }
};

struct ExportProfilePoint {
    std::string station;
    double chainage_m = 0.0;
    Estimate height_m;
    std::optional<Estimate> fall_m; // below the intake
};

/// What every format but the text tables draws: the site without what is struck out.
struct ExportSite {
    std::string name;
    std::string note;
    std::vector<ExportStation> stations; // as logged; those without a position too
    std::vector<ExportLine> lines;       // pipe, cable, boundary, where known
    std::vector<std::vector<ExportPoint>> track; // in parts of two points or more
    std::vector<ExportProfilePoint> profile;     // from the intake down
    [[nodiscard]] bool has_positions() const;
};

/// Longest time between two fixes of one part of the track, own choice.
inline constexpr double kLongestTrackGap_s = 60.0;

/// Gathers the site for writing.
///
/// Heights above mean sea level are those of receivers alone, never those of the height network, whose datum may be the
/// ellipsoid's or the site's own: at a station the mean by 1/u^2 over its stays that have one. Stays without u_up_m are left
/// out where others have one; where none has, the plain mean without an uncertainty (0) stands.
/// The track is every fix that belongs to no stay, by time; it is cut where the time between two is longer than
/// kLongestTrackGap_s or a time cannot be read. A part of a single fix is left out.
[[nodiscard]] ExportSite export_site(const Survey& survey, const SiteHeights& heights,
                                     const std::vector<Booked<FixRow>>& fixes);

/// "pipe", "cable", "boundary", "" for none: how files name a line.
[[nodiscard]] std::string line_id(StationLine line);

/// Twice the area inside a ring in square degrees, positive where it runs counterclockwise.
[[nodiscard]] double signed_area_deg2(const std::vector<ExportPoint>& ring);
/// The ring counterclockwise and closed, its first point again at the end (RFC 7946, section 3.1.6; KML 2.2, 10.8).
[[nodiscard]] std::vector<ExportPoint> closed_ring(std::vector<ExportPoint> corners);

} // namespace rillmark
