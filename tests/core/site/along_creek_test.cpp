// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/site/site_fixture.h"

#include "site/along_creek.h"

namespace rillmark {
namespace {

// WGS 84: a minute of latitude at 47 degrees north is 1852.9 m; a thousandth of a degree 111.17 m.
constexpr double kThousandth_m = 111.17;

class AlongCreek : public SiteFixture {
protected:
    std::optional<double> along(Id station) {
        const SiteEstimate site = estimate();
        return distance_along_creek_m(m_survey, site.heights, station);
    }
};

TEST_F(AlongCreek, IsTheChainageOfTheNearestPointOfThePipe) {
    const Id intake = station("intake", "Intake", 47.0, 13.0);
    const Id beside = station("flood-mark", "Beside", 46.9995, 13.0002);
    const Id above = station("flood-mark", "Above", 47.0002, 13.0);
    const Id below = station("flood-mark", "Below", 46.998, 13.002);
    const Id nowhere = station("flood-mark", "Nowhere");
    EXPECT_FALSE(along(beside).has_value()); // one station is no line
    const Id corner = station("route-point", "Corner", 46.999, 13.0);
    const Id powerhouse = station("powerhouse", "Powerhouse", 46.998, 13.0);
    EXPECT_NEAR(*along(intake), 0.0, 1e-6);
    EXPECT_NEAR(*along(corner), kThousandth_m, 0.05);
    EXPECT_NEAR(*along(powerhouse), 2.0 * kThousandth_m, 0.1);
    EXPECT_NEAR(*along(beside), 0.5 * kThousandth_m, 0.05);
    EXPECT_NEAR(*along(above), -0.2 * kThousandth_m, 0.05); // upstream of the intake
    EXPECT_NEAR(*along(below), 2.0 * kThousandth_m, 0.1);
    EXPECT_FALSE(along(nowhere).has_value());
    EXPECT_FALSE(along(12345).has_value());
}

} // namespace
} // namespace rillmark
