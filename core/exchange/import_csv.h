// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "exchange/import_features.h"

#include <string>
#include <string_view>

namespace rillmark {

/// Which columns of a text table hold the position; empty: found by their names.
struct PositionColumns {
    std::string longitude;
    std::string latitude;
};

/// Reads a text table (see read_csv) with a point a row: longitude and latitude in degrees of WGS 84. Without a choice
/// the columns are those named longitude_deg, longitude, lon, lng, long or x, and latitude_deg, latitude, lat or y
/// (case does not count). In a file separated by semicolons the decimal mark may be the comma. Every column becomes a
/// field; `name`, `kind` and `note` are taken as such. Rows without a position are left out (`exchange.import_empty`).
///
/// Refuses what read_csv() refuses, columns that the file has not (`exchange.import_column_missing`, with those that it
/// has), and a cell that is no position with line and column (`exchange.import_not_a_position`).
[[nodiscard]] Expected<ImportedFile> read_place_table(std::string_view bytes, const std::string& file,
                                                      const PositionColumns& columns = {});

} // namespace rillmark
