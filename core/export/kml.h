// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "export/export_site.h"

#include <ostream>

namespace rillmark {

/// Writes the site as KML (OGC 07-147r2, OGC KML 2.2.0): a folder each for stations, lines and track, the boundary as a
/// polygon that runs counterclockwise.
///
/// Altitudes are above mean sea level by that standard (EGM96) and are written only to stations where a receiver gave one;
/// lines and track are laid on the ground (clampToGround). Heights with their standard uncertainties are ExtendedData
/// under the names of write_geojson(). Stations without a position are left out.
void write_kml(std::ostream& out, const ExportSite& site);

} // namespace rillmark
