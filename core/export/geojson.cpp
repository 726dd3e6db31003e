// SPDX-License-Identifier: GPL-3.0-or-later
#include "export/geojson.h"

#include "export/export_text.h"

#include <nlohmann/json.hpp>

namespace rillmark {

namespace {

using Json = nlohmann::ordered_json;

Json coordinates(const GeoPoint& point) {
    return Json::array({point.longitude_deg, point.latitude_deg});
}

Json coordinates(const std::vector<ExportPoint>& points) {
    Json list = Json::array();
    for (const ExportPoint& one : points)
        list.push_back(coordinates(one.point));
    return list;
}

Json geometry(const char* type, Json where) {
    return {{"type", type}, {"coordinates", std::move(where)}};
}

void add_estimate(Json& properties, const std::string& name, const std::optional<Estimate>& estimate) {
    properties[name + "_m"] = estimate ? Json(estimate->value) : Json(nullptr);
    properties[name + "_u_m"] = estimate ? Json(estimate->standard_uncertainty) : Json(nullptr);
}

Json feature_of(const ExportStation& station) {
    Json properties{{"what", "station"},
                    {"name", clean_text(station.name)},
                    {"kind", clean_text(station.kind)},
                    {"note", clean_text(station.note)}};
    add_estimate(properties, "height", station.height_m);
    add_estimate(properties, "fall", station.fall_m);
    add_estimate(properties, "height_msl", station.height_msl_m);
    Json where = station.position ? geometry("Point", coordinates(*station.position)) : Json(nullptr);
    return {{"type", "Feature"}, {"id", station.id}, {"geometry", std::move(where)}, {"properties", std::move(properties)}};
}

Json feature_of(const ExportLine& line) {
    Json where = line.closed() ? geometry("Polygon", Json::array({coordinates(closed_ring(line.points))}))
                               : geometry("LineString", coordinates(line.points));
    Json properties{{"what", line_id(line.line)}, {"length_m", line.length_m}};
    return {{"type", "Feature"}, {"geometry", std::move(where)}, {"properties", std::move(properties)}};
}

Json feature_of(const std::vector<ExportPoint>& track) {
    Json properties{{"what", "track"}, {"from", track.front().time}, {"to", track.back().time}};
    return {{"type", "Feature"},
            {"geometry", geometry("LineString", coordinates(track))},
            {"properties", std::move(properties)}};
}

} // namespace

void write_geojson(std::ostream& out, const ExportSite& site) {
    // one feature a line: long files stay readable
    out << R"({"type": "FeatureCollection", "name": )" << Json(clean_text(site.name)).dump() << ", \"features\": [";
    const char* separator = "\n";
    const auto add = [&](const Json& feature) {
        out << separator << feature.dump();
        separator = ",\n";
    };
    for (const ExportStation& station : site.stations)
        add(feature_of(station));
    for (const ExportLine& line : site.lines)
        add(feature_of(line));
    for (const std::vector<ExportPoint>& part : site.track)
        add(feature_of(part));
    out << "\n]}\n";
}

} // namespace rillmark
