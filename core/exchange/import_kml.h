// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "exchange/import_features.h"

#include <string>
#include <string_view>

namespace rillmark {

/// Reads the placemarks of KML 2.2 (OGC 07-147r2): points, lines, rings and polygons, alone or in a MultiGeometry, and
/// recorded tracks (Track and MultiTrack). Data and SimpleData of ExtendedData become fields; the folder is the layer.
/// A height counts only with an altitudeMode of absolute, or of a track: others are above the ground (`clampToGround`,
/// also when none is given, and `relativeToGround`). Placemarks without a geometry and links to other files are left
/// out
/// (`exchange.import_empty`, `exchange.kml_link` in the notes).
///
/// Refuses as read_gpx() does; a tuple that is no position with the line at which its element ends. Source: OGC
/// 07-147r2, clauses 9 to 12 (from memory, unconfirmed).
[[nodiscard]] Expected<ImportedFile> read_kml(std::string_view bytes, const std::string& file);

} // namespace rillmark
