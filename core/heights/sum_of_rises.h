// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "expected.h"
#include "heights/measured_rise.h"

#include <vector>

namespace rillmark {

/// Rises that follow on each other, added up: what is random in quadrature, shared effects of one key by their signed
/// sum (JCGM 100:2008, equation 16: inputs with correlation 1). So an eye height that is wrong on every stretch grows
/// with their number, not with its root. Findings of all are kept, in order. Refuses an empty list
/// (`levels.nothing_measured`). Accuracy: exact to rounding.
[[nodiscard]] Expected<MeasuredRise> sum_of_rises(const std::vector<MeasuredRise>& rises);

} // namespace rillmark
