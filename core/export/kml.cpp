// SPDX-License-Identifier: GPL-3.0-or-later
#include "export/kml.h"

#include "export/export_text.h"
#include "project/tables.h"

namespace rillmark {

namespace {

std::string coordinate_text(const GeoPoint& point) {
    return decimal_text(point.longitude_deg, kDegreeDecimals) + "," + decimal_text(point.latitude_deg, kDegreeDecimals);
}

std::string coordinate_text(const std::vector<ExportPoint>& points) {
    std::string list = "<coordinates>";
    for (const ExportPoint& one : points)
        list += coordinate_text(one.point) + "\n";
    list.back() = '<';
    return list + "/coordinates>";
}

void write_name(std::ostream& out, const std::string& name) {
    out << "<name>" << xml_text(name) << "</name>\n";
}

void write_data(std::ostream& out, const std::string& name, const std::string& value) {
    out << "  <Data name=\"" << name << "\"><value>" << xml_text(value) << "</value></Data>\n";
}

void write_data(std::ostream& out, const std::string& name, const std::optional<Estimate>& estimate) {
    if (!estimate)
        return;
    write_data(out, name + "_m", number_text(estimate->value));
    write_data(out, name + "_u_m", number_text(estimate->standard_uncertainty));
}

void write_station(std::ostream& out, const ExportStation& station) {
    out << "<Placemark>";
    write_name(out, station.name);
    if (!station.note.empty())
        out << "<description>" << xml_text(station.note) << "</description>\n";
    out << "<ExtendedData>\n";
    write_data(out, "kind", station.kind);
    write_data(out, "height", station.height_m);
    write_data(out, "fall", station.fall_m);
    write_data(out, "height_msl", station.height_msl_m);
    out << "</ExtendedData>\n<Point>";
    if (station.height_msl_m)
        out << "<altitudeMode>absolute</altitudeMode>";
    out << "<coordinates>" << coordinate_text(*station.position);
    if (station.height_msl_m)
        out << ',' << decimal_text(station.height_msl_m->value, kHeightDecimals);
    out << "</coordinates></Point></Placemark>\n";
}

void write_line(std::ostream& out, const std::string& name, const std::vector<ExportPoint>& points) {
    out << "<Placemark>";
    write_name(out, name);
    out << "<LineString><tessellate>1</tessellate>" << coordinate_text(points) << "</LineString></Placemark>\n";
}

void write_polygon(std::ostream& out, const std::string& name, const std::vector<ExportPoint>& corners) {
    out << "<Placemark>";
    write_name(out, name);
    out << "<Polygon><tessellate>1</tessellate><outerBoundaryIs><LinearRing>" << coordinate_text(closed_ring(corners))
        << "</LinearRing></outerBoundaryIs></Polygon></Placemark>\n";
}

void open_folder(std::ostream& out, const char* name) {
    out << "<Folder>";
    write_name(out, name);
}

} // namespace

void write_kml(std::ostream& out, const ExportSite& site) {
    out << "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<kml xmlns=\"http://www.opengis.net/kml/2.2\">\n<Document>";
    write_name(out, site.name);
    open_folder(out, "stations");
    for (const ExportStation& station : site.stations)
        if (station.position)
            write_station(out, station);
    out << "</Folder>\n";
    open_folder(out, "lines");
    for (const ExportLine& line : site.lines) {
        if (line.closed())
            write_polygon(out, line_id(line.line), line.points);
        else
            write_line(out, line_id(line.line), line.points);
    }
    out << "</Folder>\n";
    open_folder(out, "track");
    for (const std::vector<ExportPoint>& part : site.track)
        write_line(out, part.front().time, part);
    out << "</Folder>\n</Document>\n</kml>\n";
}

} // namespace rillmark
