// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "site/asks.h"
#include "site/site_estimate.h"
#include "site/survey.h"

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace rillmark {

enum class Readiness : std::uint8_t { Done, Thin, Missing, NotNeeded };

/// One thing that the designer will ask for, judged from the record and from what was answered.
struct ReadinessItem {
    Ask ask;
    std::string code; // "site.ask_<key>", worded by the UI
    Readiness state = Readiness::Missing;
    std::string why;                 // code of the reason, worded by the UI; empty when done or not needed
    std::optional<AnswerRow> answer; // the one that holds
};

/// Is the site ready for the designer?
///
/// Each rule of the list counts something: `head` (1 known to the powerhouse, 2 checked), `flow-days` (days with a test
/// that counts), `low-water` (1 a test, 2 a year's record as well), `stations` (of a kind), `views` (photos of stations
/// of a kind; of two closer than kSameView_deg one counts), `route` (1 known, 2 with stations between its ends),
/// `high-points` (1 the pipe's route known, 2 with one on it), `notes`, `water-temperature`, `pipe` and `cable`
/// (chosen), `answer` (nothing: a person must say). What is struck out does not count.
/// An answer of yes or in words makes an item done; "no" leaves it at most thin; "not-needed" takes it off the list.
[[nodiscard]] std::vector<ReadinessItem> readiness(const Survey& survey, const SiteEstimate& estimate,
                                                   const std::vector<Ask>& asks);
/// By the built-in list.
[[nodiscard]] std::vector<ReadinessItem> readiness(const Survey& survey, const SiteEstimate& estimate);

// Our own choice: two photos whose directions of view are closer show the same.
inline constexpr double kSameView_deg = 45.0;

/// How many items are in each state.
struct ReadinessTally {
    std::size_t done = 0;
    std::size_t thin = 0;
    std::size_t missing = 0;
    std::size_t not_needed = 0;
    /// Without those that are not needed.
    [[nodiscard]] std::size_t asked() const { return done + thin + missing; }
};
[[nodiscard]] ReadinessTally tally(const std::vector<ReadinessItem>& items);

/// "done", "thin", "missing", "not-needed": how other programs read a state.
[[nodiscard]] const char* readiness_id(Readiness state);

} // namespace rillmark
