// SPDX-License-Identifier: GPL-3.0-or-later
#include "flow/velocity_area_uncertainty.h"

#include "flow/independent_budget.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <span>
#include <utility>

namespace rillmark {

namespace iso748 {

namespace {

constexpr double kPercent = 0.01;

struct Row {
    double at;
    double percent;
};

/// Straight lines between the rows, the outer rows kept beyond them.
double between(std::span<const Row> rows, double at) {
    if (at <= rows.front().at)
        return rows.front().percent;
    for (std::size_t i = 1; i < rows.size(); ++i)
        if (at <= rows[i].at)
            return std::lerp(rows[i - 1].percent, rows[i].percent,
                             (at - rows[i - 1].at) / (rows[i].at - rows[i - 1].at));
    return rows.back().percent;
}

// Tab. 4.8, number of verticals.
constexpr Row kVerticals[] = {{5, 7.5}, {10, 4.5}, {15, 3.0}, {20, 2.5}, {25, 2.0}, {30, 1.5}, {35, 1.0}};
// Tab. 4.11, number of points.
constexpr Row kPoints[] = {{1, 7.5}, {2, 3.5}, {5, 2.5}};
// Tab. 4.12, velocity in m/s.
constexpr Row kIndividualRating[] = {{0.03, 10.0}, {0.10, 2.5}, {0.15, 1.25}, {0.25, 1.0}, {0.50, 0.5}};
constexpr Row kGroupRating[] = {{0.03, 10.0}, {0.10, 5.0}, {0.15, 2.5}, {0.25, 2.0}, {0.50, 1.5}};
constexpr double kLastRatedRow_ms = 0.50;
constexpr double kIndividualAbove_percent = 0.5;
constexpr double kGroupAbove_percent = 1.0;
// Tab. 4.13, exposure in seconds by velocity in m/s.
constexpr std::array kExposures_s{30.0, 60.0, 120.0, 180.0};
constexpr std::array kExposureVelocities_ms{0.05, 0.10, 0.20, 0.30, 0.40, 0.50, 1.00};
using ExposureTable = std::array<std::array<double, 4>, 7>;
constexpr ExposureTable kUpperDepths{
    {{25, 20, 15, 10}, {14, 11, 8, 7}, {8, 6, 5, 4}, {5, 4, 3, 3}, {4, 3, 3, 3}, {4, 3, 3, 2}, {4, 3, 3, 2}}};
constexpr ExposureTable kLowerDepths{
    {{40, 30, 25, 20}, {17, 14, 10, 8}, {9, 7, 5, 4}, {5, 4, 3, 3}, {4, 3, 3, 3}, {4, 3, 3, 2}, {4, 3, 3, 2}}};
constexpr double kDeepestOfUpperTable = 0.6;
// Tab. 4.10.
constexpr double kRod_percent = 0.65;
constexpr double kLine_percent = 0.25;
constexpr double kDeepestByRod_m = 6.0;

} // namespace

double verticals(int count) {
    const double most_doubtful = kVerticals[0].percent * kPercent;
    if (count < kVerticals[0].at)
        return most_doubtful * kVerticals[0].at / std::max(count, 1);
    return between(kVerticals, count) * kPercent;
}

double width(double total_width_m) {
    // Tab. 4.9: steps, not lines, as printed.
    if (total_width_m <= 100.0)
        return 0.15 * kPercent;
    return (total_width_m <= 150.0 ? 0.20 : 0.25) * kPercent;
}

double depth(double depth_m, double depth_u_m) {
    const double table_percent = depth_m <= kDeepestByRod_m ? kRod_percent : kLine_percent;
    return std::max(table_percent * kPercent, depth_u_m / depth_m);
}

double points(int count) {
    return between(kPoints, count) * kPercent;
}

double meter_ms(double velocity_ms, bool individual) {
    const double speed_ms = std::abs(velocity_ms);
    if (speed_ms > kLastRatedRow_ms)
        return (individual ? kIndividualAbove_percent : kGroupAbove_percent) * kPercent * speed_ms;
    const std::span<const Row> rows = individual ? std::span<const Row>(kIndividualRating) : kGroupRating;
    return between(rows, speed_ms) * kPercent * std::max(speed_ms, rows.front().at);
}

double exposure_ms(double velocity_ms, double exposure_s, double depth_fraction) {
    const ExposureTable& table = depth_fraction <= kDeepestOfUpperTable ? kUpperDepths : kLowerDepths;
    const double speed_ms = std::abs(velocity_ms);
    std::array<Row, kExposures_s.size()> by_exposure{};
    for (std::size_t column = 0; column < kExposures_s.size(); ++column) {
        std::array<Row, kExposureVelocities_ms.size()> by_velocity{};
        for (std::size_t row = 0; row < by_velocity.size(); ++row)
            by_velocity[row] = {kExposureVelocities_ms[row], table[row][column]};
        by_exposure[column] = {kExposures_s[column], between(by_velocity, speed_ms)};
    }
    const double too_brief = std::sqrt(std::max(kExposures_s.front() / exposure_s, 1.0));
    return between(by_exposure, exposure_s) * kPercent * too_brief * std::max(speed_ms, kExposureVelocities_ms.front());
}

} // namespace iso748

namespace {

double squared(double value) {
    return value * value;
}

/// The rotor's velocity may be anything from 0 to its starting speed (GUM 4.3.7, rectangular).
double still_rotor_ms(double starting_velocity_ms) {
    return starting_velocity_ms / std::sqrt(3.0);
}

} // namespace

double PanelDoubt::variance() const {
    return squared(width_m3s) + squared(depth_m3s) + squared(points_m3s) + squared(meter_m3s) + squared(exposure_m3s) +
           squared(still_rotor_m3s) + squared(wall_m3s);
}

PanelDoubt panel_doubt(const PanelFacts& facts) {
    PanelDoubt doubt;
    const double flow_m3s = std::abs(facts.discharge_m3s);
    doubt.width_m3s = flow_m3s * iso748::width(facts.total_width_m);
    if (facts.depth_m > 0.0)
        doubt.depth_m3s = flow_m3s * iso748::depth(facts.depth_m, facts.depth_u_m);
    doubt.wall_m3s = facts.wall_u_m3s;
    if (facts.measured == nullptr)
        return doubt;

    const double normal_area_m2 = facts.velocity_area_m2 * facts.cosine;
    const std::vector<PointVelocity>& points = facts.measured->points;
    const double profile =
        facts.measured->surface_only ? iso748::kSurfacePoint : iso748::points(static_cast<int>(points.size()));
    doubt.points_m3s = normal_area_m2 * std::abs(facts.measured->velocity_ms) * profile;
    double meter = 0.0;
    double exposure = 0.0;
    double still = 0.0;
    for (const PointVelocity& point : points) {
        if (point.starting_velocity_ms) {
            still += squared(point.weight * still_rotor_ms(*point.starting_velocity_ms));
            continue;
        }
        const double exposure_s = point.exposure_s.value_or(iso748::kAssumedExposure_s);
        meter += squared(point.weight * iso748::meter_ms(point.velocity_ms, point.individual_rating));
        exposure += squared(point.weight * iso748::exposure_ms(point.velocity_ms, exposure_s, point.depth_fraction));
    }
    doubt.meter_m3s = normal_area_m2 * std::sqrt(meter);
    doubt.exposure_m3s = normal_area_m2 * std::sqrt(exposure);
    doubt.still_rotor_m3s = normal_area_m2 * std::sqrt(still);
    return doubt;
}

Budgeted combine_velocity_area(double discharge_m3s, double systematic, double verticals,
                               const std::vector<PanelDoubt>& panels) {
    const auto over_panels = [&panels](double PanelDoubt::*part) {
        double sum = 0.0;
        for (const PanelDoubt& panel : panels)
            sum += squared(panel.*part);
        return std::sqrt(sum);
    };
    std::vector<BudgetLine> lines{
        {"flow.systematic", {}, systematic * std::abs(discharge_m3s)},
        {"flow.verticals", {}, verticals * std::abs(discharge_m3s)},
        {"flow.width", {}, over_panels(&PanelDoubt::width_m3s)},
        {"flow.depth", {}, over_panels(&PanelDoubt::depth_m3s)},
        {"flow.points", {}, over_panels(&PanelDoubt::points_m3s)},
        {"flow.meter_rating", {}, over_panels(&PanelDoubt::meter_m3s)},
        {"flow.exposure", {}, over_panels(&PanelDoubt::exposure_m3s)},
    };
    const double still_m3s = over_panels(&PanelDoubt::still_rotor_m3s);
    if (still_m3s > 0.0)
        lines.push_back({"flow.still_rotor", {}, still_m3s});
    const double wall_m3s = over_panels(&PanelDoubt::wall_m3s);
    if (wall_m3s > 0.0)
        lines.push_back({"flow.wall_velocity", {}, wall_m3s});
    return combine_independent(discharge_m3s, std::move(lines));
}

} // namespace rillmark
