// SPDX-License-Identifier: GPL-3.0-or-later
#include "heights/sum_of_rises.h"

#include <algorithm>
#include <cmath>

namespace rillmark {

Expected<MeasuredRise> sum_of_rises(const std::vector<MeasuredRise>& rises) {
    if (rises.empty())
        return refusal("levels.nothing_measured");
    MeasuredRise sum;
    for (const MeasuredRise& rise : rises) {
        sum.rise_m += rise.rise_m;
        sum.random_m = std::hypot(sum.random_m, rise.random_m);
        sum.findings.insert(sum.findings.end(), rise.findings.begin(), rise.findings.end());
        for (const SharedEffect& effect : rise.shared) {
            const auto same = std::ranges::find(sum.shared, effect.key, &SharedEffect::key);
            if (same == sum.shared.end())
                sum.shared.push_back(effect);
            else
                same->effect_m += effect.effect_m;
        }
    }
    return sum;
}

} // namespace rillmark
