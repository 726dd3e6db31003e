// SPDX-License-Identifier: GPL-3.0-or-later
#include "export/gpx.h"

#include "export/export_text.h"

namespace rillmark {

namespace {

/// An element that is left out where it has no text.
void element(std::ostream& out, const char* indent, const char* name, const std::string& text) {
    if (!text.empty())
        out << indent << '<' << name << '>' << xml_text(text) << "</" << name << ">\n";
}

void open_point(std::ostream& out, const char* name, const GeoPoint& point, const std::optional<double>& height_m) {
    out << "  <" << name << " lat=\"" << decimal_text(point.latitude_deg, kDegreeDecimals) << "\" lon=\""
        << decimal_text(point.longitude_deg, kDegreeDecimals) << "\">\n";
    if (height_m)
        element(out, "    ", "ele", decimal_text(*height_m, kHeightDecimals));
}

void write_waypoint(std::ostream& out, const ExportStation& station) {
    const std::optional<double> height_m =
        station.height_msl_m ? std::optional(station.height_msl_m->value) : std::nullopt;
    open_point(out, "wpt", *station.position, height_m);
    element(out, "    ", "name", station.name);
    element(out, "    ", "desc", station.note);
    element(out, "    ", "type", station.kind);
    out << "  </wpt>\n";
}

void write_points(std::ostream& out, const char* name, const std::vector<ExportPoint>& points) {
    for (const ExportPoint& one : points) {
        open_point(out, name, one.point, one.height_msl_m);
        element(out, "    ", "time", one.time);
        out << "  </" << name << ">\n";
    }
}

} // namespace

void write_gpx(std::ostream& out, const ExportSite& site) {
    out << "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
           "<gpx version=\"1.1\" creator=\"Rillmark\" xmlns=\"http://www.topografix.com/GPX/1/1\">\n"
           "<metadata>\n";
    element(out, "  ", "name", site.name);
    element(out, "  ", "desc", site.note);
    out << "</metadata>\n";
    for (const ExportStation& station : site.stations)
        if (station.position)
            write_waypoint(out, station);
    for (const ExportLine& line : site.lines) {
        out << "<rte>\n";
        element(out, "  ", "name", line_id(line.line));
        write_points(out, "rtept", line.closed() ? closed_ring(line.points) : line.points);
        out << "</rte>\n";
    }
    if (!site.track.empty()) {
        out << "<trk>\n";
        for (const std::vector<ExportPoint>& part : site.track) {
            out << "<trkseg>\n";
            write_points(out, "trkpt", part);
            out << "</trkseg>\n";
        }
        out << "</trk>\n";
    }
    out << "</gpx>\n";
}

} // namespace rillmark
