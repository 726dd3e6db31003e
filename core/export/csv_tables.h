// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "export/plan_frame.h"
#include "project/columns.h"
#include "project/project.h"

#include <ostream>
#include <string>
#include <vector>

namespace rillmark {

/// One text table: RFC 4180 in UTF-8 without byte-order mark, lines end with CRLF.
struct TextTable {
    std::string name; // of the file: that of the table and ".csv"
    std::string text;
};

/// Writes the rows of one table: the columns of the record by their names, which carry the SI unit, then `struck` (1 for
/// a row struck out) and `struck_reason`. Missing values are empty cells, numbers read back to the same. With a frame, rows
/// that have a place get `east_m`, `north_m` and `frame` as well; a place that the frame does not reach leaves them empty.
template <class Record>
void write_csv_table(std::ostream& out, const std::vector<Booked<Record>>& rows, const PlanFrame* frame = nullptr);

/// Every table of records.h and which photo belongs to which station (station_photo.csv). The pictures and the edit log
/// stay in the project file. Refuses what Project::all refuses.
[[nodiscard]] Expected<std::vector<TextTable>> csv_tables(const Project& project, const PlanFrame* frame = nullptr);

/// The long profile as a table: station, chainage_m (level), height_m above the datum of the height network, height_u_m
/// its standard uncertainty, height_pm_m the +/- (k = 2), fall_m below the intake and fall_u_m, fall_pm_m alike.
/// Lengths have four decimals (0.1 mm).
void write_profile_csv(std::ostream& out, const ExportSite& site);

} // namespace rillmark
