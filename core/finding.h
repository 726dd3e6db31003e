// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "units/quantity.h"

#include <cstdint>
#include <string>
#include <utility>
#include <variant>
#include <vector>

namespace rillmark {

/// One number or name that a finding speaks of; the quantity lets the reader see it in their own units.
struct Arg {
    std::string name;
    std::variant<double, std::int64_t, std::string> value;
    Quantity quantity = Quantity::Number; // SI unit of a double value
};

enum class Severity {
    Note,    // worth knowing
    Warning, // outside a limit or against other evidence: the result stands, with this beside it
    Refusal, // there is no result, or nothing was stored
};

/// What core has to say to a person, as data: a code and its numbers, never a sentence.
///
/// The words for each code, with the source of a limit, stand in platform/words and can be translated.
/// A code is `topic.what_happened`; `where` names the field, row or file that it is about (may be empty).
struct Finding {
    Severity severity = Severity::Refusal;
    std::string code;
    std::string where;
    std::vector<Arg> args;
};

using Findings = std::vector<Finding>;

[[nodiscard]] inline Finding refusal(std::string code, std::string where = {}, std::vector<Arg> args = {}) {
    return {Severity::Refusal, std::move(code), std::move(where), std::move(args)};
}
[[nodiscard]] inline Finding warning(std::string code, std::string where = {}, std::vector<Arg> args = {}) {
    return {Severity::Warning, std::move(code), std::move(where), std::move(args)};
}
[[nodiscard]] inline Finding note(std::string code, std::string where = {}, std::vector<Arg> args = {}) {
    return {Severity::Note, std::move(code), std::move(where), std::move(args)};
}

} // namespace rillmark
