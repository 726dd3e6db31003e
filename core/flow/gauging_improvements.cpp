// SPDX-License-Identifier: GPL-3.0-or-later
#include "flow/gauging_improvements.h"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <string>
#include <utility>

namespace rillmark {

namespace {

// A smaller gain is not worth the cold feet (our own choice).
constexpr double kLeastGain = 0.02;

std::int64_t measured_count(const std::vector<PanelFacts>& facts) {
    return std::ranges::count_if(facts, [](const PanelFacts& panel) { return panel.measured != nullptr; });
}

double expanded_m3s(const std::vector<PanelFacts>& facts, double discharge_m3s, int panels_for_one = 1) {
    std::vector<PanelDoubt> doubts;
    for (const PanelFacts& panel : facts)
        doubts.push_back(panel_doubt(panel));
    const double split = 1.0 / std::sqrt(static_cast<double>(panels_for_one));
    for (PanelDoubt& doubt : doubts)
        for (double PanelDoubt::*part :
             {&PanelDoubt::width_m3s, &PanelDoubt::depth_m3s, &PanelDoubt::points_m3s, &PanelDoubt::meter_m3s,
              &PanelDoubt::exposure_m3s, &PanelDoubt::still_rotor_m3s, &PanelDoubt::wall_m3s})
            doubt.*part *= split;
    const int verticals = static_cast<int>(measured_count(facts)) * panels_for_one;
    return combine_velocity_area(discharge_m3s, iso748::kSystematic, iso748::verticals(verticals), doubts)
        .estimate.expanded();
}

/// The panels as they would be with other readings: each measured vertical changed by `change`, which tells whether it
/// did.
struct Changed {
    std::vector<VerticalVelocity> measured;
    std::vector<PanelFacts> facts;
    std::int64_t count = 0;

    template <class Change>
    Changed(const std::vector<PanelFacts>& as_is, Change change) : facts(as_is) {
        measured.reserve(facts.size()); // the facts point into it
        for (PanelFacts& panel : facts) {
            if (panel.measured == nullptr)
                continue;
            measured.push_back(*panel.measured);
            panel.measured = &measured.back();
            count += change(panel, measured.back()) ? 1 : 0;
        }
    }
    Changed(const Changed&) = delete;
    Changed& operator=(const Changed&) = delete;
};

bool expose_twice(PanelFacts&, VerticalVelocity& at) {
    for (PointVelocity& point : at.points)
        point.exposure_s = 2.0 * point.exposure_s.value_or(iso748::kAssumedExposure_s);
    return true;
}

bool read_two_points(PanelFacts& panel, VerticalVelocity& at) {
    if (at.points.size() != 1 || at.surface_only || panel.depth_m < kTwoPointsFrom_m)
        return false;
    PointVelocity upper = at.points.front();
    upper.weight = 0.5;
    at.points = {upper, upper};
    at.points.front().depth_fraction = 0.2;
    at.points.back().depth_fraction = 0.8;
    return true;
}

bool read_below_the_surface(PanelFacts&, VerticalVelocity& at) {
    if (!at.surface_only)
        return false;
    at.surface_only = false;
    at.points.front().depth_fraction = 0.6;
    at.points.front().weight = 1.0;
    return true;
}

bool sound_twice(PanelFacts& panel, VerticalVelocity&) {
    panel.depth_u_m /= std::sqrt(2.0);
    return true;
}

bool rate_by_itself(PanelFacts&, VerticalVelocity& at) {
    for (PointVelocity& point : at.points)
        point.individual_rating = true;
    return true;
}

double briefest_s(const std::vector<PanelFacts>& facts) {
    double briefest = 86400.0;
    for (const PanelFacts& panel : facts)
        if (panel.measured != nullptr)
            for (const PointVelocity& point : panel.measured->points)
                briefest = std::min(briefest, point.exposure_s.value_or(iso748::kAssumedExposure_s));
    return briefest;
}

} // namespace

Findings gauging_improvements(const std::vector<PanelFacts>& facts, double discharge_m3s) {
    if (!(discharge_m3s > 0.0))
        return {};
    const double now_m3s = expanded_m3s(facts, discharge_m3s);
    std::vector<std::pair<double, Finding>> found;
    const auto offer = [&](const char* code, double then_m3s, std::vector<Arg> args = {}) {
        if (then_m3s > (1.0 - kLeastGain) * now_m3s)
            return;
        args.push_back({"now", now_m3s / discharge_m3s, Quantity::Ratio});
        args.push_back({"then", then_m3s / discharge_m3s, Quantity::Ratio});
        found.emplace_back(then_m3s, note(code, {}, std::move(args)));
    };
    const auto after = [&](const Changed& changed) { return expanded_m3s(changed.facts, discharge_m3s); };

    offer("flow.improve_verticals", expanded_m3s(facts, discharge_m3s, 2), {{"count", 2 * measured_count(facts)}});
    offer("flow.improve_exposure", after(Changed(facts, expose_twice)),
          {{"time", 2.0 * briefest_s(facts), Quantity::Time}});
    const Changed two_points(facts, read_two_points);
    offer("flow.improve_points", after(two_points),
          {{"count", two_points.count}, {"limit", kTwoPointsFrom_m, Quantity::Length}});
    const Changed below(facts, read_below_the_surface);
    offer("flow.improve_surface", after(below), {{"count", below.count}});
    offer("flow.improve_depths", after(Changed(facts, sound_twice)));
    offer("flow.improve_rating", after(Changed(facts, rate_by_itself)));

    std::ranges::stable_sort(found, {}, [](const auto& one) { return one.first; });
    Findings findings;
    for (auto& [then_m3s, finding] : found)
        findings.push_back(std::move(finding));
    return findings;
}

} // namespace rillmark
