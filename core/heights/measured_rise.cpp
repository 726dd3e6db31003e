// SPDX-License-Identifier: GPL-3.0-or-later
#include "heights/measured_rise.h"

#include <cmath>

namespace rillmark {

Estimate MeasuredRise::estimate() const {
    double variance_m2 = random_m * random_m;
    for (const SharedEffect& effect : shared)
        variance_m2 += effect.effect_m * effect.effect_m;
    return {rise_m, std::sqrt(variance_m2)};
}

} // namespace rillmark
