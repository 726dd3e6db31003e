// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "export/export_site.h"

#include <ostream>

namespace rillmark {

/// Writes the site as one GeoJSON FeatureCollection (RFC 7946): WGS 84, longitude first, no `crs`, the boundary as a
/// polygon that runs counterclockwise.
///
/// Every feature has `what`: station, pipe, cable, boundary or track. Stations without a position have a null geometry.
/// Positions have no third number, since it would have to be a height above the ellipsoid (section 4): heights are
/// properties, each with its standard uncertainty `..._u_m`: `height_m` above the datum of the height network, `fall_m` below
/// the intake, `height_msl_m` above mean sea level as receivers gave it; null where unknown. Numbers read back to the same.
/// A site that crosses the meridian of 180 degrees is not cut there (section 3.1.9 advises to).
void write_geojson(std::ostream& out, const ExportSite& site);

} // namespace rillmark
