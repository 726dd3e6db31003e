// SPDX-License-Identifier: GPL-3.0-or-later
#include "words/words.h"

namespace rillmark::words {

namespace {

constexpr const char* kOwn = "our own choice";

} // namespace

// What is said of files of other programs. The place in the file (file, line, column) is said in front where it is
// known.
std::span<const Word> import_words() {
    static constexpr Word table[] = {
        {"exchange.import_file_too_large", RILLMARK_TR("{where} is larger than {limit_mib} MiB. Divide it."), kOwn},
        {"exchange.import_too_many_points",
         RILLMARK_TR("{where} has more than {limit} points. Divide it, or thin its tracks."), kOwn},
        {"exchange.import_too_many_features", RILLMARK_TR("{where} has more than {limit} things in it. Divide it."),
         kOwn},
        {"exchange.import_not_a_position",
         RILLMARK_TR("\"{longitude} {latitude}\" is no longitude and latitude in degrees. Mend it there, or take this "
                     "one out."),
         ""},
        {"exchange.import_nothing", RILLMARK_TR("There is no point, line or area with a position in {where}."), ""},
        {"exchange.import_empty", RILLMARK_TR("\"{where}\" (line or number {line}) has no position and is left out."),
         ""},
        {"exchange.import_wrong_root",
         RILLMARK_TR("This file begins with \"{where}\" where \"{expected}\" belongs: it is of another format."), ""},
        {"exchange.import_column_missing",
         RILLMARK_TR(
             "{where} has no column \"{missing}\". Its columns are: {columns}. Choose those that hold the position."),
         ""},
        {"exchange.import_choose_layer", RILLMARK_TR("{where} has several layers: {layers}. Choose one."), ""},
        {"exchange.import_is_photo", RILLMARK_TR("{where} is a picture. Take it in as a photo."), ""},
        {"exchange.import_one_at_a_time",
         RILLMARK_TR("Several files are taken in at once only where all are photos; {where} is none."), ""},
        {"exchange.import_no_photos_here",
         RILLMARK_TR(
             "{where} is a picture, and this build of the command takes in none. Use the app, or a build with Qt."),
         ""},
        {"exchange.kml_link",
         RILLMARK_TR("Line {line} links to another file. It is not followed: take that file in by itself."), ""},
        {"exchange.xml_not_well_formed",
         RILLMARK_TR(
             "The file is not whole or not well formed here ({detail}). Write it anew from the program that made it."),
         "XML 1.0"},
        {"exchange.xml_doctype",
         RILLMARK_TR("The file brings a document type of its own, which could reach for other files. Take the line "
                     "out, or write it anew."),
         kOwn},
        {"exchange.xml_too_deep",
         RILLMARK_TR("Elements lie more than {limit} deep within each other here: this is no map."), kOwn},
        {"exchange.xml_too_long",
         RILLMARK_TR("There are too many elements in this file, or one holds too much text. Divide it."), kOwn},
        {"exchange.json_not_well_formed",
         RILLMARK_TR("The file is not whole or not well formed here. Write it anew from the program that made it."),
         "RFC 8259"},
        {"exchange.json_too_deep",
         RILLMARK_TR("Lists lie more than {limit} deep within each other here: this is no map."), kOwn},
        {"exchange.geojson_wrong",
         RILLMARK_TR("Feature {number} of {where} is no GeoJSON: its {what} is missing or of another sort."),
         "RFC 7946"},
        {"exchange.geojson_crs",
         RILLMARK_TR("{where} is in the system \"{name}\". Write it anew in WGS 84, as GeoJSON has it."),
         "RFC 7946, section 4"},
        {"exchange.gpkg_no_contents",
         RILLMARK_TR("{where} has no table {table}: it is no GeoPackage that says what it holds."),
         "OGC 12-128r19, Requirements 10, 13 and 21"},
        {"exchange.gpkg_no_layer", RILLMARK_TR("There is no layer with a geometry in {where}."), ""},
        {"exchange.gpkg_no_such_layer", RILLMARK_TR("{where} has no layer \"{layer}\"."), ""},
        {"exchange.gpkg_reference_system",
         RILLMARK_TR("The layer {layer} of {where} is in the system {system}. Write it anew in WGS 84 (EPSG:4326) or a "
                     "UTM zone of it; if it holds longitude and latitude all the same, say so."),
         ""},
        {"exchange.gpkg_systems_differ",
         RILLMARK_TR("Row {row} of the layer {layer} says that it is in the system with the number {other}, the layer "
                     "says {system}. One of them is wrong: mend it in the program that made it."),
         "OGC 12-128r19, Requirement 33"},
        {"exchange.gpkg_blob_system",
         RILLMARK_TR(
             "Geometries of the layer {where} do not say their system; they are taken as {system}, as the layer says."),
         "OGC 12-128r19, Requirement 33"},
        {"exchange.gpkg_bad_geometry", RILLMARK_TR("The geometry of row {row} of the layer {layer} cannot be read."),
         "OGC 12-128r19, Requirement 19"},
        {"exchange.gpkg_off_zone",
         RILLMARK_TR("The position of row {row} of the layer {layer} lies far outside its zone."), ""},
        {"exchange.gpkg_empty_rows", RILLMARK_TR("{rows} rows of the layer {where} have no geometry and are left out."),
         ""},
        {"site.import_kind_unknown", RILLMARK_TR("\"{kind}\" is no kind of station."), ""},
        {"site.import_bad_uncertainty", RILLMARK_TR("The uncertainty given for {where} is negative or no number."), ""},
        {"site.import_field_missing", RILLMARK_TR("Nothing in {where} has a \"{field}\". What it has: {known}."), ""},
        {"site.import_holes", RILLMARK_TR("Areas of {where} have {holes} holes. The outer boundary alone is taken."),
         ""},
        {"site.import_too_many_stations",
         RILLMARK_TR("{stations} stations would come of {where}; {limit} is the most. Take its lines as a track, or "
                     "thin them."),
         kOwn},
        {"site.import_nothing_left", RILLMARK_TR("By these choices nothing of {where} comes in."), ""},
        {"site.import_again",
         RILLMARK_TR("The same file was taken in before, on {at}. Its stations would be there twice."), ""},
        {"site.import_position_unsure",
         RILLMARK_TR("{where} does not say how good its positions are; {u} is assumed along each axis."),
         "from memory, unconfirmed"},
    };
    return table;
}

} // namespace rillmark::words
