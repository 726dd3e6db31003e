// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "exchange/import_features.h"
#include "project/project.h"

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace rillmark {

/// What the lines of a file become.
enum class ImportLines : std::uint8_t {
    Track, // fixes of the track walked; a line that no receiver recorded as well
    Pipe,  // stations along the route of the pipe
    Cable,
    Boundary, // corners
    None,
};

/// How a file is taken into a site: chosen by the person.
struct ImportChoice {
    std::string name_field;           // empty: what the file calls the name
    std::string kind_field;           // empty: what the file calls the kind
    std::string height_field;         // metres; empty: the height of the geometry
    std::string point_kind = "other"; // id of StationKind for points whose kind is none of ours
    ImportLines lines = ImportLines::Track;
    bool areas_are_boundary = true; // else areas are left out
    std::optional<double>
        u_horizontal_m; // standard uncertainty of a position along one axis; empty: that of a fix of unknown quality
    std::optional<double> u_up_m; // of a height; empty: heights are kept, but take no part in the height network
};

/// The id of a choice for lines ("track", "pipe", "cable", "boundary", "none"), and back; nothing for other text.
[[nodiscard]] const char* import_lines_id(ImportLines lines);
[[nodiscard]] std::optional<ImportLines> import_lines_from_id(std::string_view id);

/// A station to come, with the stay that places it.
struct ImportStation {
    StationRow station;
    OccupationRow stay; // its station_id is filled when it is booked
};

/// One feature as the person sees it before it is taken in.
struct ImportPreview {
    std::string name;
    std::string layer;
    ImportShape shape = ImportShape::Point;
    std::size_t points = 0;
    std::string becomes; // id of StationKind, "track", or empty: left out
    std::int64_t line = 0;
};

/// What would come in: rows ready to be booked, and what is to be said of them.
struct ImportPlan {
    std::vector<ImportStation> stations;
    std::vector<FixRow> fixes;
    std::vector<ImportPreview> preview; // of every feature
    Findings notes;
};

// Our own choice: more stations than this are no survey by hand; a line is then better taken as a track.
inline constexpr std::size_t kMostImportStations = 2000;

/// Makes rows of what a file holds.
///
/// Points become stations: of the kind that the file names where that is one of ours (an id of StationKind), else of
/// `point_kind`. Lines and areas become what is chosen; of an area the outer ring alone (`site.import_holes`). Stations
/// along a line bear its name and a number, but for vertices with a name of their own. A station's height is kept in
/// its stay as one above the sea (files do not say above what). Fixes and stays bear the quality "unknown" and the time
/// of the file; where it has none, that of the booking.
///
/// Refuses: a point_kind that is none of ours (`site.import_kind_unknown`), a chosen field that no feature has
/// (`site.import_field_missing`), more than kMostImportStations stations (`site.import_too_many_stations`),
/// uncertainties that are not finite or negative (`site.import_bad_uncertainty`), nothing left to take in
/// (`site.import_nothing_left`).
[[nodiscard]] Expected<ImportPlan> plan_import(const ImportedFile& file, const ImportChoice& choice,
                                               const std::string& file_name);

/// Where a plan came from.
struct ImportSource {
    std::string format;
    std::string file_name;
    std::string file_sha256;
    std::string layer;
    std::string mapping;
};
/// How a choice reads in the record.
[[nodiscard]] std::string mapping_text(const ImportChoice& choice);

/// Photos are linked to the nearest station within this distance; our own choice.
inline constexpr double kPhotoReach_m = 30.0;

struct ImportOutcome {
    std::size_t stations = 0;
    std::size_t fixes = 0;
    std::size_t photos = 0;
};

/// Books all of a plan, and photos with it, as one action that one undo takes back; its first row says where it came
/// from. A photo is linked to the nearest station within kPhotoReach_m of its position. Refuses what
/// Project::together() refuses; nothing is stored then.
[[nodiscard]] Expected<ImportOutcome> book_import(Project& project, const ImportPlan& plan, const ImportSource& source,
                                                  const std::vector<PhotoData>& photos = {});

/// The import of the same bytes that the site already has, not undone; nothing else.
[[nodiscard]] std::optional<ImportRow> earlier_import(const Project& project, const std::string& file_sha256);

} // namespace rillmark
