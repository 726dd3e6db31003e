// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "exchange/import_csv.h"
#include "exchange/import_features.h"

#include <filesystem>
#include <string>

namespace rillmark {

/// What a person says of a file before it is read.
struct ImportReading {
    std::string layer;         // of a GeoPackage; empty: its only one
    PositionColumns positions; // of a CSV
    bool assume_wgs84 = false; // of a GeoPackage
};

/// The format by the first bytes of the file, told from each other without its ending: gpx, kml, geojson, geopackage,
/// jpeg, else csv.
[[nodiscard]] std::string import_format(std::string_view head);

/// The bytes of a file that is to be taken in. Refuses `exchange.cannot_read`, and more than kImportLargestFile_bytes
/// (`exchange.import_file_too_large`).
[[nodiscard]] Expected<std::string> import_bytes(const std::filesystem::path& path);

/// Reads GPX, KML, GeoJSON, a text table, or a layer of a GeoPackage, whichever it is. A picture is none of these
/// (`exchange.import_is_photo`), nor is a GeoPackage with several layers of which none was chosen
/// (`exchange.import_choose_layer`, with their names).
[[nodiscard]] Expected<ImportedFile> read_import_file(const std::filesystem::path& path, const std::string& bytes,
                                                      const ImportReading& reading = {});

} // namespace rillmark
