// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "finding.h"
#include "flow/velocity_area_uncertainty.h"

#include <vector>

namespace rillmark {

/// What would make a gauging surer, each with the relative +/- (k = 2) of the ISO 748 budget as it is (`now`) and as it
/// would be (`then`); the most helpful first. All computed from the same budget; none for a flow of 0:
/// - `flow.improve_verticals`: twice the verticals (`count`): u_m by its table, and each panel in two halves;
/// - `flow.improve_exposure`: twice the exposure at every point, `time` at the briefest;
/// - `flow.improve_points`: two points where there is one and the depth allows it (`count` verticals, `limit`);
/// - `flow.improve_surface`: a point at 0.6 of the depth where only the surface was read (`count` verticals);
/// - `flow.improve_depths`: every depth sounded twice;
/// - `flow.improve_rating`: the meter rated by itself.
/// What would lessen the +/- by less than a fiftieth is not named (our own choice).
[[nodiscard]] Findings gauging_improvements(const std::vector<PanelFacts>& facts, double discharge_m3s);

} // namespace rillmark
