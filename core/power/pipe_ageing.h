// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "power/water_to_wire.h"

#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace rillmark {

/// How a wall in clean water roughens, and its coefficient by Hazen and Williams while it is new.
struct WallAgeing {
    std::string_view material; // as in PipeSize::material
    double growth_m_per_year;
    double hazen_williams_c;
};

// Years after which a wall has the roughness that lists give for an aged one; our own choice, no source.
inline constexpr double kAgedAfter_years = 30.0;

/// Roughness grows evenly with time (C. F. Colebrook, C. M. White, The reduction of carrying capacity of pipes with
/// age, J. Inst. Civil Engrs. 7, 1937; from memory, unconfirmed). The rate takes the wall from the new to the aged
/// value of textbook lists (from memory, unconfirmed) in kAgedAfter_years. Practice differs: lists by water quality
/// span a factor of ten for bare iron and steel; slime and lime are not in it. Refuses an unknown material
/// (`power.unknown_material`).
[[nodiscard]] Expected<WallAgeing> wall_ageing(std::string_view material);

/// The chain after some years.
struct AgedChain {
    double years = 0.0;
    double roughness_m = 0.0; // of the first pipe
    ChainResult result;
};
/// The chain at each of those ages (0 to 100 years, else `power.age_out_of_range`), with what the walls have grown
/// added to the roughness of each pipe; `materials` one for each pipe of the chain (else `power.missing_pipe`). The
/// growth has a standard uncertainty of half of itself (common practice, no source). Refuses what wall_ageing refuses.
[[nodiscard]] Expected<std::vector<AgedChain>>
over_ages(const ChainInput& input, std::span<const std::string> materials, std::span<const double> years);

} // namespace rillmark
