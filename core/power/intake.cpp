// SPDX-License-Identifier: GPL-3.0-or-later
#include "power/intake.h"

#include "power/input_checks.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

namespace rillmark {

namespace {

constexpr double kHeadAccuracy_m = 1e-9;
// ANSI/HI 9.8, as quoted on a secondary page.
constexpr double kHydraulicInstitute = 2.3;
// J. Knauss; from memory, unconfirmed.
constexpr double kKnaussSlow = 1.0 / 3.0;
constexpr double kKnaussSlowDepth = 1.5; // of 1 to 1.5, the cautious one
constexpr double kKnaussSlope = 2.0;
constexpr double kKnaussBase = 0.5;
// O. Kirschmer 1926.
constexpr double kKirschmerExponent = 4.0 / 3.0;
// R. I. Ferguson, M. Church, J. Sedimentary Research 74(6), 2004: C1 and 0.75 C2.
constexpr double kFergusonLaminar = 18.0;
constexpr double kFergusonTurbulent = 0.75;

Expected<void> check_crest(const Crest& crest, double gravity_ms2) {
    const bool broad = crest.kind == CrestKind::Broad;
    if (const Expected<void> check = first_refusal(
            check_positive("power.gravity", gravity_ms2),
            check_positive("power.crest_width", crest.width_m, Quantity::Length),
            broad ? check_positive("power.crest_breadth", crest.breadth_m, Quantity::Length)
                  : check_positive("power.crest_height", crest.height_m, Quantity::Length),
            check_positive("power.crest_coefficient", broad ? crest.broad_coefficient : crest.sharp_base),
            check_not_negative("power.crest_coefficient", broad ? 0.0 : crest.sharp_rise));
        !check)
        return check;
    if (crest.contractions < 0 || crest.contractions > 2)
        return refusal("power.bad_contractions", "power.crest_width");
    return {};
}

double crest_width_left_m(const Crest& crest, double head_m) {
    return crest.width_m - kSideContraction * crest.contractions * head_m;
}

double crest_flow_m3s(const Crest& crest, double head_m, double gravity_ms2) {
    const double head_15 = std::pow(head_m, 1.5);
    if (crest.kind == CrestKind::Broad)
        return std::pow(2.0 / 3.0, 1.5) * crest.broad_coefficient * std::sqrt(gravity_ms2) * crest.width_m * head_15;
    const double coefficient = crest.sharp_base + crest.sharp_rise * head_m / crest.height_m;
    return 2.0 / 3.0 * coefficient * std::sqrt(2.0 * gravity_ms2) * crest_width_left_m(crest, head_m) * head_15;
}

Findings crest_findings(const Crest& crest, double head_m) {
    if (head_m == 0.0)
        return {};
    if (crest.kind == CrestKind::Sharp) {
        const double ratio = head_m / crest.height_m;
        if (ratio > kRehbockHeadMax)
            return {warning("power.rehbock_out_of_range", "power.crest_height",
                            {{"ratio", ratio}, {"limit", kRehbockHeadMax}})};
        return {};
    }
    const double ratio = head_m / crest.breadth_m;
    if (ratio > kActsSharp)
        return {warning("power.crest_acts_sharp", "power.crest_breadth", {{"ratio", ratio}, {"limit", kActsSharp}})};
    if (ratio < kBroadHeadMin || ratio > kBroadHeadMax)
        return {note("power.crest_out_of_range", "power.crest_breadth",
                     {{"ratio", ratio}, {"least", kBroadHeadMin}, {"most", kBroadHeadMax}})};
    return {};
}

/// Up to where the flow over a crest grows with the head: contractions close it in the end.
double highest_head_m(const Crest& crest) {
    if (crest.kind == CrestKind::Broad || crest.contractions == 0)
        return kHighestOverflow_m;
    // d/dH of (b - k H) H^1.5 is zero at H = 0.6 b/k; the growing coefficient only moves it up
    return std::min(kHighestOverflow_m, 0.6 * crest.width_m / (kSideContraction * crest.contractions));
}

} // namespace

Expected<Overflow> overflow_at_head(const Crest& crest, double head_m, double gravity_ms2) {
    if (const Expected<void> check = first_refusal(check_crest(crest, gravity_ms2),
                                                   check_not_negative("power.overflow_head", head_m, Quantity::Length));
        !check)
        return check.error();
    if (crest.kind == CrestKind::Sharp && crest_width_left_m(crest, head_m) <= 0.0)
        return refusal("power.bad_contractions", "power.crest_width");
    const double flow_m3s = crest_flow_m3s(crest, head_m, gravity_ms2);
    if (!std::isfinite(flow_m3s))
        return refusal("uncertainty.not_finite", "power.overflow");
    return Overflow{head_m, flow_m3s, crest_findings(crest, head_m)};
}

Expected<Overflow> overflow_of_flow(const Crest& crest, double discharge_m3s, double gravity_ms2) {
    if (const Expected<void> check =
            first_refusal(check_crest(crest, gravity_ms2),
                          check_not_negative("power.overflow", discharge_m3s, Quantity::Discharge));
        !check)
        return check.error();
    if (discharge_m3s == 0.0)
        return Overflow{};
    double low_m = 0.0;
    double high_m = highest_head_m(crest);
    const double most_m3s = crest_flow_m3s(crest, high_m, gravity_ms2);
    if (discharge_m3s > most_m3s)
        return refusal("power.overflow_too_large", "power.overflow",
                       {{"flow", discharge_m3s, Quantity::Discharge}, {"most", most_m3s, Quantity::Discharge}});
    while (high_m - low_m > kHeadAccuracy_m) {
        const double middle_m = 0.5 * (low_m + high_m);
        (crest_flow_m3s(crest, middle_m, gravity_ms2) < discharge_m3s ? low_m : high_m) = middle_m;
    }
    return Overflow{high_m, discharge_m3s, crest_findings(crest, high_m)};
}

Expected<WallLevels> wall_levels(const Wall& wall, double gravity_ms2) {
    const Expected<Overflow> design = overflow_of_flow(wall.crest, wall.design_overflow_m3s, gravity_ms2);
    if (!design)
        return design.error();
    const Expected<Overflow> flood = overflow_of_flow(wall.crest, wall.flood_m3s, gravity_ms2);
    if (!flood)
        return flood.error();
    if (!std::isfinite(wall.crest_level_m) || !std::isfinite(wall.top_level_m))
        return refusal("uncertainty.not_finite", "power.wall_top");
    if (wall.top_level_m <= wall.crest_level_m)
        return refusal("power.wall_contradiction", "power.wall_top");
    if (wall.flood_m3s < wall.design_overflow_m3s)
        return refusal("power.wall_contradiction", "power.overflow");
    WallLevels levels{wall.crest_level_m + design->head_m, wall.crest_level_m + flood->head_m, 0.0, flood->findings};
    levels.freeboard_m = wall.top_level_m - levels.flood_level_m;
    if (levels.freeboard_m < 0.0)
        levels.findings.push_back(
            warning("power.flood_overtops", "power.wall_top", {{"over", -levels.freeboard_m, Quantity::Length}}));
    else if (levels.freeboard_m < kFreeboardUsual_m)
        levels.findings.push_back(warning(
            "power.freeboard_small", "power.wall_top",
            {{"freeboard", levels.freeboard_m, Quantity::Length}, {"limit", kFreeboardUsual_m, Quantity::Length}}));
    return levels;
}

Expected<RackLoss> rack_loss(const Rack& rack, double gravity_ms2) {
    if (const Expected<void> check =
            first_refusal(check_positive("power.gravity", gravity_ms2),
                          check_not_negative("power.flow", rack.flow_m3s, Quantity::Discharge),
                          check_positive("power.rack_area", rack.wetted_area_m2, Quantity::Area),
                          check_positive("power.rack_bar", rack.bar_m, Quantity::Bore),
                          check_positive("power.rack_gap", rack.gap_m, Quantity::Bore),
                          check_positive("power.rack_slope", rack.slope_rad, Quantity::Angle),
                          check_positive("power.rack_shape", rack.shape));
        !check)
        return check.error();
    if (rack.slope_rad > std::numbers::pi / 2.0)
        return refusal("power.slope_out_of_range", "power.rack_slope", {{"slope", rack.slope_rad, Quantity::Angle}});
    RackLoss loss;
    loss.approach_ms = rack.flow_m3s / rack.wetted_area_m2;
    const double open = 1.0 - kRackClogged;
    loss.clean_m = rack.shape * std::pow(rack.bar_m / rack.gap_m, kKirschmerExponent) * std::sin(rack.slope_rad) *
                   loss.approach_ms * loss.approach_ms / (2.0 * gravity_ms2);
    loss.clogged_m = loss.clean_m / (open * open);
    if (!std::isfinite(loss.clogged_m))
        return refusal("uncertainty.not_finite", "power.rack_area");
    if (loss.approach_ms > kApproachHigh_ms)
        loss.findings.push_back(
            warning("power.rack_approach_fast", "power.rack_area",
                    {{"speed", loss.approach_ms, Quantity::Velocity}, {"limit", kApproachHigh_ms, Quantity::Velocity}}));
    return loss;
}

Expected<double> screen_width_m(double flow_m3s, double capacity_m2s) {
    if (const Expected<void> check = first_refusal(check_not_negative("power.flow", flow_m3s, Quantity::Discharge),
                                                   check_positive("power.screen_capacity", capacity_m2s));
        !check)
        return check.error();
    const double width_m = flow_m3s / (kScreenShare * capacity_m2s);
    if (!std::isfinite(width_m))
        return refusal("uncertainty.not_finite", "power.screen_capacity");
    return width_m;
}

Expected<Submergence> submergence(const PipeMouth& mouth, double gravity_ms2) {
    if (const Expected<void> check = first_refusal(check_positive("power.gravity", gravity_ms2),
                                                   check_not_negative("power.pipe_speed", mouth.speed_ms, Quantity::Velocity),
                                                   check_positive("power.bore", mouth.bore_m, Quantity::Bore));
        !check)
        return check.error();
    const double bore_m = mouth.bore_m;
    const double froude = mouth.speed_ms / std::sqrt(gravity_ms2 * bore_m);
    Submergence result;
    result.gordon_m = (mouth.lateral ? kGordonLateral : kGordonSymmetric) * mouth.speed_ms * std::sqrt(bore_m);
    result.hydraulic_institute_m = bore_m * (1.0 + kHydraulicInstitute * froude);
    const double to_centre = froude < kKnaussSlow ? kKnaussSlowDepth : std::max(kKnaussSlowDepth, kKnaussSlope * froude + kKnaussBase);
    result.knauss_m = bore_m * (to_centre - 0.5);
    const std::array depths{result.gordon_m, result.hydraulic_institute_m, result.knauss_m};
    const auto deepest = std::max_element(depths.begin(), depths.end());
    result.needed_m = *deepest;
    result.governs = static_cast<SubmergenceRule>(deepest - depths.begin());
    if (!std::isfinite(result.needed_m))
        return refusal("uncertainty.not_finite", "power.bore");
    return result;
}

Expected<double> settling_velocity_ms(const Grain& grain, double gravity_ms2) {
    if (const Expected<void> check =
            first_refusal(check_positive("power.gravity", gravity_ms2),
                          check_positive("power.grain", grain.diameter_m, Quantity::Bore),
                          check_positive("power.grain_density", grain.submerged_density),
                          check_positive("power.viscosity", grain.kinematic_viscosity_m2s));
        !check)
        return check.error();
    if (grain.diameter_m > kGrainMax_m)
        return refusal("power.grain_too_large", "power.grain",
                       {{"grain", grain.diameter_m, Quantity::Bore}, {"limit", kGrainMax_m, Quantity::Bore}});
    const double weight = grain.submerged_density * gravity_ms2 * grain.diameter_m * grain.diameter_m;
    return weight / (kFergusonLaminar * grain.kinematic_viscosity_m2s +
                     std::sqrt(kFergusonTurbulent * weight * grain.diameter_m));
}

Expected<Basin> settling_basin(double flow_m3s, double settling_ms, double width_m) {
    if (const Expected<void> check = first_refusal(check_positive("power.flow", flow_m3s, Quantity::Discharge),
                                                   check_positive("power.settling", settling_ms, Quantity::Velocity),
                                                   check_positive("power.basin_width", width_m, Quantity::Length));
        !check)
        return check.error();
    Basin basin;
    basin.area_m2 = kBasinTurbulence * flow_m3s / settling_ms;
    basin.length_m = basin.area_m2 / width_m;
    basin.depth_m = flow_m3s / (kBasinSpeedMax_ms * width_m);
    if (!std::isfinite(basin.area_m2) || !std::isfinite(basin.length_m) || !std::isfinite(basin.depth_m))
        return refusal("uncertainty.not_finite", "power.basin_width");
    return basin;
}

} // namespace rillmark
