// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "entry_form.h"
#include "levelling/level_book.h"

#include <QString>

#include <vector>

/// The fields of a staff reading, with one wire or three, and the words for the kinds of sight.
namespace sight_form {

inline const QString kChangePoint = QStringLiteral("cp"); // in place of a station: the next change point
inline const QString kReading = QStringLiteral("reading");
inline const QString kDistance = QStringLiteral("distance");
inline const QString kRemark = QStringLiteral("remark");
inline const QString kUpper = QStringLiteral("upper");
inline const QString kLower = QStringLiteral("lower");

[[nodiscard]] std::vector<EntryForm::Field> one_wire();
[[nodiscard]] std::vector<EntryForm::Field> three_wires();
[[nodiscard]] rillmark::SightKind kind_of(const QString& kind);
[[nodiscard]] QString kind_words(const QString& kind);

} // namespace sight_form
