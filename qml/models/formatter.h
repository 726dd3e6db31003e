// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "finding.h"
#include "uncertainty/estimate.h"
#include "units/format_quantity.h"

#include <QList>
#include <QObject>
#include <QString>
#include <QtQml/qqmlregistration.h>

#include <optional>

/// One finding in the words of the user.
class FindingText {
    Q_GADGET
    QML_VALUE_TYPE(findingText)
    Q_PROPERTY(QString sentence MEMBER sentence CONSTANT FINAL)
    Q_PROPERTY(QString source MEMBER source CONSTANT FINAL)
    Q_PROPERTY(int severity MEMBER severity CONSTANT FINAL)
public:
    QString sentence;
    QString source;
    int severity = 0; // 0 note, 1 warning, 2 refusal
    friend bool operator==(const FindingText&, const FindingText&) = default;
};

/// A figure with its +/-, in parts.
class FigureText {
    Q_GADGET
    QML_VALUE_TYPE(figureText)
    Q_PROPERTY(QString value MEMBER value CONSTANT FINAL)
    Q_PROPERTY(QString plusMinus MEMBER plus_minus CONSTANT FINAL)
    Q_PROPERTY(QString unit MEMBER unit CONSTANT FINAL)
    Q_PROPERTY(QString text READ text CONSTANT FINAL)
    Q_PROPERTY(bool known READ known CONSTANT FINAL)
public:
    QString value;
    QString plus_minus; // with its sign; empty for a plain value
    QString unit;

    [[nodiscard]] bool known() const { return !value.isEmpty(); }
    [[nodiscard]] QString text() const;
    friend bool operator==(const FigureText&, const FigureText&) = default;
};

/// Turns core's numbers and findings into the user's units, locale and language. The only way from SI to the screen.
class Formatter {
public:
    Formatter() = default;
    explicit Formatter(rillmark::DisplayOptions options) : m_options(options) {}

    [[nodiscard]] const rillmark::DisplayOptions& options() const { return m_options; }
    [[nodiscard]] FigureText figure(const std::optional<rillmark::Estimate>& estimate, rillmark::Quantity quantity) const;
    [[nodiscard]] FigureText plain(const std::optional<double>& si, rillmark::Quantity quantity,
                                   std::optional<int> decimals = {}) const;
    [[nodiscard]] QString estimate(const rillmark::Estimate& estimate, rillmark::Quantity quantity) const;
    /// Empty for a missing value.
    [[nodiscard]] QString value(const std::optional<double>& si, rillmark::Quantity quantity,
                                std::optional<int> decimals = {}) const;
    [[nodiscard]] QString percent(double share) const;
    [[nodiscard]] FindingText finding(const rillmark::Finding& finding) const;
    /// Worst first.
    [[nodiscard]] QList<FindingText> findings(const rillmark::Findings& findings) const;
    /// The words for a code that is not a finding: an input of a budget, a kind, a state.
    [[nodiscard]] static QString words(const std::string& code);
    /// A line of sight that rises or falls by so much per metre, in the words of the trade.
    /// A fall below the intake, in words: below it or above it.
    [[nodiscard]] QString against_intake(const rillmark::Estimate& fall_m) const;
    [[nodiscard]] QString collimation(const rillmark::Estimate& per_metre) const;
    /// Local day and time of a UTC time of the file.
    [[nodiscard]] static QString when(const std::string& utc);

private:
    rillmark::DisplayOptions m_options;
};
