// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "embedded_text.h"
#include "expected.h"
#include "uncertainty/estimate.h"

#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace rillmark {

/// Manning's n of one kind of channel [s/m^(1/3)].
struct ChannelRoughness {
    std::string id; // "mountain-boulders"
    std::string label;
    double lowest = 0.0;
    double usual = 0.0;
    double highest = 0.0;
    std::string source;
    std::string provenance;

    /// The usual value; its standard uncertainty is that of a rectangle as wide as the range (JCGM 100:2008, 4.3.7).
    [[nodiscard]] Estimate estimate() const;
};

/// Reads manning_n.csv out of `texts`: Chow 1959, table 5-6 D-1, minor streams. The values are for high stages: at low
/// flow over cobbles n of 0.06 to 0.15 is common (from memory, unconfirmed).
/// Refuses what read_csv refuses, a missing file (`flow.table_missing`) and a row without three numbers above zero that
/// rise (`flow.table_bad_row`).
[[nodiscard]] Expected<std::vector<ChannelRoughness>>
read_channel_roughness(std::span<const EmbeddedText> texts = table_texts());

/// The row of that id; refuses what read_channel_roughness refuses, and an unknown id (`flow.unknown_channel`).
[[nodiscard]] Expected<ChannelRoughness> channel_roughness(std::string_view id);

} // namespace rillmark
