// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "heights/height_method.h"
#include "levelling/height_network.h"
#include "levelling/two_peg.h"
#include "site/survey.h"

#include <optional>
#include <string>
#include <vector>

namespace rillmark {

/// What one reading of a run comes to by itself: H(to) - H(from).
struct ReadingRise {
    Id reading_id = 0;
    Estimate rise;
    std::optional<double> level_distance_m = {}; // where the method measures one
};

/// What a run of heights gives to the network, and what it says of itself.
struct RunResult {
    Id run_id = 0;
    std::vector<HeightDifference> differences; // id: the reading
    std::vector<KnownHeight> known;            // bench marks
    std::vector<Id> known_readings;            // of each known height
    std::vector<ReadingRise> rises;
    std::optional<TwoPegResult> two_peg;
    std::optional<Estimate> whole; // from its first point to its last, or above its base
    std::string whole_from;        // as the user named them
    std::string whole_to;
    Findings findings;
};

/// The node in the height network of an end of a reading: its station, or a change point of its run.
[[nodiscard]] std::string reading_node(const HeightReadingRow& reading, bool to_end);
/// What the user calls it.
[[nodiscard]] std::string reading_point_name(const Survey& survey, const HeightReadingRow& reading, bool to_end);

/// Computes a run by its method. Readings that are refused are left out, the reason among the findings with the point as
/// its place.
[[nodiscard]] RunResult run_result(const Survey& survey, const HeightRunRow& run);

} // namespace rillmark
