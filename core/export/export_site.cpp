// SPDX-License-Identifier: GPL-3.0-or-later
#include "export/export_site.h"

#include "site/profile.h"
#include "site/site_estimate.h"
#include "units/iso_time.h"

#include <algorithm>
#include <cmath>

namespace rillmark {

namespace {

std::optional<Estimate> height_above_sea(const Survey& survey, Id station) {
    double weights = 0.0;
    double weighted = 0.0;
    double sum = 0.0;
    int count = 0;
    for (const Booked<OccupationRow>& stay : survey.occupations) {
        if (stay.struck || stay.row.station_id != station || !stay.row.height_msl_m)
            continue;
        sum += *stay.row.height_msl_m;
        ++count;
        if (const double u_m = stay.row.u_up_m.value_or(0.0); u_m > 0.0) {
            weights += 1.0 / (u_m * u_m);
            weighted += *stay.row.height_msl_m / (u_m * u_m);
        }
    }
    if (count == 0)
        return {};
    if (weights == 0.0)
        return Estimate{sum / count, 0.0};
    return Estimate{weighted / weights, 1.0 / std::sqrt(weights)};
}

std::optional<Estimate> of_station(const std::map<Id, Estimate>& known, Id station) {
    const auto hit = known.find(station);
    return hit == known.end() ? std::nullopt : std::optional(hit->second);
}

std::optional<GeoPoint> position_of(const StationRow& station) {
    if (!station.latitude_deg || !station.longitude_deg)
        return {};
    const GeoPoint point{*station.latitude_deg, *station.longitude_deg};
    return check_point(point) ? std::optional(point) : std::nullopt;
}

ExportStation station_of(const Survey& survey, const SiteHeights& heights, const StationRow& row) {
    return {row.id,
            row.name,
            row.kind,
            row.note,
            position_of(row),
            of_station(heights.height, row.id),
            of_station(heights.fall, row.id),
            height_above_sea(survey, row.id)};
}

std::optional<ExportLine> line_of(const Survey& survey, const SiteHeights& heights, StationLine which) {
    const SiteLine stations = site_line(survey, heights, which);
    if (!stations.known())
        return {};
    ExportLine line{which, {}, stations.chainage_m.back()};
    for (const Id id : stations.stations) {
        const StationRow* row = survey.station(id);
        if (!row->latitude_deg || !row->longitude_deg)
            continue; // reached by tape alone
        const std::optional<Estimate> height = height_above_sea(survey, id);
        line.points.push_back({{*row->latitude_deg, *row->longitude_deg},
                               height ? std::optional(height->value) : std::nullopt,
                               {}});
    }
    if (line.closed())
        if (const Expected<GeodesicLine> last = geodesic(line.points.back().point, line.points.front().point))
            line.length_m += last->distance_m;
    return line;
}

std::vector<std::vector<ExportPoint>> track_of(const std::vector<Booked<FixRow>>& fixes) {
    std::vector<const FixRow*> walked;
    for (const Booked<FixRow>& fix : fixes)
        if (!fix.struck && !fix.row.occupation_id && check_point({fix.row.latitude_deg, fix.row.longitude_deg}))
            walked.push_back(&fix.row);
    // times are ISO 8601 in UTC of one width: their order as texts is their order in time
    std::ranges::stable_sort(walked, {}, &FixRow::observed_at);
    std::vector<std::vector<ExportPoint>> parts;
    std::optional<double> before_s;
    for (const FixRow* fix : walked) {
        const std::optional<double> now_s = seconds_of_utc(fix->observed_at);
        if (!before_s || !now_s || *now_s - *before_s > kLongestTrackGap_s)
            parts.emplace_back();
        parts.back().push_back({{fix->latitude_deg, fix->longitude_deg}, fix->height_msl_m, fix->observed_at});
        before_s = now_s;
    }
    std::erase_if(parts, [](const std::vector<ExportPoint>& part) { return part.size() < 2; });
    return parts;
}

} // namespace

bool ExportSite::has_positions() const {
    return !track.empty() ||
           std::ranges::any_of(stations, [](const ExportStation& one) { return one.position.has_value(); });
}

ExportSite export_site(const Survey& survey, const SiteHeights& heights, const std::vector<Booked<FixRow>>& fixes) {
    ExportSite site;
    site.name = survey.site.name;
    site.note = survey.site.note;
    for (const Booked<StationRow>& station : survey.stations)
        if (!station.struck)
            site.stations.push_back(station_of(survey, heights, station.row));
    for (const StationLine which : {StationLine::Pipe, StationLine::Cable, StationLine::Boundary})
        if (std::optional<ExportLine> line = line_of(survey, heights, which))
            site.lines.push_back(std::move(*line));
    site.track = track_of(fixes);
    for (const ProfilePoint& point : profile_of(survey, heights))
        site.profile.push_back({survey.station(point.station)->name, point.chainage_m, point.height,
                                of_station(heights.fall, point.station)});
    return site;
}

std::string line_id(StationLine line) {
    switch (line) {
    case StationLine::Pipe: return "pipe";
    case StationLine::Cable: return "cable";
    case StationLine::Boundary: return "boundary";
    case StationLine::None: break;
    }
    return {};
}

double signed_area_deg2(const std::vector<ExportPoint>& ring) {
    double area = 0.0;
    for (std::size_t i = 0; i < ring.size(); ++i) {
        // about the first point, so that small rings far from the origin keep their digits
        const GeoPoint& origin = ring.front().point;
        const GeoPoint& a = ring[i].point;
        const GeoPoint& b = ring[(i + 1) % ring.size()].point;
        area += (a.longitude_deg - origin.longitude_deg) * (b.latitude_deg - origin.latitude_deg) -
                (b.longitude_deg - origin.longitude_deg) * (a.latitude_deg - origin.latitude_deg);
    }
    return area;
}

std::vector<ExportPoint> closed_ring(std::vector<ExportPoint> corners) {
    if (signed_area_deg2(corners) < 0.0)
        std::reverse(corners.begin() + 1, corners.end()); // the first corner stays the first
    if (!corners.empty())
        corners.push_back(corners.front());
    return corners;
}

} // namespace rillmark
