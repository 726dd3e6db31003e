// SPDX-License-Identifier: GPL-3.0-or-later
#include "flow/salt_advice.h"

#include "flow/tracer_input.h"
#include "units/in_range.h"

#include <algorithm>
#include <cmath>
#include <string>

namespace rillmark {

namespace {

// Fischer and others (1979), from memory, unconfirmed.
constexpr double kTransverseMixing = 0.6;
constexpr double kFromTheMiddle = 0.1;
constexpr double kFromTheBank = 0.4;
// 3rd CGPM (1901): standard acceleration of free fall; the rule is far coarser than any place's gravity.
constexpr double kGravity_ms2 = 9.80665;

constexpr ChlorideLimit kLimits[] = {
    // US EPA 440/5-88-001 (1988) as adopted in Washington Administrative Code 173-201A-240: 1 hour, 4 days.
    {"flow.chloride_usa_acute", 0.860, true, true},
    {"flow.chloride_usa_chronic", 0.230, false, true},
    // CCME 2011: 120 seen, 640 from memory.
    {"flow.chloride_canada_short", 0.640, true, false},
    {"flow.chloride_canada_long", 0.120, false, true},
    // Government of British Columbia, data set of guideline limits (package wqbc): maximum, 30-day mean.
    {"flow.chloride_bc_maximum", 0.600, true, true},
    {"flow.chloride_bc_mean", 0.150, false, true},
};

/// A warning with the lowest limit of that term which a concentration exceeds.
Findings above_limit(const char* code, double chloride_kgm3, bool short_term) {
    const ChlorideLimit* lowest = nullptr;
    for (const ChlorideLimit& limit : kLimits)
        if (limit.short_term == short_term && chloride_kgm3 > limit.chloride_kgm3 &&
            (lowest == nullptr || limit.chloride_kgm3 < lowest->chloride_kgm3))
            lowest = &limit;
    if (lowest == nullptr)
        return {};
    return {
        warning(code, std::string(lowest->name_code),
                {{"chloride", chloride_kgm3, Quantity::Density}, {"limit", lowest->chloride_kgm3, Quantity::Density}})};
}

} // namespace

Expected<double> mixing_length_m(const MixingReach& reach) {
    if (!in_range(reach.width_m, 0.05, 1000.0))
        return bad_option("width_m", reach.width_m, Quantity::Length);
    if (!in_range(reach.depth_m, 0.005, 100.0))
        return bad_option("depth_m", reach.depth_m, Quantity::Length);
    if (!in_range(reach.velocity_ms, 0.001, 10.0))
        return bad_option("velocity_ms", reach.velocity_ms, Quantity::Velocity);
    if (!in_range(reach.slope, 1e-6, 1.0))
        return bad_option("slope", reach.slope, Quantity::Slope);
    const double shear_velocity_ms = std::sqrt(kGravity_ms2 * reach.depth_m * reach.slope);
    const double mixing_m2s = kTransverseMixing * reach.depth_m * shear_velocity_ms;
    return (reach.from_the_bank ? kFromTheBank : kFromTheMiddle) * reach.velocity_ms * reach.width_m * reach.width_m /
           mixing_m2s;
}

Expected<SaltDoseAdvice> salt_dose(double flow_m3s, std::optional<double> cloud_s, double rise_Sm, double factor) {
    if (!in_range(flow_m3s, 1e-4, 1000.0))
        return bad_option("flow_m3s", flow_m3s, Quantity::Discharge);
    if (cloud_s && !in_range(*cloud_s, 1.0, 86400.0))
        return bad_option("cloud_s", *cloud_s, Quantity::Time);
    if (!in_range(rise_Sm, 1e-4, 1.0))
        return bad_option("rise_Sm", rise_Sm, Quantity::Conductivity);
    if (!in_range(factor, 1.0, 100.0))
        return bad_option("factor", factor, Quantity::Number);
    SaltDoseAdvice advice{
        kLeastDose_kg_per_m3s * flow_m3s, kUsualDose_kg_per_m3s * flow_m3s, kLongReachDose_kg_per_m3s * flow_m3s, {}};
    if (cloud_s)
        advice.for_rise_kg = 0.5 * flow_m3s * factor * rise_Sm * *cloud_s;
    return advice;
}

std::span<const ChlorideLimit> chloride_limits() {
    return kLimits;
}

double chloride_of_salt(double salt_kgm3) {
    return salt_kgm3 / kSaltPerChloride;
}

Findings judge_chloride(double peak_salt_kgm3) {
    return above_limit("flow.chloride_above_limit", chloride_of_salt(peak_salt_kgm3), true);
}

Findings judge_lasting_chloride(double salt_kgm3) {
    return above_limit("flow.chloride_above_long_limit", chloride_of_salt(salt_kgm3), false);
}

} // namespace rillmark
