// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "finding.h"
#include "uncertainty/estimate.h"
#include "units/format_quantity.h"

#include <nlohmann/json.hpp>

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace rillmark::desk {

enum ExitCode { kDone = 0, kDataProblem = 1, kWrongCall = 2, kTryAgain = 3 };

/// How the user wants to be told.
struct Manner {
    bool json = false;
    DisplayOptions units;
};

/// The last part of a code: the name of a figure for other programs.
[[nodiscard]] std::string short_name(std::string_view code);
/// The words of a code, or the code itself.
[[nodiscard]] std::string word(std::string_view code);

/// "levels.csv:4: column foresight: " of a finding that has a place in a file; else empty.
[[nodiscard]] std::string place_of(const Finding& finding);
/// The place and the sentence.
[[nodiscard]] std::string sentence(const Finding& finding, const Manner& manner);
[[nodiscard]] const char* severity_name(Severity severity);

/// {"value", "standard_uncertainty", "unit"} in SI; null where there is none.
[[nodiscard]] nlohmann::json to_json(const std::optional<Estimate>& estimate, Quantity quantity);
[[nodiscard]] nlohmann::json to_json(const Finding& finding);
[[nodiscard]] nlohmann::json to_json(const Findings& findings);
[[nodiscard]] std::string si_unit(Quantity quantity);

/// Prints to standard output; bytes that are not UTF-8 are replaced.
void print_json(const nlohmann::json& json);
/// Prints lines of cells to standard output, each column as wide as its widest cell.
void print_table(const std::vector<std::vector<std::string>>& rows);
/// Prints warnings and notes under a heading to standard output; nothing where there are none.
void print_findings(const Findings& findings, const Manner& manner, const std::string& heading = "To know");

/// "–" where there is none.
[[nodiscard]] std::string shown(const std::optional<Estimate>& estimate, Quantity quantity, const Manner& manner);

/// Says on standard error what is being done, where that is a terminal; gone when it is done.
class Progress {
public:
    explicit Progress(std::string what, std::size_t steps = 0);
    Progress(const Progress&) = delete;
    Progress& operator=(const Progress&) = delete;
    ~Progress();
    void step();

private:
    std::string m_what;
    std::size_t m_steps;
    std::size_t m_done = 0;
    bool m_terminal;
    void show() const;
};

/// Says on standard error why there is no result, in JSON on standard output as well. Returns the exit code: a wrong
/// parameter is a wrong call.
int refuse(const Finding& finding, const Manner& manner);

} // namespace rillmark::desk
