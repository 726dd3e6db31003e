// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "finding.h"
#include "flow/thin_plate_weir.h"

#include <optional>

namespace rillmark {

/// What stands outside the limits of the formula, for a weir that thin_plate_weir() accepts: its warnings and notes.
[[nodiscard]] Findings weir_findings(const ThinPlateWeir& weir, std::optional<double> tailwater_m, double head_m);

} // namespace rillmark
