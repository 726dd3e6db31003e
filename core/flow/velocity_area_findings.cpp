// SPDX-License-Identifier: GPL-3.0-or-later
#include "flow/gauged_section.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <iterator>

namespace rillmark {

namespace {

// USGS summary (seen): a panel usually holds no more than 5 % of the flow; 10 % as the upper limit from memory,
// unconfirmed.
constexpr double kGoodPanelShare = 0.05;
constexpr double kLargestPanelShare = 0.10;
// USBR Water Measurement Manual, ch. 10, sec. 15 (seen).
constexpr double kLargestJump_rel = 0.20;
// USBR Water Measurement Manual, ch. 10, sec. 15 (seen): the error of the area by the line of the bed stays below 3 %.
constexpr double kLargestBedError_rel = 0.03;
// The shortest exposure of the ISO 748 table (Morgenschweis, Hydrometrie, Tab. 4.13).
constexpr double kShortestExposure_s = 30.0;
// Common practice, no source.
constexpr double kGoodExposure_s = 40.0;
// From memory, unconfirmed: many services' limit for wading.
constexpr double kWadingAlert_m2s = 0.5;
// The rule of ten, 10 ft2/s, as taught for stream gauging (seen in a secondary page only).
constexpr double kWadingLimit_m2s = 0.92903;
// Morgenschweis, Hydrometrie, sec. 4.5 (one example of 3.7 %), and two course examples (computed): 0.5 to 4 %.
constexpr double kLargestSectionDifference_rel = 0.04;

// ISO 748, least number of verticals by width (from memory, unconfirmed).
struct LeastVerticals {
    double narrower_than_m;
    std::int64_t count;
};
constexpr LeastVerticals kLeastVerticals[] = {{0.5, 5}, {1.0, 6}, {3.0, 7}, {5.0, 13}};
constexpr std::int64_t kLeastVerticalsOfWide = 22;

std::int64_t least_verticals(double width_m) {
    for (const LeastVerticals& row : kLeastVerticals)
        if (width_m < row.narrower_than_m)
            return row.count;
    return kLeastVerticalsOfWide;
}

/// How many places break a limit and which does so most: one finding instead of twenty.
struct Worst {
    std::int64_t count = 0;
    double badness = 0.0;
    double value = 0.0;
    double limit = 0.0; // where each place has its own
    const GaugedVertical* at = nullptr;

