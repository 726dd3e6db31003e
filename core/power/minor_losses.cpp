// SPDX-License-Identifier: GPL-3.0-or-later
#include "power/minor_losses.h"

namespace rillmark {

Expected<Estimate> sum_of_k(const PowerTables& tables, const std::vector<FittingCount>& fittings) {
    double sum = 0.0;
    for (const FittingCount& counted : fittings) {
        const Expected<Fitting> fitting = tables.fitting(counted.id);
        if (!fitting)
            return fitting.error();
        if (counted.count < 0)
            return refusal("power.negative", "power.minor_k", {{"value", static_cast<double>(counted.count)}});
        sum += counted.count * fitting->k;
    }
    return Estimate{sum, kMinorLossUncertainty * sum};
}

} // namespace rillmark
