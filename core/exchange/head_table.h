// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "exchange/reduce.h"
#include "flow/flow_result.h"
#include "flow/head_readings.h"

#include <vector>

namespace rillmark {

// What the reductions of weirs and flumes share: one reading of the gauge a row, and the gauge in the parameters
// `zero`, `reading_uncertainty` and `zero_uncertainty`.

[[nodiscard]] std::vector<HeadReading> head_readings(const ReduceTable& table);
[[nodiscard]] HeadGauge head_gauge(const ReduceTable& table);
/// A finding that counts its row among the readings, with its place.
[[nodiscard]] Finding head_place(const ReduceTable& table, Finding finding);
/// Discharge, head and findings.
[[nodiscard]] Reduction head_reduction(const ReduceTable& table, const FlowResult& flow, double head_m);

} // namespace rillmark
