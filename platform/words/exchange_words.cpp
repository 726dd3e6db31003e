// SPDX-License-Identifier: GPL-3.0-or-later
#include "words/words.h"

namespace rillmark::words {

namespace {

constexpr const char* kOwn = "our own choice";

// The place in the file (file, line, column) is said in front of these sentences.
constexpr Word kWords[] = {
    // The file as a whole
    {"exchange.file_unreadable",
         RILLMARK_TR("{where} cannot be read, or is larger than 64 MB. Choose another file, or cut it to the time of the test."), ""},
    {"exchange.csv_empty", RILLMARK_TR("There is nothing in this file. It needs a header line and at least one row."), ""},
    {"exchange.csv_too_large", RILLMARK_TR("This file is larger than {limit_mib} MiB. Divide it."), kOwn},
    {"exchange.csv_too_many_rows", RILLMARK_TR("This file has more than {limit} rows. Divide it."), kOwn},
    {"exchange.csv_too_many_columns", RILLMARK_TR("This row has more than {limit} cells. Keep the columns asked for."), kOwn},
    {"exchange.csv_utf16", RILLMARK_TR("This file is written as UTF-16. Save it as UTF-8 and try again."), ""},
    {"exchange.csv_nul",
     RILLMARK_TR("There are zero bytes here: this is not a text file, or one written as UTF-16. Save it as CSV in UTF-8."),
     ""},
    {"exchange.csv_not_utf8",
     RILLMARK_TR("A character here is not written as UTF-8. Save the file as UTF-8 and try again."), ""},
    {"exchange.csv_quote_open", RILLMARK_TR("A quotation mark opens here and never closes. Close it, or take it out."), ""},
    {"exchange.csv_after_quote",
     RILLMARK_TR("Text follows the closing quotation mark. Write a quotation mark within quotes twice."), "RFC 4180, section 2"},
    {"exchange.csv_header_empty", RILLMARK_TR("This column has no name in the header. Name it, or remove the column."), ""},
    {"exchange.csv_header_twice", RILLMARK_TR("The header names \"{name}\" twice. Keep one of them."), ""},
    {"exchange.csv_no_rows", RILLMARK_TR("The header has no rows under it. Add at least one."), ""},
    {"exchange.csv_row_width",
     RILLMARK_TR("This row has {cells} cells, the header {expected}. Look for a missing or extra separator; a cell that holds "
                 "the separator belongs in quotation marks."),
     "RFC 4180, section 2"},
    {"exchange.csv_row_empty", RILLMARK_TR("This row has separators and no values. Fill it in, or remove it."), ""},

    {"exchange.cannot_read", RILLMARK_TR("{where} cannot be read ({detail}). Check its name and that you may read it."), ""},
    {"exchange.demo_missing", RILLMARK_TR("{where} of the demo creek is missing from this program. Install it again."), ""},

    // What the columns mean
    {"exchange.column_unknown",
     RILLMARK_TR("No column \"{name}\" is known here. Columns are: {accepted}; a unit may follow, such as depth_ft."), ""},
    {"exchange.column_unit_unknown",
     RILLMARK_TR("\"{unit}\" is not a unit of this column. Use one of: {accepted}."), ""},
    {"exchange.column_twice", RILLMARK_TR("Two columns give the {name}. Keep one of them."), ""},
    {"exchange.column_missing", RILLMARK_TR("The column {missing} is missing. Columns are: {accepted}."), ""},
    {"exchange.cell_empty", RILLMARK_TR("A value is missing here. Enter it."), ""},
    {"exchange.parameter_unknown",
     RILLMARK_TR("There is no parameter {parameter} here. Parameters are: {accepted}; a unit may follow, such as length_ft."),
     ""},
    {"exchange.parameter_unit_unknown",
     RILLMARK_TR("\"{unit}\" is not a unit of the parameter {parameter}. Use one of: {accepted}."), ""},
    {"exchange.parameter_twice", RILLMARK_TR("The parameter {parameter} is given twice. Keep one."), ""},

    // What one method asks
    {"exchange.no_reading", RILLMARK_TR("This row has no backsight, intermediate sight or foresight. Enter one, or remove "
                                        "the row."), ""},
    {"exchange.known_height_inside",
     RILLMARK_TR("A known height may stand on the first and on the last row only. Divide the line here into two files."), ""},
    {"exchange.allowance_unknown",
     RILLMARK_TR("There is no rule of closing \"{cell}\". Rules are: {accepted}."), ""},
    {"exchange.edge_unknown",
     RILLMARK_TR("\"{cell}\" is no kind of bank. Leave it empty in the stream, or use one of: {accepted}."), ""},
    {"exchange.vertical_differs",
     RILLMARK_TR("This row belongs to the vertical of line {first_line} and differs from it here. Repeat its value, leave it "
                 "empty, or correct the distance."),
     ""},
    {"exchange.rating_incomplete",
     RILLMARK_TR("The rating of the meter lacks {parameter}. One range takes rating_a and rating_b; two take rating_limit, "
                 "rating_a2 and rating_b2 as well, and three rating_limit2, rating_a3 and rating_b3."),
     ""},

    // The methods and what they take
    {"exchange.method.levels", RILLMARK_TR("Level book: heights, fall and misclosure"), ""},
    {"exchange.levels.point", RILLMARK_TR("point that the staff stands on"), ""},
    {"exchange.levels.backsight", RILLMARK_TR("first reading of a set-up"), ""},
    {"exchange.levels.intermediate", RILLMARK_TR("reading between"), ""},
    {"exchange.levels.foresight", RILLMARK_TR("last reading of a set-up; a change point has the next backsight on the same row"),
     ""},
    {"exchange.levels.distance", RILLMARK_TR("instrument to staff"), ""},
    {"exchange.levels.backsight_distance", RILLMARK_TR("instrument to staff, for the backsight to a change point"), ""},
    {"exchange.levels.known_height", RILLMARK_TR("height of a bench mark, on the first or last row"), ""},
    {"exchange.levels.start_level", RILLMARK_TR("height of the first point"), ""},
    {"exchange.levels.allowance", RILLMARK_TR("rule for the misclosure that is allowed"), ""},
    {"exchange.levels.length", RILLMARK_TR("length of the line, for rules by distance"), ""},
    {"exchange.method.container", RILLMARK_TR("Container and stopwatch: discharge"), ""},
    {"exchange.container.volume", RILLMARK_TR("water caught"), ""},
    {"exchange.container.time", RILLMARK_TR("time to catch it"), ""},
    {"exchange.container.volume_uncertainty", RILLMARK_TR("relative standard uncertainty of the container's volume"), ""},
    {"exchange.container.reaction", RILLMARK_TR("half-width of the error of the watch"), ""},
    {"exchange.method.velocity_area", RILLMARK_TR("Current meter: discharge by mid-section and mean-section"), ""},
    {"exchange.velocity_area.distance", RILLMARK_TR("place along the tape"), ""},
    {"exchange.velocity_area.depth", RILLMARK_TR("depth of the water there"), ""},
    {"exchange.velocity_area.fraction", RILLMARK_TR("depth of the reading as part of the depth: 0 (surface), 0.2, 0.4, 0.6, 0.8, 1 (bed); 0.6 where empty"), ""},
    {"exchange.velocity_area.velocity", RILLMARK_TR("velocity as the meter shows it"), ""},
    {"exchange.velocity_area.revolutions", RILLMARK_TR("count of the meter, with rating_a and rating_b"), ""},
    {"exchange.velocity_area.time", RILLMARK_TR("exposure"), ""},
    {"exchange.velocity_area.angle", RILLMARK_TR("of the flow to the normal of the section"), ""},
    {"exchange.velocity_area.edge", RILLMARK_TR("water-edge, vertical-bank, or empty in the stream"), ""},
    {"exchange.velocity_area.rating_a", RILLMARK_TR("v = a n + b: metres per revolution"), ""},
    {"exchange.velocity_area.rating_b", RILLMARK_TR("v = a n + b: velocity at no revolution"), ""},
    {"exchange.velocity_area.rating_limit", RILLMARK_TR("revolutions per second above which the second range holds"), ""},
    {"exchange.velocity_area.rating_a2", RILLMARK_TR("a of the second range"), ""},
    {"exchange.velocity_area.rating_b2", RILLMARK_TR("b of the second range"), ""},
    {"exchange.method.penstock", RILLMARK_TR("Penstock: speed, losses, net head and water power"), ""},
    {"exchange.penstock.case", RILLMARK_TR("name of the case"), ""},
    {"exchange.penstock.flow", RILLMARK_TR("flow through the pipe"), ""},
    {"exchange.penstock.gross_head", RILLMARK_TR("fall of the water level"), ""},
    {"exchange.penstock.length", RILLMARK_TR("slope length of the pipe"), ""},
    {"exchange.penstock.bore", RILLMARK_TR("inside diameter"), ""},
    {"exchange.penstock.roughness", RILLMARK_TR("roughness of the wall"), ""},
    {"exchange.penstock.minor_k", RILLMARK_TR("sum of the loss coefficients, none where empty"), ""},
    {"exchange.penstock.water_temperature", RILLMARK_TR("of the water, 10 ± 8 °C where empty"), ""},
    {"exchange.penstock.latitude", RILLMARK_TR("for gravity, 45° where empty"), ""},
    {"exchange.penstock.altitude", RILLMARK_TR("above the sea, for gravity"), ""},
    {"exchange.penstock.uncertainty", RILLMARK_TR("standard uncertainty, none where empty"), ""},

    // Results
    {"exchange.table.levels", RILLMARK_TR("Levels"), ""},
    {"exchange.table.fills", RILLMARK_TR("Fills"), ""},
    {"exchange.table.panels", RILLMARK_TR("Panels"), ""},
    {"exchange.result.discharge", RILLMARK_TR("discharge"), ""},
    {"exchange.result.discharge_mean_section", RILLMARK_TR("discharge by mean-section"), ""},
    {"exchange.result.fills", RILLMARK_TR("fills"), ""},
    {"exchange.result.volume", RILLMARK_TR("volume"), ""},
    {"exchange.result.time", RILLMARK_TR("time"), ""},
    {"exchange.result.distance", RILLMARK_TR("distance"), ""},
    {"exchange.result.depth", RILLMARK_TR("depth"), ""},
    {"exchange.result.velocity", RILLMARK_TR("velocity"), ""},
    {"exchange.result.width", RILLMARK_TR("width"), ""},
    {"exchange.result.area", RILLMARK_TR("area"), ""},
    {"exchange.result.share", RILLMARK_TR("share"), ""},
    {"exchange.result.mean_depth", RILLMARK_TR("mean depth"), ""},
    {"exchange.result.mean_velocity", RILLMARK_TR("mean velocity"), ""},
    {"exchange.result.point", RILLMARK_TR("point"), ""},
    {"exchange.result.reduced_level", RILLMARK_TR("reduced level"), ""},
    {"exchange.result.height", RILLMARK_TR("adjusted height"), ""},
    {"exchange.result.rise", RILLMARK_TR("last level minus first"), ""},
    {"exchange.result.fall", RILLMARK_TR("fall from first to last"), ""},
    {"exchange.result.setups", RILLMARK_TR("set-ups"), ""},
    {"exchange.result.length", RILLMARK_TR("length of the line"), ""},
    {"exchange.result.misclosure", RILLMARK_TR("misclosure"), ""},
    {"exchange.result.misclosure_allowed", RILLMARK_TR("misclosure allowed"), ""},
    {"exchange.result.speed", RILLMARK_TR("speed in the pipe"), ""},
    {"exchange.result.friction_loss", RILLMARK_TR("friction loss"), ""},
    {"exchange.result.minor_loss", RILLMARK_TR("minor losses"), ""},
    {"exchange.result.net_head", RILLMARK_TR("net head"), ""},
    {"exchange.result.gross_power", RILLMARK_TR("water power of the gross head"), ""},
    {"exchange.result.net_power", RILLMARK_TR("water power at the turbine"), ""},
    {"exchange.result.pipe_capacity", RILLMARK_TR("flow that would use up the gross head"), ""},
};

} // namespace

std::span<const Word> exchange_words() {
    return kWords;
}

} // namespace rillmark::words
