// SPDX-License-Identifier: GPL-3.0-or-later
#include "flow/weir_findings.h"

#include <cmath>
#include <utility>

namespace rillmark {

namespace {

constexpr double kRounding = 1e-9;

/// Collects the limits that are passed.
class Limits {
public:
    void at_least(const char* code, double value, double limit, Quantity quantity = Quantity::Length) {
        if (value < limit - kRounding)
            add(code, value, limit, quantity);
    }
    void at_most(const char* code, double value, double limit, Quantity quantity = Quantity::Length) {
        if (value > limit + kRounding)
            add(code, value, limit, quantity);
    }
    [[nodiscard]] Findings& findings() { return m_findings; }

private:
    void add(const char* code, double value, double limit, Quantity quantity) {
        m_findings.push_back(warning(code, {}, {{"value", value, quantity}, {"limit", limit, quantity}}));
    }
    Findings m_findings;
};

void v_notch_limits(const ThinPlateWeir& weir, double head_m, Limits& limits) {
    limits.at_least("flow.weir_angle_low", *weir.notch_angle_rad, kVNotchLeastAngle_deg * std::numbers::pi / 180.0,
                    Quantity::Angle);
    limits.at_least("flow.weir_head_low", head_m, kVNotchLeastHead_m);
    limits.at_most("flow.weir_head_high", head_m, kVNotchGreatestHead_m);
    if (weir.crest_height_m) {
        limits.at_least("flow.weir_crest_low", *weir.crest_height_m, kVNotchLeastHeight_m);
        limits.at_most("flow.weir_head_over_height", head_m / *weir.crest_height_m, kVNotchGreatestHeadOverHeight,
                       Quantity::Number);
    }
    if (weir.approach_width_m) {
        limits.at_least("flow.weir_approach_narrow", *weir.approach_width_m, kVNotchLeastWidth_m);
        limits.at_most("flow.weir_head_over_width", head_m / *weir.approach_width_m, kVNotchGreatestHeadOverWidth,
                       Quantity::Number);
    }
}

void rectangular_limits(const ThinPlateWeir& weir, double head_m, Limits& limits) {
    limits.at_least("flow.weir_head_low", head_m, kRectangularLeastHead_m);
    limits.at_least("flow.weir_crest_short", *weir.crest_length_m, kRectangularLeastLength_m);
    limits.at_least("flow.weir_crest_low", *weir.crest_height_m, kRectangularLeastHeight_m);
    limits.at_most("flow.weir_head_over_height", head_m / *weir.crest_height_m, kRectangularGreatestHeadOverHeight,
                   Quantity::Number);
}

void cipolletti_limits(const ThinPlateWeir& weir, double head_m, Limits& limits) {
    limits.at_least("flow.weir_head_low", head_m, kCipollettiLeastHead_m);
    limits.at_most("flow.weir_head_over_length", head_m / *weir.crest_length_m, kCipollettiGreatestHeadOverLength,
                   Quantity::Number);
}

} // namespace

Findings weir_findings(const ThinPlateWeir& weir, std::optional<double> tailwater_m, double head_m) {
    Limits limits;
    switch (weir.shape) {
    case WeirShape::VNotch:
        v_notch_limits(weir, head_m, limits);
        break;
    case WeirShape::Rectangular:
        rectangular_limits(weir, head_m, limits);
        break;
    case WeirShape::Cipolletti:
        cipolletti_limits(weir, head_m, limits);
        break;
    }
    if (weir.gauge_distance_m)
        limits.at_least("flow.weir_gauge_near", *weir.gauge_distance_m, kGaugeDistanceInHeads * head_m);
    if (weir.shape != WeirShape::Rectangular && (!weir.crest_height_m || !weir.approach_width_m))
        limits.findings().push_back(note("flow.weir_approach_unknown"));
    if (!tailwater_m)
        limits.findings().push_back(note("flow.weir_tailwater_unknown"));
    else if (*tailwater_m > 0.0)
        limits.findings().push_back(
            warning("flow.weir_submerged", {}, {{"ratio", *tailwater_m / head_m, Quantity::Ratio}}));
    else if (-*tailwater_m < kFreeNappeDrop_m - kRounding)
        limits.findings().push_back(
            warning("flow.weir_tailwater_near", {},
                    {{"value", -*tailwater_m, Quantity::Length}, {"limit", kFreeNappeDrop_m, Quantity::Length}}));
    return std::move(limits.findings());
}

} // namespace rillmark
