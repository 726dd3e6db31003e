// SPDX-License-Identifier: GPL-3.0-or-later
#include "flow/thin_plate_weir.h"

#include "flow/weir_findings.h"
#include "flow/weir_formulas.h"
#include "uncertainty/propagate.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <span>
#include <utility>

namespace rillmark {

namespace {

constexpr double kDegree = std::numbers::pi / 180.0;
constexpr double kLeastAngle_rad = 20.0 * kDegree;
constexpr double kGreatestAngle_rad = 100.0 * kDegree;
constexpr double kAngleRounding_rad = 1e-9; // an angle typed in degrees may miss its limit by that
constexpr double kSuppressedWithin_m = 0.001;

// Places of the inputs of the model.
enum WeirInput : std::size_t { Head, Zero, Coefficient, Size, Height, Width, Tailwater, Villemonte };

double power_of(WeirShape shape) {
    return shape == WeirShape::VNotch ? 2.5 : 1.5;
}

double coefficient_u_rel(WeirShape shape) {
    switch (shape) {
    case WeirShape::VNotch:
        return kVNotchCoefficient_u_rel;
    case WeirShape::Rectangular:
        return kRectangularCoefficient_u_rel;
    case WeirShape::Cipolletti:
        return kCipollettiCoefficient_u_rel;
    }
    return 0.0;
}

bool suppressed(const ThinPlateWeir& weir) {
    return weir.approach_width_m && weir.crest_length_m &&
           std::abs(*weir.approach_width_m - *weir.crest_length_m) <= kSuppressedWithin_m;
}

std::optional<Finding> bad_weir(const ThinPlateWeir& weir, const WeirOptions& options) {
    const auto missing = [](const char* where) { return refusal("flow.weir_incomplete", where); };
    const bool notch = weir.shape == WeirShape::VNotch;
    if (notch && !weir.notch_angle_rad)
        return missing("flow.weir_angle");
    if (!notch && !weir.crest_length_m)
        return missing("flow.weir_crest_length");
    if (weir.shape == WeirShape::Rectangular && !weir.crest_height_m)
        return missing("flow.weir_crest_height");
    if (weir.shape == WeirShape::Rectangular && !weir.approach_width_m)
        return missing("flow.weir_approach_width");
    if (const std::optional<Finding> bad = first_bad_setting(
            {{"flow.weir_angle", notch ? *weir.notch_angle_rad : kLeastAngle_rad, kLeastAngle_rad - kAngleRounding_rad,
              kGreatestAngle_rad + kAngleRounding_rad, Quantity::Angle},
             {"flow.weir_crest_length", weir.crest_length_m.value_or(1.0), 0.01, 100.0, Quantity::Length},
             {"flow.weir_crest_height", weir.crest_height_m.value_or(1.0), 0.01, 100.0, Quantity::Length},
             {"flow.weir_approach_width", weir.approach_width_m.value_or(1.0), 0.01, 1000.0, Quantity::Length},
             {"flow.weir_gauge_distance", weir.gauge_distance_m.value_or(1.0), 0.0, 100.0, Quantity::Length},
             {"flow.weir_tailwater", options.tailwater_m.value_or(0.0), -100.0, 100.0, Quantity::Length},
             {"tailwater_u_m", options.tailwater_u_m, 0.0, 0.1, Quantity::Length},
             {"angle_u_rad", options.angle_u_rad, 0.0, 5.0 * kDegree, Quantity::Angle},
             {"length_u_m", options.length_u_m, 0.0, 0.1, Quantity::Length},
             {"approach_u_m", options.approach_u_m, 0.0, 1.0, Quantity::Length},
             {"gravity_ms2", options.gravity_ms2, 9.7, 9.9, Quantity::Number}}))
        return bad;
    if (!notch && weir.approach_width_m && *weir.approach_width_m < *weir.crest_length_m - kSuppressedWithin_m)
        return refusal(
            "flow.weir_approach_too_narrow", {},
            {{"width", *weir.approach_width_m, Quantity::Length}, {"length", *weir.crest_length_m, Quantity::Length}});
    return std::nullopt;
}

double free_flow_m3s(const ThinPlateWeir& weir, double gravity_ms2, std::span<const double> in) {
    const double head_m = std::max(in[Head] - in[Zero], 0.0);
    switch (weir.shape) {
    case WeirShape::VNotch:
        return in[Coefficient] * v_notch_m3s(in[Size], head_m, gravity_ms2);
    case WeirShape::Cipolletti:
        return in[Coefficient] * cipolletti_m3s(in[Size], head_m);
    case WeirShape::Rectangular:
        break;
    }
    // an approach that is uncertain never makes the crest wider than it; a suppressed crest is as wide as it, whatever
    // it is
    const double width_m = suppressed(weir) ? in[Size] : std::max(in[Width], in[Size]);
    return in[Coefficient] * rectangular_notch_m3s({in[Size], width_m, in[Height]}, head_m, gravity_ms2);
}

double submergence_factor(const ThinPlateWeir& weir, std::span<const double> in) {
    const double head_m = in[Head] - in[Zero];
    if (in[Tailwater] <= 0.0 || head_m <= 0.0)
        return 1.0;
    const double factor = villemonte_factor(std::min(in[Tailwater] / head_m, 1.0), power_of(weir.shape));
    return std::max(factor - in[Villemonte] * (1.0 - factor), 0.0);
}

std::vector<ModelInput> inputs_of(const ThinPlateWeir& weir, const WeirOptions& options, const MeanHead& head) {
    const bool notch = weir.shape == WeirShape::VNotch;
    const bool rectangular = weir.shape == WeirShape::Rectangular;
    const double height_u_m = rectangular ? std::min(options.approach_u_m, 0.5 * *weir.crest_height_m) : 0.0;
    const double width_u_m = rectangular && !suppressed(weir) ? options.approach_u_m : 0.0;
    const bool drowned = options.tailwater_m.value_or(0.0) > 0.0;
    const Estimate size =
        notch ? Estimate{*weir.notch_angle_rad, options.angle_u_rad}
              : Estimate{*weir.crest_length_m, std::min(options.length_u_m, 0.5 * *weir.crest_length_m)};
    return {{"flow.head_reading", {}, {options.gauge.zero_m + head.head_m, head.reading_u_m}},
            {"flow.head_zero", {}, {options.gauge.zero_m, options.gauge.zero_u_m}},
            {"flow.weir_coefficient", {}, {1.0, coefficient_u_rel(weir.shape)}},
            {notch ? "flow.weir_angle" : "flow.weir_crest_length", {}, size},
            {"flow.weir_crest_height", {}, {weir.crest_height_m.value_or(1.0), height_u_m}},
            {"flow.weir_approach_width", {}, {weir.approach_width_m.value_or(1.0), width_u_m}},
            {"flow.weir_tailwater", {}, {options.tailwater_m.value_or(-1.0), drowned ? options.tailwater_u_m : 0.0}},
            {"flow.weir_submergence", {}, {0.0, drowned ? kSubmergence_u_part : 0.0}}};
}

} // namespace

Expected<WeirResult> thin_plate_weir(const ThinPlateWeir& weir, const std::vector<HeadReading>& readings,
                                     const WeirOptions& options) {
    if (const std::optional<Finding> bad = bad_weir(weir, options))
        return *bad;
    const Expected<MeanHead> head = mean_head(readings, options.gauge);
    if (!head)
        return head.error();
    if (options.tailwater_m && *options.tailwater_m > kLargestSubmergence * head->head_m)
        return refusal("flow.weir_drowned", {},
                       {{"tailwater", *options.tailwater_m, Quantity::Length},
                        {"head", head->head_m, Quantity::Length},
                        {"limit", kLargestSubmergence, Quantity::Ratio}});

    const Expected<Budgeted> discharge = propagate(inputs_of(weir, options, *head), [&](std::span<const double> in) {
        return free_flow_m3s(weir, options.gravity_ms2, in) * submergence_factor(weir, in);
    });
    if (!discharge)
        return discharge.error();
    WeirResult result;
    result.flow = {FlowMethod::Weir, *discharge, head->findings};
    std::erase_if(result.flow.discharge.budget, [](const BudgetLine& line) { return line.contribution == 0.0; });
    result.head_m = head->head_m;
    if (options.tailwater_m.value_or(0.0) > 0.0)
        result.submergence_factor = villemonte_factor(*options.tailwater_m / head->head_m, power_of(weir.shape));
    result.free_m3s = discharge->estimate.value / result.submergence_factor;
    Findings limits = weir_findings(weir, options.tailwater_m, head->head_m);
    std::ranges::move(limits, std::back_inserter(result.flow.findings));
    return result;
}

} // namespace rillmark
