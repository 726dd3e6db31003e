// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "finding.h"
#include "levelling/height_network.h"
#include "uncertainty/estimate.h"

#include <vector>

namespace rillmark {

/// What every method of measuring a height difference other than the level book gives back: H(to) - H(from).
struct MeasuredRise {
    double rise_m = 0.0;
    double random_m = 0.0;             // standard uncertainty of what is independent from reading to reading, > 0
    std::vector<SharedEffect> shared;  // what several readings have in common (eye height, index, gauge zero, drift)
    Findings findings;                 // warnings and notes; a refusal comes instead of a result

    /// As a result of its own, where no other reading shares its systematic effects.
    [[nodiscard]] Estimate estimate() const;
};

} // namespace rillmark
