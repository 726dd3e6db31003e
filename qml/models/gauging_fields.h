// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "entry_form.h"
#include "station_choices.h"

#include <QList>
#include <QStringList>

#include <vector>

/// What the page of a gauging asks: the fields of a vertical, of a velocity at a share of the depth, and of a meter.
namespace gauging_fields {

inline const QString kDistance = QStringLiteral("distance");
inline const QString kDepth = QStringLiteral("depth");
inline const QString kAngle = QStringLiteral("angle");
inline const QString kRevolutions = QStringLiteral("revolutions");
inline const QString kVelocity = QStringLiteral("velocity");
inline const QString kTime = QStringLiteral("time");

/// The shares of the depth at which a velocity may be read, from the surface down.
inline const QStringList kFractions{QStringLiteral("0"),   QStringLiteral("0.2"), QStringLiteral("0.4"),
                                    QStringLiteral("0.6"), QStringLiteral("0.8"), QStringLiteral("1")};

/// "at 0.6 of the depth", "at the surface".
[[nodiscard]] QString place(const QString& fraction);
[[nodiscard]] std::vector<EntryForm::Field> vertical();
[[nodiscard]] std::vector<EntryForm::Field> revolutions(const QString& fraction);
[[nodiscard]] std::vector<EntryForm::Field> velocity(const QString& fraction);
[[nodiscard]] std::vector<EntryForm::Field> meter();
/// The rules for the mean in a vertical, each by its fractions.
[[nodiscard]] QList<Choice> points();

} // namespace gauging_fields
