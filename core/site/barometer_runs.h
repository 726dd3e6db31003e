// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "heights/height_method.h"
#include "heights/measured_rise.h"
#include "site/survey.h"

#include <string>
#include <vector>

namespace rillmark {

/// A reading of a barometer run, and the height of its point above the base.
struct PressureRise {
    Id reading_id = 0;
    std::string from_node; // the base
    std::string to_node;
    MeasuredRise rise;
};

/// One instrument with returns to its base, or base and rover by the role of each reading. The base is the run's station,
/// else the point of its first reading; `at` of a reading is its `from` end. What is said or refused goes to `findings`.
[[nodiscard]] std::vector<PressureRise> pressure_rises(const Survey& survey, const HeightRunRow& run,
                                                       const std::vector<HeightReadingRow>& readings, HeightMethod method,
                                                       Findings& findings);

} // namespace rillmark