    void see(const GaugedVertical& place, double seen, double how_bad, double its_limit = 0.0) {
        ++count;
        if (at == nullptr || how_bad > badness) {
            at = &place;
            value = seen;
            badness = how_bad;
            limit = its_limit;
        }
    }
    void report(Findings& to, Severity severity, const char* code, Quantity quantity, double shown_limit) const {
        if (at == nullptr)
            return;
        to.push_back({severity,
                      code,
                      {},
                      {{"row", at->row},
                       {"distance", at->vertical->distance_m, Quantity::Length},
                       {"count", count},
                       {"value", value, quantity},
                       {"limit", shown_limit, quantity}}});
    }
};

void judge_panels(Findings& to, const std::vector<GaugedVertical>& section, const VelocityAreaResult& result) {
    Worst large;
    Worst very_large;
    for (std::size_t i = 0; i < section.size(); ++i) {
        const double share = result.panels[i].share;
        if (share > kGoodPanelShare)
            large.see(section[i], share, share);
        if (share > kLargestPanelShare)
            very_large.see(section[i], share, share);
    }
    if (very_large.count > 0)
        very_large.report(to, Severity::Warning, "flow.panel_very_large", Quantity::Ratio, kLargestPanelShare);
    else
        large.report(to, Severity::Note, "flow.panel_large", Quantity::Ratio, kGoodPanelShare);

    const auto measured =
        std::ranges::count_if(section, [](const GaugedVertical& at) { return at.measured.has_value(); });
    const std::int64_t least = least_verticals(result.width_m);
    if (measured < least)
        to.push_back(warning("flow.few_verticals", {},
                             {{"count", static_cast<std::int64_t>(measured)},
                              {"needed", least},
                              {"width", result.width_m, Quantity::Length}}));
}

void judge_banks(Findings& to, const std::vector<GaugedVertical>& section) {
    for (std::size_t i = 0; i < section.size(); ++i) {
        const GaugedVertical& at = section[i];
        const auto [left, right] = neighbours(section, i);
        const std::vector<Arg> place{{"row", at.row}, {"distance", at.vertical->distance_m, Quantity::Length}};
        if ((left == nullptr || right == nullptr) && at.vertical->edge == BankEdge::None && at.vertical->depth_m > 0.0)
            to.push_back(warning("flow.bank_missing", "edge", place));
        if (at.wall_estimated) {
            to.push_back(note("flow.wall_velocity_taken", {}, place));
            to.back().args.push_back({"velocity", at.velocity_ms, Quantity::Velocity});
        }
        if (left == nullptr && i > 0)
            to.push_back(note("flow.island", {},
                              {{"from", section[i - 1].vertical->distance_m, Quantity::Length},
                               {"to", at.vertical->distance_m, Quantity::Length}}));
    }
}

void judge_profiles(Findings& to, const std::vector<GaugedVertical>& section) {
    Worst by_surface;
    Worst deep_one_point;
    Worst shallow_two_points;
    Worst angled;
    Worst backward;
    for (const GaugedVertical& at : section) {
        if (!at.measured)
            continue;
        const double depth_m = at.vertical->depth_m;
        if (at.measured->surface_only)
            by_surface.see(at, at.velocity_ms, std::abs(at.velocity_ms));
        else if (at.measured->points.size() == 1 && depth_m > kTwoPointsFrom_m)
            deep_one_point.see(at, depth_m, depth_m);
        if (at.measured->points.size() > 1 && depth_m < kTwoPointsFrom_m)
            shallow_two_points.see(at, depth_m, -depth_m);
        if (at.vertical->angle_rad != 0.0)
            angled.see(at, std::abs(at.vertical->angle_rad), std::abs(at.vertical->angle_rad));
        if (at.velocity_ms < 0.0)
            backward.see(at, at.velocity_ms, -at.velocity_ms);
        if (at.measured->abnormal_profile())
            to.push_back(warning("flow.profile_abnormal", {},
                                 {{"row", at.row},
                                  {"distance", at.vertical->distance_m, Quantity::Length},
                                  {"upper", at.measured->points.front().velocity_ms, Quantity::Velocity},
                                  {"lower", at.measured->points.back().velocity_ms, Quantity::Velocity}}));
    }
    by_surface.report(to, Severity::Warning, "flow.surface_only", Quantity::Velocity, 0.0);
    deep_one_point.report(to, Severity::Warning, "flow.one_point_in_deep_water", Quantity::Length, kTwoPointsFrom_m);
    shallow_two_points.report(to, Severity::Note, "flow.two_points_in_shallow_water", Quantity::Length,
                              kTwoPointsFrom_m);
    angled.report(to, Severity::Note, "flow.angle_applied", Quantity::Angle, 0.0);
    backward.report(to, Severity::Note, "flow.backward_velocity", Quantity::Velocity, 0.0);
}

void judge_readings(Findings& to, const std::vector<GaugedVertical>& section) {
    Worst still;
    Worst slow;
    Worst fast;
    Worst brief;
    Worst rather_brief;
    Worst untimed;
    for (const GaugedVertical& at : section) {
        if (!at.measured)
            continue;
        for (const PointVelocity& point : at.measured->points) {
            const double speed_ms = std::abs(point.velocity_ms);
            if (point.starting_velocity_ms)
                still.see(at, *point.starting_velocity_ms, *point.starting_velocity_ms);
            else if (point.rated_from_ms && speed_ms < *point.rated_from_ms)
                slow.see(at, speed_ms, -speed_ms, *point.rated_from_ms);
            if (point.rated_to_ms && speed_ms > *point.rated_to_ms)
                fast.see(at, speed_ms, speed_ms, *point.rated_to_ms);
            if (!point.exposure_s)
                untimed.see(at, kShortestExposure_s, 0.0);
            else if (*point.exposure_s < kShortestExposure_s)
                brief.see(at, *point.exposure_s, -*point.exposure_s);
            else if (*point.exposure_s < kGoodExposure_s)
                rather_brief.see(at, *point.exposure_s, -*point.exposure_s);
        }
    }
    still.report(to, Severity::Note, "flow.rotor_stood_still", Quantity::Velocity, 0.0);
    slow.report(to, Severity::Warning, "flow.below_rated_velocity", Quantity::Velocity, slow.limit);
    fast.report(to, Severity::Warning, "flow.above_rated_velocity", Quantity::Velocity, fast.limit);
    brief.report(to, Severity::Warning, "flow.exposure_too_short", Quantity::Time, kShortestExposure_s);
    rather_brief.report(to, Severity::Note, "flow.exposure_short", Quantity::Time, kGoodExposure_s);
    untimed.report(to, Severity::Note, "flow.exposure_unknown", Quantity::Time, kShortestExposure_s);
}

void judge_neighbours(Findings& to, const std::vector<GaugedVertical>& section, double area_m2) {
    Worst velocity;
    Worst depth;
    for (std::size_t i = 0; i < section.size(); ++i) {
        const GaugedVertical& at = section[i];
        const auto [left, right] = neighbours(section, i);
        if (left != nullptr && left->measured && at.measured) {
            const double larger_ms = std::max(std::abs(left->velocity_ms), std::abs(at.velocity_ms));
            const double step = std::abs(at.velocity_ms - left->velocity_ms);
            if (step > kLargestJump_rel * larger_ms)
                velocity.see(at, step / larger_ms, step / larger_ms);
        }
        if (left == nullptr || right == nullptr)
            continue;
        // How much area the line of the bed would miss without this vertical: as much may hide beside it.
        const double span_m = right->vertical->distance_m - left->vertical->distance_m;
        const double part = (at.vertical->distance_m - left->vertical->distance_m) / span_m;
        const double missed_m2 =
            std::abs(at.vertical->depth_m - std::lerp(left->vertical->depth_m, right->vertical->depth_m, part)) *
            span_m / 2.0;
        if (missed_m2 > kLargestBedError_rel * area_m2)
            depth.see(at, missed_m2 / area_m2, missed_m2 / area_m2);
    }
    velocity.report(to, Severity::Note, "flow.velocity_jumps", Quantity::Ratio, kLargestJump_rel);
    depth.report(to, Severity::Note, "flow.depth_jumps", Quantity::Ratio, kLargestBedError_rel);
}

void judge_wading(Findings& to, const std::vector<GaugedVertical>& section) {
    Worst alert;
    Worst limit;
    for (const GaugedVertical& at : section) {
        if (!at.measured)
            continue;
        const double product_m2s = at.vertical->depth_m * std::abs(at.measured->velocity_ms);
        if (product_m2s > kWadingAlert_m2s)
            alert.see(at, product_m2s, product_m2s);
        if (product_m2s > kWadingLimit_m2s)
            limit.see(at, product_m2s, product_m2s);
    }
    const bool beyond = limit.count > 0;
    const Worst& worst = beyond ? limit : alert;
    if (worst.at == nullptr)
        return;
    to.push_back(warning(beyond ? "flow.wading_beyond_limit" : "flow.wading_near_limit", {},
                         {{"row", worst.at->row},
                          {"distance", worst.at->vertical->distance_m, Quantity::Length},
                          {"depth", worst.at->vertical->depth_m, Quantity::Length},
                          {"velocity", std::abs(worst.at->measured->velocity_ms), Quantity::Velocity},
                          {"value", worst.value},
                          {"limit", beyond ? kWadingLimit_m2s : kWadingAlert_m2s}}));
}

} // namespace

Findings velocity_area_findings(const std::vector<GaugedVertical>& section, const VelocityAreaResult& result,
                                const VelocityAreaOptions& options) {
    Findings findings;
    if (options.waded)
        judge_wading(findings, section);
    judge_banks(findings, section);
    judge_panels(findings, section, result);
    judge_profiles(findings, section);
    judge_readings(findings, section);
    judge_neighbours(findings, section, result.area_m2);
    const double mid_m3s = result.flow.discharge.estimate.value;
    const double difference_m3s = result.mean_section_m3s - mid_m3s;
    if (std::abs(difference_m3s) > kLargestSectionDifference_rel * mid_m3s)
        findings.push_back(warning("flow.sections_differ", {},
                                   {{"mid", mid_m3s, Quantity::Discharge},
                                    {"mean", result.mean_section_m3s, Quantity::Discharge},
                                    {"limit", kLargestSectionDifference_rel, Quantity::Ratio}}));
    return findings;
}

} // namespace rillmark
