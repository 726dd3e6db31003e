// SPDX-License-Identifier: GPL-3.0-or-later
#include "export/dxf.h"

#include "export/dxf_drawing.h"
#include "export/export_text.h"

namespace rillmark {

namespace {

constexpr int kShownDecimals = 3;

std::string height_text(const Estimate& height_m) {
    return decimal_text(height_m.value, kShownDecimals) + " +/- " + decimal_text(height_m.expanded(), kShownDecimals) + " m";
}

Expected<void> add_station(DxfDrawing& drawing, const ExportStation& station, const PlanFrame& frame) {
    const Expected<LocalPoint> at = frame.to_plan(*station.position);
    if (!at)
        return at.error();
    const double height_m = station.height_m ? station.height_m->value : 0.0;
    drawing.add_point(DxfDrawing::layer_name("STATION_" + station.kind), *at, height_m);
    drawing.add_text(DxfDrawing::layer_name("TEXT_" + station.kind), *at,
                     station.name + (station.height_m ? "  " + height_text(*station.height_m) : ""));
    return {};
}

Expected<void> add_line(DxfDrawing& drawing, const std::string& layer, const std::vector<ExportPoint>& points, bool closed,
                        const PlanFrame& frame) {
    std::vector<LocalPoint> vertices;
    for (const ExportPoint& one : points) {
        const Expected<LocalPoint> at = frame.to_plan(one.point);
        if (!at)
            return at.error();
        vertices.push_back(*at);
    }
    drawing.add_polyline(DxfDrawing::layer_name(layer), vertices, closed);
    return {};
}

} // namespace

Expected<void> write_dxf_plan(std::ostream& out, const ExportSite& site, const PlanFrame& frame) {
    DxfDrawing drawing;
    std::optional<LocalPoint> first;
    for (const ExportStation& station : site.stations) {
        if (!station.position)
            continue;
        if (const Expected<void> added = add_station(drawing, station, frame); !added)
            return added.error();
        if (!first)
            first = *frame.to_plan(*station.position);
    }
    for (const ExportLine& line : site.lines)
        if (const Expected<void> added =
                add_line(drawing, "LINE_" + line_id(line.line), line.points, line.closed(), frame);
            !added)
            return added.error();
    for (const std::vector<ExportPoint>& part : site.track)
        if (const Expected<void> added = add_line(drawing, "TRACK", part, false, frame); !added)
            return added.error();
    if (first)
        drawing.add_text("NOTE", *first, frame.name());
    drawing.write(out);
    return {};
}

Expected<void> write_dxf_profile(std::ostream& out, const ExportSite& site) {
    if (site.profile.size() < 2)
        return refusal("exchange.no_profile");
    DxfDrawing drawing;
    std::vector<LocalPoint> line;
    for (const ExportProfilePoint& point : site.profile) {
        const LocalPoint at{point.chainage_m, point.height_m.value};
        line.push_back(at);
        drawing.add_point("PROFILE_STATION", at, 0.0);
        drawing.add_text("PROFILE_TEXT", at,
                         point.station + "  " + decimal_text(point.chainage_m, kShownDecimals) + " m  " +
                             height_text(point.height_m));
    }
    drawing.add_polyline("PROFILE", line, false);
    drawing.write(out);
    return {};
}

} // namespace rillmark
