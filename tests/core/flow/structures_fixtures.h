// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "flow/flow_result.h"
#include "flow/head_readings.h"

#include <gtest/gtest.h>

#include <vector>

namespace rillmark::structures_fixtures {

inline std::vector<HeadReading> heads(const std::vector<double>& readings_m) {
    std::vector<HeadReading> readings;
    for (const double reading_m : readings_m)
        readings.push_back({static_cast<std::int64_t>(readings.size() + 1), reading_m, false});
    return readings;
}

inline double share_sum(const Budgeted& flow) {
    double sum = 0.0;
    for (const BudgetLine& line : flow.budget)
        sum += line.share;
    return sum;
}

} // namespace rillmark::structures_fixtures
