// SPDX-License-Identifier: GPL-3.0-or-later
#include "site/station_position.h"

#include "position/average.h"

#include <cmath>

namespace rillmark {

std::optional<GeoPoint> position_of_stays(const std::vector<OccupationRow>& stays) {
    std::optional<LocalFrame> frame;
    double east_weight = 0.0;
    double north_weight = 0.0;
    LocalPoint sum;
    for (const OccupationRow& stay : stays) {
        const GeoPoint at{stay.latitude_deg, stay.longitude_deg};
        if (!(stay.u_east_m > 0.0) || !(stay.u_north_m > 0.0) || !check_point(at))
            continue;
        if (!frame) {
            const Expected<LocalFrame> made = LocalFrame::make(at);
            if (!made)
                continue;
            frame = *made;
        }
        const LocalPoint local = frame->to_local(at);
        if (std::hypot(local.east_m, local.north_m) > kWidestSpread_m)
            continue;
        const double east = 1.0 / (stay.u_east_m * stay.u_east_m);
        const double north = 1.0 / (stay.u_north_m * stay.u_north_m);
        east_weight += east;
        north_weight += north;
        sum.east_m += east * local.east_m;
        sum.north_m += north * local.north_m;
    }
    if (!frame)
        return {};
    return frame->to_geo({sum.east_m / east_weight, sum.north_m / north_weight});
}

} // namespace rillmark
