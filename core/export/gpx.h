// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "export/export_site.h"

#include <ostream>

namespace rillmark {

/// Writes the site as GPX 1.1 (GPX 1.1 schema documentation, topografix.com/GPX/1/1): stations as waypoints, pipe, cable
/// and boundary as routes (a boundary comes back to its first corner), the track with its parts as segments.
///
/// `ele` is a height above mean sea level by that schema and is written only where a receiver gave one; the heights of the
/// height network, on whatever datum, never are. Stations without a position are left out. Coordinates have nine decimals
/// (0.1 mm), heights three.
void write_gpx(std::ostream& out, const ExportSite& site);

} // namespace rillmark
