// SPDX-License-Identifier: GPL-3.0-or-later
#include "site/asks.h"

#include "power/table_reader.h"

#include <array>

namespace rillmark {

namespace {

constexpr std::array kRules{"head",        "flow-days", "low-water",         "stations", "views", "route",
                            "high-points", "notes",     "water-temperature", "pipe",     "cable", "answer"};
// In the order of AskAnswer.
constexpr std::array kAnswers{"", "yes-no", "text"};

Ask read_row(TableReader& table, std::size_t row) {
    Ask ask;
    ask.key = table.text(row, "key");
    ask.rule = table.text(row, "rule");
    ask.about = table.text(row, "about");
    ask.some = table.number(row, "some");
    ask.enough = table.number(row, "enough");
    ask.place = table.text(row, "place");
    const auto answer = std::ranges::find(kAnswers, table.text(row, "answer"));
    if (answer == kAnswers.end() || std::ranges::find(kRules, ask.rule) == kRules.end())
        ask.rule.clear();
    else
        ask.answer = static_cast<AskAnswer>(answer - kAnswers.begin());
    return ask;
}

} // namespace

Expected<std::vector<Ask>> read_asks(std::span<const EmbeddedText> texts) {
    Expected<std::vector<Ask>> asks = read_table<Ask>(TableReader(texts, "asks.csv"), read_row);
    if (asks)
        for (const Ask& ask : *asks)
            if (ask.key.empty() || ask.rule.empty())
                return refusal("site.ask_unknown", "asks.csv", {{"key", ask.key}});
    return asks;
}

} // namespace rillmark
