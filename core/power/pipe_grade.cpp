// SPDX-License-Identifier: GPL-3.0-or-later
#include "power/pipe_grade.h"

#include <algorithm>
#include <cmath>

namespace rillmark {

namespace {

Arg row_of(std::size_t point) {
    return {"row", static_cast<std::int64_t>(point + 1)};
}

Expected<void> check_point(const PipePoint& point, std::size_t number) {
    if (!std::isfinite(point.chainage_m))
        return refusal("uncertainty.not_finite", "power.chainage", {row_of(number)});
    if (!std::isfinite(point.level_m))
        return refusal("uncertainty.not_finite", "power.pipe_level", {row_of(number)});
    if (!std::isfinite(point.bend_rad))
        return refusal("uncertainty.not_finite", "power.bend_angle", {row_of(number)});
    if (point.bend_rad < 0.0 || point.bend_rad > std::numbers::pi)
        return refusal("power.bend_out_of_range", "power.bend_angle",
                       {row_of(number),
                        {"angle", point.bend_rad, Quantity::Angle},
                        {"highest", std::numbers::pi, Quantity::Angle}});
    return {};
}

double slope_rad(const PipePoint& from, const PipePoint& to) {
    // check_points lets a last digit through
    return std::asin(std::clamp((to.level_m - from.level_m) / (to.chainage_m - from.chainage_m), -1.0, 1.0));
}

} // namespace

Expected<void> check_points(const std::vector<PipePoint>& points) {
    if (points.size() < 2)
        return refusal("power.too_few_points", "power.chainage", {{"count", static_cast<std::int64_t>(points.size())}});
    for (std::size_t i = 0; i < points.size(); ++i) {
        if (const Expected<void> check = check_point(points[i], i); !check)
            return check.error();
        if (i == 0)
            continue;
        const double length_m = points[i].chainage_m - points[i - 1].chainage_m;
        if (length_m <= 0.0)
            return refusal("power.chainage_not_growing", "power.chainage",
                           {row_of(i), {"chainage", points[i].chainage_m, Quantity::Length}});
        const double rise_m = std::abs(points[i].level_m - points[i - 1].level_m);
        // a vertical pipe typed in another unit may lose its last digits
        constexpr double kRounding = 1e-9;
        if (rise_m > length_m * (1.0 + kRounding))
            return refusal("power.rise_longer_than_pipe", "power.pipe_level",
                           {row_of(i), {"rise", rise_m, Quantity::Length}, {"length", length_m, Quantity::Length}});
    }
    return {};
}

Expected<PipeGrade> pipe_grade(const std::vector<PipePoint>& points) {
    if (const Expected<void> check = check_points(points); !check)
        return check.error();
    PipeGrade grade;
    double before = 0.0; // the last change of level that was none of a level run
    for (std::size_t i = 0; i + 1 < points.size(); ++i) {
        const double change_m = points[i + 1].level_m - points[i].level_m;
        if (before > 0.0 && change_m < 0.0)
            grade.spots.push_back({SpotKind::High, i});
        if (before < 0.0 && change_m > 0.0)
            grade.spots.push_back({SpotKind::Low, i});
        if (change_m != 0.0)
            before = change_m;
        if (change_m < 0.0)
            continue;
        if (!grade.not_falling.empty() && grade.not_falling.back().to == i) {
            grade.not_falling.back().to = i + 1;
            grade.not_falling.back().rise_m += change_m;
        } else {
            grade.not_falling.push_back({i, i + 1, change_m});
        }
    }
    return grade;
}

double bend_at_rad(const std::vector<PipePoint>& points, std::size_t point) {
    const double above = slope_rad(points[point - 1], points[point]);
    const double below = slope_rad(points[point], points[point + 1]);
    const double cosine =
        std::cos(above) * std::cos(below) * std::cos(points[point].bend_rad) + std::sin(above) * std::sin(below);
    return std::acos(std::clamp(cosine, -1.0, 1.0));
}

} // namespace rillmark
