// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "finding.h"
#include "flow/flow_method.h"
#include "uncertainty/estimate.h"

namespace rillmark {

/// What every method of measuring a discharge gives back.
struct FlowResult {
    FlowMethod method = FlowMethod::Container;
    Budgeted discharge; // m3/s
    Findings findings;  // warnings and notes; a refusal comes instead of a result
};

} // namespace rillmark
