// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "wording/wording.h"

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

/// Wording in the parts and value types that QML shows.
class Formatter : public Wording {
public:
    using Wording::Wording;

    [[nodiscard]] FigureText figure(const std::optional<rillmark::Estimate>& estimate, rillmark::Quantity quantity) const;
    [[nodiscard]] FigureText plain(const std::optional<double>& si, rillmark::Quantity quantity,
                                   std::optional<int> decimals = {}) const;
    [[nodiscard]] FindingText finding(const rillmark::Finding& finding) const;
    /// Worst first.
    [[nodiscard]] QList<FindingText> findings(const rillmark::Findings& findings) const;
};
