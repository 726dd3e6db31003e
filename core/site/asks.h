// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "embedded_text.h"
#include "expected.h"

#include <cstdint>
#include <span>
#include <string>
#include <vector>

namespace rillmark {

/// How a person may answer an item that the record alone cannot settle.
enum class AskAnswer : std::uint8_t { None, YesNo, Text };

/// One line of the designer's list, assets/tables/asks.csv.
struct Ask {
    std::string key;   // kept in project files with the answers
    std::string rule;  // what is counted: see readiness()
    std::string about; // kind of station or line
    double some = 1.0; // from here on thin
    double enough = 1.0;
    AskAnswer answer = AskAnswer::None;
    std::string place; // walk, levels, flow, power, handover
};

/// The designer's list out of `texts`. Refuses as read_power_tables() does, and an answer or rule that is not known
/// (`site.ask_unknown`, with the key).
[[nodiscard]] Expected<std::vector<Ask>> read_asks(std::span<const EmbeddedText> texts = table_texts());

} // namespace rillmark
