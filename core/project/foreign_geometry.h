// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "exchange/import_features.h"

#include <cstdint>
#include <optional>
#include <span>
#include <vector>

namespace rillmark {

/// A vertex in whatever system the file uses: x east or longitude, y north or latitude.
struct ForeignVertex {
    double x = 0.0;
    double y = 0.0;
    std::optional<double> z;
};

struct ForeignShape {
    ImportShape shape = ImportShape::Point;
    std::vector<std::vector<ForeignVertex>> parts; // as ImportFeature has them; none is empty
};

struct ForeignGeometry {
    std::int32_t srs_id = 0;
    std::vector<ForeignShape> shapes; // empty: an empty geometry, whether the blob says so or not
};

/// Any core geometry of a GeoPackage of any version: points, lines, polygons, their multiples and collections, with or
/// without z and m, of either byte order. A collection within others is read to a depth of 8.
///
/// Refuses (nullopt) what is cut short, other types, counts that the blob cannot hold, and numbers that are not finite
/// but for those of an empty point. Source: OGC 12-128r19, clause 2.1.3; OGC 06-103r4 for the WKB, and the flags for z
/// and m of older programs (0x80000000, 0x40000000; from memory, unconfirmed).
[[nodiscard]] std::optional<ForeignGeometry> read_foreign_geometry(std::span<const unsigned char> blob);

} // namespace rillmark
