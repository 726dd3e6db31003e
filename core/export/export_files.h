// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "expected.h"

#include <filesystem>
#include <string>
#include <vector>

namespace rillmark {

/// What to write of a site, in which format, and where.
struct ExportOrder {
    std::string format;         // csv, geojson, gpx, kml, dxf, profile
    std::filesystem::path site; // project file; only read
    std::filesystem::path to;   // a folder for csv, else a file; dxf writes NAME-profile beside it
    bool utm = false;   // csv, dxf: metres of the site's UTM zone; without it csv has WGS 84 degrees, dxf local metres
    bool force = false; // write over files that are there
};

/// Writes the files and names them. Each comes into its place whole or not at all, and none before all may be written.
/// Refuses what Project::open() refuses, `exchange.utm_not_in_format`, `exchange.no_positions`, `exchange.no_profile`,
/// `exchange.file_exists`, `exchange.onto_site` (the site is never written over) and `exchange.cannot_write`.
[[nodiscard]] Expected<std::vector<std::filesystem::path>> export_files(const ExportOrder& order);

} // namespace rillmark
