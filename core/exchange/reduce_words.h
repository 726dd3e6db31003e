// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "exchange/reduce_table.h"
#include "units/units.h"

#include <span>
#include <string>
#include <string_view>

namespace rillmark {

/// A word that a text parameter may have.
template <class T>
struct ReduceWord {
    std::string_view word;
    T value;
};

/// What the word of a parameter stands for. Refuses one that is not in the list (`exchange.word_unknown`).
template <class T>
[[nodiscard]] Expected<T> word_parameter(const ReduceTable& table, std::string_view field,
                                         std::span<const ReduceWord<T>> words) {
    std::string accepted;
    for (const ReduceWord<T>& word : words) {
        if (table.text_parameter(field) == word.word)
            return word.value;
        accepted += (accepted.empty() ? "" : ", ") + std::string(word.word);
    }
    return refusal("exchange.word_unknown", {},
                   {{"parameter", std::string(field)}, {"cell", table.text_parameter(field)}, {"accepted", accepted}});
}

/// `exchange.parameter_missing` of a parameter that a method cannot do without.
[[nodiscard]] inline Finding parameter_missing(std::string_view field) {
    return refusal("exchange.parameter_missing", {}, {{"parameter", std::string(field)}});
}

/// 1 mg/L per uS/cm, the unit in which calibration factors are typed, in (kg/m3)/(S/m).
[[nodiscard]] inline double factor_unit() {
    return find_unit(Quantity::Density, "mg/L")->factor / find_unit(Quantity::Conductivity, "uS/cm")->factor;
}

} // namespace rillmark
