// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "expected.h"

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace rillmark {

// Limits of a file of another program, our own choice: far above any survey, far below what fills a memory.
inline constexpr std::size_t kImportLargestFile_bytes = 64u * 1024u * 1024u;
inline constexpr std::size_t kImportMostPoints = 500'000;
inline constexpr std::size_t kImportMostFeatures = 100'000;

/// A vertex in WGS 84.
struct ImportPoint {
    double longitude_deg = 0.0;
    double latitude_deg = 0.0;
    std::optional<double> height_m; // as in the file; above the sea or the ellipsoid it does not say
    std::string time_utc;           // ISO 8601 with milliseconds; empty: none, or one that is not a time
    std::string name;               // of a vertex that has one: a route point
};

enum class ImportShape : std::uint8_t { Point, Line, Area };

/// One thing on a map as another program wrote it.
struct ImportFeature {
    ImportShape shape = ImportShape::Point;
    bool walked = false; // a line recorded by a receiver
    std::string layer;   // within the file: waypoints, routes, tracks, the name of a table
    std::string name;
    std::string kind; // what the file calls it
    std::string note;
    /// A point: one part of one. A line: its pieces. An area: the outer ring, then its holes, each closed.
    std::vector<std::vector<ImportPoint>> parts;
    std::vector<std::pair<std::string, std::string>> fields; // other columns, to be chosen for name, kind and height
    std::int64_t line = 0;                                   // of the file, or number of the row, from 1
};

/// What a file holds, and what was left out of it.
struct ImportedFile {
    std::string format; // gpx, kml, geojson, csv, geopackage
    std::vector<ImportFeature> features;
    Findings notes;
};

/// The text of a field; nullptr where the feature has none of that name.
[[nodiscard]] const std::string* field_of(const ImportFeature& feature, const std::string& name);
/// Points of all parts.
[[nodiscard]] std::size_t point_count(const ImportFeature& feature);

/// A longitude and latitude as written, with `.` for the decimal mark. Refuses text that is no number, and numbers
/// outside +-180 and +-90 (`exchange.import_not_a_position`, with the text).
[[nodiscard]] Expected<ImportPoint> import_point(const std::string& longitude, const std::string& latitude);
/// A number of a file, spaces around it allowed; nothing for other text and for numbers that are not finite.
[[nodiscard]] std::optional<double> import_number(std::string_view text);
/// ISO 8601 of any zone and any decimals as UTC with milliseconds; without a zone it is UTC, as GPX 1.1 has it (from
/// memory, unconfirmed). Empty for text that is no time.
[[nodiscard]] std::string import_time(std::string_view text);
/// Without the spaces around, and with every run of space within as one space; at most kLongestImportText letters.
[[nodiscard]] std::string import_text(std::string_view text);
inline constexpr std::size_t kLongestImportText = 2000; // bytes, our own choice

/// Keeps the count of what is read; refuses beyond the limits above (`exchange.import_too_many_points`).
class ImportCount {
public:
    explicit ImportCount(std::string file) : m_file(std::move(file)) {}
    [[nodiscard]] Expected<void> point();
    [[nodiscard]] Expected<void> feature();

private:
    std::string m_file;
    std::size_t m_points = 0;
    std::size_t m_features = 0;
};

} // namespace rillmark
