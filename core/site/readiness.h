// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "site/site_estimate.h"
#include "site/survey.h"

#include <string>
#include <vector>

namespace rillmark {

enum class Readiness { Done, Thin, Missing };

/// One thing that the designer will ask for, judged from the record.
struct ReadinessItem {
    std::string code; // "site.ask_heights", worded by the UI
    Readiness state = Readiness::Missing;
    std::string why;   // code of the reason, worded by the UI; empty when done
    std::string place; // where it is mended: walk, levels, flow, power, handover
};

/// Is the site ready for the designer? The list of questions is our own choice (common practice, no source).
[[nodiscard]] std::vector<ReadinessItem> readiness(const Survey& survey, const SiteEstimate& estimate);

} // namespace rillmark
