// SPDX-License-Identifier: GPL-3.0-or-later
#include "site/position_rows.h"

namespace rillmark {

FixRow fix_row(const PositionFix& fix, std::optional<Id> occupation) {
    FixRow row;
    row.occupation_id = occupation;
    row.longitude_deg = fix.longitude_deg;
    row.latitude_deg = fix.latitude_deg;
    row.height_ellipsoid_m = fix.height_ellipsoid_m;
    row.height_msl_m = fix.height_msl_m;
    row.geoid_separation_m = fix.geoid_separation_m;
    row.u_east_m = fix.u_east_m;
    row.u_north_m = fix.u_north_m;
    row.u_up_m = fix.u_up_m;
    row.hdop = fix.hdop;
    row.satellites = fix.satellites;
    row.quality = fix_quality_id(fix.quality);
    row.source = fix.source;
    row.observed_at = fix.time_utc;
    return row;
}

OccupationRow occupation_row(const AveragedPosition& mean, Id station) {
    OccupationRow row;
    row.station_id = station;
    row.longitude_deg = mean.longitude_deg;
    row.latitude_deg = mean.latitude_deg;
    row.height_ellipsoid_m = mean.height_ellipsoid_m;
    row.height_msl_m = mean.height_msl_m;
    row.u_east_m = mean.u_east_m;
    row.u_north_m = mean.u_north_m;
    row.u_up_m = mean.u_up_m;
    row.scatter_east_m = mean.scatter_east_m;
    row.scatter_north_m = mean.scatter_north_m;
    row.scatter_up_m = mean.scatter_up_m;
    row.fixes = static_cast<std::int64_t>(mean.n);
    row.seconds = mean.seconds;
    row.quality = fix_quality_id(mean.worst_quality);
    row.source = mean.source;
    row.observed_at = mean.time_utc;
    return row;
}

} // namespace rillmark
