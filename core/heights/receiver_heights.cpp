// SPDX-License-Identifier: GPL-3.0-or-later
#include "heights/receiver_heights.h"

#include <cmath>

namespace rillmark {

namespace {

PositionFix fix_of(const ReceiverStay& stay) {
    PositionFix fix;
    fix.latitude_deg = stay.latitude_deg;
    fix.longitude_deg = stay.longitude_deg;
    fix.height_ellipsoid_m = stay.height_ellipsoid_m;
    fix.height_msl_m = stay.height_msl_m;
    fix.geoid_separation_m = stay.geoid_separation_m;
    fix.quality = stay.quality;
    return fix;
}

Expected<void> usable(const ReceiverStay& stay) {
    if (const Expected<void> good = plausible(fix_of(stay)); !good)
        return good.error();
    if (!stay.height_ellipsoid_m && !stay.height_msl_m)
        return refusal("levels.receiver_no_height");
    if (stay.u_up_m && (!std::isfinite(*stay.u_up_m) || *stay.u_up_m <= 0.0))
        return refusal("levels.receiver_uncertainty_impossible", {}, {{"value", *stay.u_up_m, Quantity::Length}});
    return {};
}

GeoidHeight height_of(const ReceiverStay& stay, const GeoidGrid& geoid) {
    const double separation_m = geoid.separation_m({stay.latitude_deg, stay.longitude_deg});
    GeoidHeight height;
    height.id = stay.id;
    height.point = stay.point;
    height.random_m = stay.u_up_m.value_or(default_claim(stay.quality).up_m);
    if (stay.height_ellipsoid_m) {
        height.height_m = *stay.height_ellipsoid_m - separation_m;
    } else if (stay.geoid_separation_m) {
        height.origin = HeightOrigin::FromSeparation;
        height.height_m = *stay.height_msl_m + *stay.geoid_separation_m - separation_m;
    } else {
        height.origin = HeightOrigin::FromModel;
        height.height_m = *stay.height_msl_m;
        height.shared.push_back({"receiver-geoid:" + stay.source, "levels.receiver_geoid", kReceiverGeoid_u_m});
    }
    height.shared.push_back({"geoid:egm96", "levels.geoid", std::hypot(kGeoidModel_u_m, kGeoidInterpolation_u_m)});
    return height;
}

void tell_disagreement(const ReceiverStay& stay, Findings& findings) {
    if (!stay.height_ellipsoid_m || !stay.height_msl_m || !stay.geoid_separation_m)
        return;
    const double off_m = *stay.height_msl_m + *stay.geoid_separation_m - *stay.height_ellipsoid_m;
    if (std::abs(off_m) > kHeightsAgree_m)
        findings.push_back(
            warning("levels.receiver_heights_disagree", stay.point, {{"off_by", std::abs(off_m), Quantity::Length}}));
}

} // namespace

Estimate GeoidHeight::estimate() const {
    double variance_m2 = random_m * random_m;
    for (const SharedEffect& effect : shared)
        variance_m2 += effect.effect_m * effect.effect_m;
    return {height_m, std::sqrt(variance_m2)};
}

Expected<GeoidHeights> geoid_heights(const std::vector<ReceiverStay>& stays, const GeoidGrid& geoid) {
    GeoidHeights result;
    std::int64_t converted = 0;
    std::int64_t by_model = 0;
    for (const ReceiverStay& stay : stays) {
        if (const Expected<void> good = usable(stay); !good) {
            result.findings.push_back(good.error());
            result.findings.back().severity = Severity::Warning;
            result.findings.back().where = stay.point;
            continue;
        }
        tell_disagreement(stay, result.findings);
        result.heights.push_back(height_of(stay, geoid));
        converted += result.heights.back().origin == HeightOrigin::FromSeparation;
        by_model += result.heights.back().origin == HeightOrigin::FromModel;
    }
    if (result.heights.empty())
        return refusal("levels.receiver_no_heights", {}, {{"count", static_cast<std::int64_t>(stays.size())}});
    if (converted > 0)
        result.findings.push_back(note("levels.receiver_heights_converted", {}, {{"count", converted}}));
    if (by_model > 0)
        result.findings.push_back(
            warning("levels.receiver_heights_by_model", {},
                    {{"count", by_model}, {"plus_minus", kCoverageFactor * kReceiverGeoid_u_m, Quantity::Length}}));
    return result;
}

} // namespace rillmark
