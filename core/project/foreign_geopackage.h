// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "exchange/import_features.h"

#include <cstdint>
#include <filesystem>
#include <string>
#include <vector>

namespace rillmark {

/// A table with a geometry in a GeoPackage of another program.
struct ForeignLayer {
    std::string name;
    std::string geometry;  // as the file names its type: POINT, multilinestring, ...
    std::string system;    // "EPSG:4326", or "undefined"
    bool readable = false; // WGS 84, or a UTM zone of it
    std::int64_t rows = 0;
    std::vector<std::string> columns; // but for the geometry
};

/// The layers of a GeoPackage of any version, opened as untrusted input and only read.
///
/// Refuses what check_header() refuses, a file without gpkg_contents or gpkg_geometry_columns
/// (`exchange.gpkg_no_contents`), one without a layer (`exchange.gpkg_no_layer`), and a file that another program is
/// writing (`project.side_file`).
[[nodiscard]] Expected<std::vector<ForeignLayer>> foreign_layers(const std::filesystem::path& path);

/// Reads one layer: each shape of a row is a feature, its other columns are fields; `name`, `kind` and `note` are taken
/// as such. Rows whose geometry is missing or empty are left out (`exchange.import_empty` with the number of such
/// rows).
///
/// Positions may be of EPSG 4326 or 4979, or of a UTM zone of WGS 84 (326xx, 327xx; accuracy as GeographicLib's
/// UTMUPS, nanometres). With `assume_wgs84` they are taken as longitude and latitude whatever the file says. A geometry
/// that names the system 0 where the layer names one takes the layer's (`exchange.gpkg_blob_system`). Refuses: no such
/// layer (`exchange.gpkg_no_such_layer`), another system (`exchange.gpkg_reference_system`), a geometry that names
/// another system than the layer (`exchange.gpkg_systems_differ`), one that cannot be read
/// (`exchange.gpkg_bad_geometry`, with the row), positions off the globe (`exchange.import_not_a_position`), and what
/// foreign_layers() refuses.
[[nodiscard]] Expected<ImportedFile> read_foreign_layer(const std::filesystem::path& path, const std::string& layer,
                                                        bool assume_wgs84 = false);

} // namespace rillmark
