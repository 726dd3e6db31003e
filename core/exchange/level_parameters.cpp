// SPDX-License-Identifier: GPL-3.0-or-later
#include "exchange/level_parameters.h"

#include <string>

namespace rillmark {

std::optional<Estimate> collimation_parameter(const ReduceTable& table) {
    const std::optional<double> collimation = table.parameter("collimation");
    if (!collimation)
        return {};
    return Estimate{*collimation, *table.parameter("collimation_uncertainty")};
}

Expected<bool> yes_or_no(const std::string& answer, std::string_view name) {
    if (answer == "yes" || answer == "no")
        return answer == "yes";
    return refusal("exchange.answer_unknown", {}, {{"cell", answer}, {"parameter", std::string(name)}});
}

Expected<bool> yes_no_parameter(const ReduceTable& table, std::string_view name) {
    return yes_or_no(table.text_parameter(name), name);
}

} // namespace rillmark
