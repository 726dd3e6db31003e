// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <array>
#include <optional>
#include <span>

namespace rillmark {

struct GeometryPoint {
    double longitude_deg = 0.0;
    double latitude_deg = 0.0;
};

/// Bytes of a GeoPackage point: 8 of header, 21 of WKB.
inline constexpr std::size_t kPointBlobBytes = 29;

/// A point of WGS 84 (srs_id 4326) as a GeoPackage geometry: little-endian, no envelope, x = longitude, y = latitude.
/// Source: OGC 12-128r18, clause 2.1.3 (StandardGeoPackageBinary); OGC 06-103r4 for the WKB.
[[nodiscard]] std::array<unsigned char, kPointBlobBytes> point_blob(const GeometryPoint& point);

/// The point in a GeoPackage geometry, of either byte order and with any envelope. Refuses (nullopt) whatever is not
/// one finite two-dimensional point of srs_id 4326 that fills the blob exactly.
[[nodiscard]] std::optional<GeometryPoint> read_point_blob(std::span<const unsigned char> blob);

} // namespace rillmark
