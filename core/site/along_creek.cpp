// SPDX-License-Identifier: GPL-3.0-or-later
#include "site/along_creek.h"

#include "position/local_frame.h"
#include "site/site_estimate.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace rillmark {

namespace {

std::optional<LocalPoint> place_of(const StationRow* station, const LocalFrame& frame) {
    if (station == nullptr || !station->latitude_deg || !station->longitude_deg)
        return {};
    return frame.to_local({*station->latitude_deg, *station->longitude_deg});
}

} // namespace

std::optional<double> distance_along_creek_m(const Survey& survey, const SiteHeights& heights, Id station) {
    const SiteLine line = site_line(survey, heights, StationLine::Pipe);
    const StationRow* asked = survey.station(station);
    if (!line.known() || asked == nullptr || !asked->latitude_deg || !asked->longitude_deg)
        return {};
    const Expected<LocalFrame> frame = LocalFrame::make({*asked->latitude_deg, *asked->longitude_deg});
    if (!frame)
        return {};
    std::optional<double> chainage_m;
    double nearest_m = std::numeric_limits<double>::infinity();
    for (std::size_t i = 0; i + 1 < line.stations.size(); ++i) {
        const std::optional<LocalPoint> from = place_of(survey.station(line.stations[i]), *frame);
        const std::optional<LocalPoint> to = place_of(survey.station(line.stations[i + 1]), *frame);
        const double length_m = line.chainage_m[i + 1] - line.chainage_m[i];
        if (!from || !to || length_m <= 0.0)
            continue;
        const double east_m = to->east_m - from->east_m;
        const double north_m = to->north_m - from->north_m;
        // the frame's origin is the station itself
        double part = -(from->east_m * east_m + from->north_m * north_m) / (east_m * east_m + north_m * north_m);
        part = std::clamp(part, i == 0 ? -std::numeric_limits<double>::infinity() : 0.0,
                          i + 2 == line.stations.size() ? std::numeric_limits<double>::infinity() : 1.0);
        const double off_m = std::hypot(from->east_m + part * east_m, from->north_m + part * north_m);
        if (off_m < nearest_m) {
            nearest_m = off_m;
            chainage_m = line.chainage_m[i] + part * length_m;
        }
    }
    return chainage_m;
}

} // namespace rillmark
