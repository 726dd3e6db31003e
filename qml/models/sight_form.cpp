// SPDX-License-Identifier: GPL-3.0-or-later
#include "sight_form.h"

using namespace rillmark;

namespace sight_form {

std::vector<EntryForm::Field> one_wire() {
    return {{kReading, EntryForm::tr("Staff reading"), Quantity::Length, true, false},
            {kDistance, EntryForm::tr("Distance to the staff"), Quantity::Length, false, false},
            {kRemark, EntryForm::tr("Remark"), {}, false, false}};
}

std::vector<EntryForm::Field> three_wires() {
    return {{kUpper, EntryForm::tr("Upper wire"), Quantity::Length, true, false},
            {kReading, EntryForm::tr("Middle wire"), Quantity::Length, true, false},
            {kLower, EntryForm::tr("Lower wire"), Quantity::Length, true, false},
            {kRemark, EntryForm::tr("Remark"), {}, false, false}};
}

SightKind kind_of(const QString& kind) {
    if (kind == QLatin1String("backsight"))
        return SightKind::Backsight;
    return kind == QLatin1String("foresight") ? SightKind::Foresight : SightKind::Intermediate;
}

QString kind_words(const QString& kind) {
    if (kind == QLatin1String("backsight"))
        return EntryForm::tr("Backsight");
    return kind == QLatin1String("foresight") ? EntryForm::tr("Foresight") : EntryForm::tr("Intermediate");
}

} // namespace sight_form
