// SPDX-License-Identifier: GPL-3.0-or-later
#include "power/chain_budget.h"

#include <cmath>

namespace rillmark {

Expected<Budgeted> link_budget(const ChainInput& input, double Links::*link) {
    const CheckedChain chain = check_chain(input);
    if (!chain.input.gross_head_m || !chain.input.flow_m3s || !chain.water_known)
        return refusal("power.link_unknown");
    const ChainModel model(chain);
    if (!std::isfinite(model.at(model.central()).*link))
        return refusal("power.link_unknown");
    return propagate(model.inputs(), [&](std::span<const double> x) { return model.at(x).*link; });
}

} // namespace rillmark
