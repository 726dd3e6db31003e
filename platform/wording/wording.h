// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "finding.h"
#include "site/book_closing.h"
#include "uncertainty/estimate.h"
#include "units/format_quantity.h"

#include <QString>

#include <optional>
#include <string>

/// Core's numbers, findings and codes as text in the user's units, locale and language: what the screen and the report
/// have in common. The only way from SI to a reader.
class Wording {
public:
    Wording() = default;
    explicit Wording(rillmark::DisplayOptions options) : m_options(options) {}

    [[nodiscard]] const rillmark::DisplayOptions& options() const { return m_options; }
    [[nodiscard]] QString estimate(const rillmark::Estimate& estimate, rillmark::Quantity quantity) const;
    /// Empty for a missing value.
    [[nodiscard]] QString value(const std::optional<double>& si, rillmark::Quantity quantity,
                                std::optional<int> decimals = {}) const;
    [[nodiscard]] QString percent(double share) const;
    [[nodiscard]] QString sentence(const rillmark::Finding& finding) const;
    /// "Source: ..." of the limit that a code names; empty where it names none.
    [[nodiscard]] static QString source(const std::string& code);
    /// The words for a code that is not a finding: an input of a budget, a kind, a state.
    [[nodiscard]] static QString words(const std::string& code);
    /// A fall below the intake, in words: below it or above it.
    [[nodiscard]] QString against_intake(const rillmark::Estimate& fall_m) const;
    /// How a level book closes: on what, by how much, and what is allowed.
    [[nodiscard]] QString closing(const rillmark::BookClosing& closing) const;
    /// A line of sight that rises or falls by so much per metre, in the words of the trade.
    [[nodiscard]] QString collimation(const rillmark::Estimate& per_metre) const;
    /// Local day and time of a UTC time of the file.
    [[nodiscard]] static QString when(const std::string& utc);

protected:
    rillmark::DisplayOptions m_options;
};
