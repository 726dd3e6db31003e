// SPDX-License-Identifier: GPL-3.0-or-later
#include "site/station_position.h"

#include <gtest/gtest.h>

#include <cmath>

namespace rillmark {

namespace {

OccupationRow stay(double latitude, double longitude, double u_m) {
    OccupationRow row;
    row.latitude_deg = latitude;
    row.longitude_deg = longitude;
    row.u_east_m = row.u_north_m = u_m;
    return row;
}

} // namespace

TEST(StationPosition, TheBetterStayPullsHarder) {
    // weights 1 and 1/4, worked by hand: a fifth of the way to the second
    const std::optional<GeoPoint> at = position_of_stays({stay(47.0, 13.0, 1.0), stay(47.0005, 13.0, 2.0)});
    ASSERT_TRUE(at);
    EXPECT_NEAR(at->latitude_deg, 47.0001, 1e-9);
    EXPECT_NEAR(at->longitude_deg, 13.0, 1e-9);
}

TEST(StationPosition, WorksAcrossTheDateLine) {
    const std::optional<GeoPoint> at = position_of_stays({stay(-17.0, 179.9999, 1.0), stay(-17.0, -179.9999, 1.0)});
    ASSERT_TRUE(at);
    EXPECT_NEAR(std::abs(at->longitude_deg), 180.0, 1e-9);
}

TEST(StationPosition, LeavesOutWhatCannotBeWeighed) {
    EXPECT_FALSE(position_of_stays({}));
    EXPECT_FALSE(position_of_stays({stay(47.0, 13.0, 0.0), stay(NAN, 13.0, 1.0)}));
    const std::optional<GeoPoint> at = position_of_stays({stay(47.0, 13.0, 1.0), stay(48.0, 13.0, 1.0)}); // 111 km off
    ASSERT_TRUE(at);
    EXPECT_NEAR(at->latitude_deg, 47.0, 1e-9);
}

} // namespace rillmark
