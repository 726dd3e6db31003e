// SPDX-License-Identifier: GPL-3.0-or-later
#include "flow/salt_calibration.h"

#include "flow/independent_budget.h"
#include "flow/limits.h"
#include "flow/student_factor.h"
#include "flow/tracer_input.h"
#include "units/in_range.h"

#include <algorithm>
#include <cmath>

namespace rillmark {

namespace {

constexpr double kSmallestSample_m3 = 1e-5;
constexpr double kLargestSample_m3 = 1.0;
constexpr double kLargestAddition_m3 = 0.01;
constexpr double kCoarsestResolution_Sm = 0.01;
// Our own choice about what is seen: 0.486 at 25 degC, up to 1.01 for raw readings near 0 degC (mg/L per uS/cm).
constexpr double kLowestFactor = 4.0;
constexpr double kHighestFactor = 11.0;

std::optional<Finding> check_input(const SaltCalibrationInput& input) {
    if (!in_range(input.sample_m3, kSmallestSample_m3, kLargestSample_m3))
        return refusal("flow.bad_sample_volume", "sample_m3", {{"value", input.sample_m3, Quantity::Volume}});
    if (!in_range(input.solution_kgm3, kWeakestSolution_kgm3, kStrongestSolution_kgm3))
        return refusal("flow.bad_solution", "solution_kgm3", {{"value", input.solution_kgm3, Quantity::Density}});
    if (input.solvent_ec_Sm && !in_range(*input.solvent_ec_Sm, 0.0, kHighest_Sm))
        return bad_option("solvent_ec_Sm", *input.solvent_ec_Sm, Quantity::Conductivity);
    for (const auto& [name, value] :
         {std::pair{"sample_u_rel", input.sample_u_rel}, std::pair{"solution_u_rel", input.solution_u_rel},
          std::pair{"added_u_rel", input.added_u_rel}})
        if (!in_range(value, 0.0, kLargest_u_rel))
            return bad_option(name, value, Quantity::Ratio);
    if (!in_range(input.resolution_Sm, 0.0, kCoarsestResolution_Sm))
        return bad_option("resolution_Sm", input.resolution_Sm, Quantity::Conductivity);
    return std::nullopt;
}

Expected<std::vector<CalibrationPoint>> points_of(const SaltCalibrationInput& input) {
    std::vector<CalibrationPoint> points;
    double so_far_m3 = 0.0;
    for (std::size_t i = 0; i < input.additions.size(); ++i) {
        const SaltAddition& addition = input.additions[i];
        if (addition.struck)
            continue;
        if (!in_range(addition.added_m3, 0.0, kLargestAddition_m3))
            return bad_row_value("flow.bad_addition", "added_m3", i, addition.added_m3, Quantity::Volume);
        if (!in_range(addition.ec_Sm, 0.0, kHighest_Sm))
            return bad_row_value("flow.bad_conductivity", "ec_Sm", i, addition.ec_Sm, Quantity::Conductivity);
        if (addition.added_m3 < so_far_m3)
            return bad_row_value("flow.additions_fall", "added_m3", i, addition.added_m3, Quantity::Volume);
        so_far_m3 = addition.added_m3;
        points.push_back({addition.ec_Sm, input.solution_kgm3 * so_far_m3 / (input.sample_m3 + so_far_m3)});
    }
    return points;
}

Findings findings_of(const SaltCalibration& calibration) {
    Findings findings;
    const auto count = static_cast<int>(calibration.points.size());
    if (count < kGoodAdditions)
        findings.push_back(
            note("flow.few_additions", {},
                 {{"count", static_cast<std::int64_t>(count)}, {"needed", static_cast<std::int64_t>(kGoodAdditions)}}));
    double range_kgm3 = 0.0;
    for (const CalibrationPoint& point : calibration.points)
        range_kgm3 = std::max(range_kgm3, point.concentration_kgm3);
    if (calibration.line.scatter_kgm3 > kLargeCalibrationScatter_rel * range_kgm3)
        findings.push_back(warning("flow.calibration_scatters", {},
                                   {{"scatter", calibration.line.scatter_kgm3 / range_kgm3, Quantity::Ratio}}));
    const double factor = calibration.factor.estimate.value;
    if (!in_range(factor, kLowestFactor, kHighestFactor))
        findings.push_back(warning("flow.calibration_factor_unusual", {},
                                   {{"factor", factor / kGenericSaltFactor.value, Quantity::Number}}));
    return findings;
}

} // namespace

Expected<CalibrationLine> fit_calibration(std::span<const CalibrationPoint> points, CalibrationFit fit) {
    const bool free = fit == CalibrationFit::FreeIntercept;
    const int needed = free ? kMinimumAdditions : kMinimumAdditions - 1;
    if (points.size() < static_cast<std::size_t>(needed))
        return refusal(
            "flow.few_calibration_points", {},
            {{"count", static_cast<std::int64_t>(points.size())}, {"needed", static_cast<std::int64_t>(needed)}});
    const double n = static_cast<double>(points.size());
    double mean_ec = 0.0;
    double mean_c = 0.0;
    for (const CalibrationPoint& point : points) {
        mean_ec += free ? point.ec_Sm / n : 0.0;
        mean_c += free ? point.concentration_kgm3 / n : 0.0;
    }
    double sxx = 0.0;
    double sxy = 0.0;
    for (const CalibrationPoint& point : points) {
        sxx += (point.ec_Sm - mean_ec) * (point.ec_Sm - mean_ec);
        sxy += (point.ec_Sm - mean_ec) * (point.concentration_kgm3 - mean_c);
    }
    if (!std::isfinite(sxx) || !std::isfinite(sxy))
        return refusal("uncertainty.not_finite");
    if (!(sxx > 0.0) || !(sxy > 0.0))
        return refusal("flow.calibration_does_not_rise");
    CalibrationLine line;
    line.slope = sxy / sxx;
    line.intercept_kgm3 = mean_c - line.slope * mean_ec;
    line.degrees = static_cast<int>(points.size()) - (free ? 2 : 1);
    double squares = 0.0;
    for (const CalibrationPoint& point : points) {
        const double off = point.concentration_kgm3 - line.intercept_kgm3 - line.slope * point.ec_Sm;
        squares += off * off;
    }
    line.scatter_kgm3 = std::sqrt(squares / line.degrees);
    line.slope_u = line.scatter_kgm3 / std::sqrt(sxx);
    return line;
}

double correct_for_solvent(double factor, double stream_ec_Sm, double solvent_ec_Sm, double solution_kgm3) {
    return factor / (1.0 + factor * (stream_ec_Sm - solvent_ec_Sm) / solution_kgm3);
}

Expected<SaltCalibration> salt_calibration(const SaltCalibrationInput& input) {
    if (const std::optional<Finding> bad = check_input(input))
        return *bad;
    Expected<std::vector<CalibrationPoint>> points = points_of(input);
    if (!points)
        return points.error();
    const Expected<CalibrationLine> line = fit_calibration(*points, CalibrationFit::FreeIntercept);
    if (!line)
        return line.error();

    SaltCalibration calibration;
    calibration.line = *line;
    calibration.points = std::move(points).value();
    const double stream_ec_Sm = -line->intercept_kgm3 / line->slope;
    double factor = line->slope;
    if (input.solvent_ec_Sm)
        factor = correct_for_solvent(factor, stream_ec_Sm, *input.solvent_ec_Sm, input.solution_kgm3);
    if (input.solvent_ec_Sm && (!(factor > 0.0) || !std::isfinite(factor)))
        return bad_option("solvent_ec_Sm", *input.solvent_ec_Sm, Quantity::Conductivity);

    double mean_ec_Sm = 0.0;
    for (const CalibrationPoint& point : calibration.points) {
        mean_ec_Sm += point.ec_Sm / static_cast<double>(calibration.points.size());
        calibration.highest_ec_Sm = std::max(calibration.highest_ec_Sm, point.ec_Sm);
    }
    double sxx = 0.0;
    for (const CalibrationPoint& point : calibration.points)
        sxx += (point.ec_Sm - mean_ec_Sm) * (point.ec_Sm - mean_ec_Sm);
    // a reading that stands still between two steps of the display is off by a rectangular error: GUM 4.3.7
    const double by_resolution = line->slope * input.resolution_Sm / std::sqrt(12.0) / std::sqrt(sxx);
    const double fit_u = std::max(line->slope_u * student_factor(line->degrees), by_resolution);
    calibration.factor = combine_independent(factor, {{"flow.calibration_line", {}, fit_u},
                                                      {"flow.calibration_sample", {}, factor * input.sample_u_rel},
                                                      {"flow.calibration_solution", {}, factor * input.solution_u_rel},
                                                      {"flow.calibration_additions", {}, factor * input.added_u_rel}});
    calibration.findings = findings_of(calibration);
    return calibration;
}

} // namespace rillmark
