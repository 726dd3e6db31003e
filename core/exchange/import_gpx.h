// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "exchange/import_features.h"

#include <string>
#include <string_view>

namespace rillmark {

/// Reads GPX 1.1, and what is the same in 1.0: waypoints as points, routes as lines, each segment of a track as a part
/// of a walked line. Extensions are passed over; an empty elevation or a time that is none counts as missing; routes
/// and tracks without points are left out (`exchange.import_empty` in the notes).
///
/// Refuses what read_xml() refuses, a root that is not gpx (`exchange.import_wrong_root`), a point without a
/// position or off the globe (`exchange.import_not_a_position`, with the line), a file with nothing in it
/// (`exchange.import_nothing`) and what is beyond the limits. Source: GPX 1.1 schema (from memory, unconfirmed).
[[nodiscard]] Expected<ImportedFile> read_gpx(std::string_view bytes, const std::string& file);

} // namespace rillmark
