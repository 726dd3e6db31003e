// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "exchange/import_features.h"

#include <string>
#include <string_view>

namespace rillmark {

/// Reads GeoJSON (RFC 7946): a FeatureCollection, a Feature or a geometry alone. Multi-geometries and collections
/// become a feature for each of their points, one for all pieces of a line, one for each polygon. Properties that are
/// text, numbers or truth values become fields; `name`, `kind` (also `type`) and `note` (also `desc`, `description`)
/// are taken as such; a list of times in `coordTimes` goes to the points. Features without a geometry are left out
/// (`exchange.import_empty`).
///
/// Refuses JSON that is not whole, with line and column (`exchange.json_not_well_formed`), what lies deeper than
/// kGeoJsonDeepest (`exchange.json_too_deep`), what is no GeoJSON with the number of the feature
/// (`exchange.geojson_wrong`), a reference system other than WGS 84 as older files name it (`exchange.geojson_crs`),
/// a position off the globe (`exchange.import_not_a_position`), and as read_gpx() does.
[[nodiscard]] Expected<ImportedFile> read_geojson(std::string_view bytes, const std::string& file);

inline constexpr int kGeoJsonDeepest = 64; // our own choice

} // namespace rillmark
