// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "power/water_to_wire.h"

namespace rillmark {

/// A chain input of which every link that is present can be computed with.
struct CheckedChain {
    ChainInput input; // refused links emptied
    double gravity_ms2 = 0.0;
    bool water_known = false;    // temperature and place are in range
    bool machines_known = false; // the efficiencies are
    Findings findings;           // refused inputs and missing links
};

/// Looks at every input of the chain once, so that the computation after it need not. See water_to_wire for what it
/// says.
[[nodiscard]] CheckedChain check_chain(const ChainInput& input);

} // namespace rillmark
