// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "expected.h"
#include "finding.h"

#include <cstdint>
#include <vector>

namespace rillmark {

/// One reading of the head gauge of a weir or flume.
struct HeadReading {
    std::int64_t id = 0;
    double reading_m = 0.0; // of the gauge, -100 to 100; head = reading - zero
    bool struck = false;    // struck out: stays legible, is not used
};

struct HeadGauge {
    double zero_m = 0.0; // reading of the gauge at crest level (weir) or floor level (flume), found with a level
    /// Standard uncertainty of one reading, 0 to 0.1 m. Default: common practice, no source, for a point or staff gauge
    /// in still water.
    double reading_u_m = 0.001;
    /// Standard uncertainty of the zero, shared by all readings, 0 to 0.1 m. Default: common practice, no source, for a
    /// zero levelled to the crest.
    double zero_u_m = 0.001;
};

/// The head that a set of readings gives.
struct MeanHead {
    double head_m = 0.0;    // mean of the readings, less the zero
    double reading_u_m = 0; // standard uncertainty of the mean from the readings alone
    Findings findings;
};

// Common practice, no source.
inline constexpr int kGoodHeadReadings = 3;
// Common practice, no source: scatter of the readings, as a multiple of the uncertainty of one, from which the water
// was not steady.
inline constexpr double kUnsteadyHead = 3.0;

/// Mean head over a crest or floor, for water that stood steady while it was read.
///
/// The uncertainty of the mean is the larger of the gauge's own and of the scatter s, over sqrt(n); a scatter that the
/// gauge does not explain is enlarged by student_factor. The zero is not in it: repeating does not lessen it.
/// Notes fewer than kGoodHeadReadings readings (`flow.few_heads`), warns of a scatter above kUnsteadyHead times the
/// gauge's uncertainty (`flow.heads_scatter`).
/// Refuses: no reading (`flow.no_heads`), a reading or zero that is not finite or beyond its range (`flow.bad_head`),
/// an uncertainty out of its range (`flow.bad_option`), a mean head that is not above zero (`flow.head_not_positive`).
[[nodiscard]] Expected<MeanHead> mean_head(const std::vector<HeadReading>& readings, const HeadGauge& gauge);

} // namespace rillmark
