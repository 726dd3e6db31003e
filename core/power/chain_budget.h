// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "power/chain_model.h"

namespace rillmark {

/// Any link of the chain with what made its uncertainty, by the same model and law as house_W of water_to_wire, so that
/// the figures agree. Refuses a link that cannot be computed (`power.link_unknown`).
[[nodiscard]] Expected<Budgeted> link_budget(const ChainInput& input, double Links::*link);

} // namespace rillmark
