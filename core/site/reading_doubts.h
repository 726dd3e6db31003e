// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "site/heights.h"
#include "site/survey.h"

namespace rillmark {

/// What speaks against a reading of a run before it is booked: what its own method says of it that it did not say of
/// the run without it, and a rise that the rest of the network does not expect (judge_against_expected()). The +/- of
/// errors that it shares with other readings counts in full.
[[nodiscard]] Findings reading_doubts(const Survey& survey, const SiteHeights& heights, HeightReadingRow reading);

} // namespace rillmark
