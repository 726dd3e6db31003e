// SPDX-License-Identifier: GPL-3.0-or-later
#include "power/pipe_ageing.h"

#include <algorithm>
#include <cmath>

namespace rillmark {

namespace {

constexpr double kAgeMax_years = 100.0;
constexpr double kGrowthUncertainty_rel = 0.5;

constexpr double growth(double new_mm, double aged_mm) {
    return (aged_mm - new_mm) / 1000.0 / kAgedAfter_years;
}

// New and aged roughness and C of new pipe as in Moody's list and guides to small hydro; from memory, unconfirmed.
constexpr WallAgeing kWalls[] = {
    {"pvc", growth(0.0015, 0.01), 150.0}, {"pe100", growth(0.007, 0.02), 150.0},
    {"steel", growth(0.045, 0.2), 140.0}, {"ductile-iron", growth(0.03, 0.1), 140.0},
    {"grp", growth(0.003, 0.05), 150.0},
};

} // namespace

Expected<WallAgeing> wall_ageing(std::string_view material) {
    const auto hit = std::ranges::find(kWalls, material, &WallAgeing::material);
    if (hit == std::end(kWalls))
        return refusal("power.unknown_material", {}, {{"id", std::string(material)}});
    return *hit;
}

Expected<std::vector<AgedChain>> over_ages(const ChainInput& input, std::span<const std::string> materials,
                                           std::span<const double> years) {
    if (input.pipes.empty() || materials.size() != input.pipes.size())
        return refusal("power.missing_pipe");
    std::vector<AgedChain> ages;
    for (const double age : years) {
        if (!(age >= 0.0) || age > kAgeMax_years)
            return refusal("power.age_out_of_range", {}, {{"years", age}, {"limit", kAgeMax_years}});
        ChainInput aged = input;
        for (std::size_t i = 0; i < aged.pipes.size(); ++i) {
            const Expected<WallAgeing> wall = wall_ageing(materials[i]);
            if (!wall)
                return wall.error();
            const double grown_m = wall->growth_m_per_year * age;
            Estimate& roughness = aged.pipes[i].roughness_m;
            roughness = {roughness.value + grown_m,
                         std::hypot(roughness.standard_uncertainty, kGrowthUncertainty_rel * grown_m)};
        }
        ages.push_back({age, aged.pipes.front().roughness_m.value, water_to_wire(aged)});
    }
    return ages;
}

} // namespace rillmark
