// SPDX-License-Identifier: GPL-3.0-or-later
#include "gauging_fields.h"

using namespace rillmark;

namespace gauging_fields {

namespace {

QString tr(const char* text) {
    return EntryForm::tr(text);
}

} // namespace

QString place(const QString& fraction) {
    if (fraction == kFractions.front())
        return tr("at the surface");
    return fraction == kFractions.back() ? tr("near the bed") : tr("at %1 of the depth").arg(fraction);
}

std::vector<EntryForm::Field> vertical() {
    return {{kDistance, tr("Distance along the tape"), Quantity::Length, true, true},
            {kDepth, tr("Depth"), Quantity::Length, true, false},
            {kAngle, tr("Angle of the flow"), Quantity::Angle, false, true}};
}

std::vector<EntryForm::Field> revolutions(const QString& fraction) {
    return {{kRevolutions, tr("Revolutions %1").arg(place(fraction)), Quantity::Number, true, false},
            {kTime, tr("Exposure %1").arg(place(fraction)), Quantity::Time, true, false}};
}

std::vector<EntryForm::Field> velocity(const QString& fraction) {
    return {{kVelocity, tr("Velocity %1").arg(place(fraction)), Quantity::Velocity, true, true},
            {kTime, tr("Exposure %1").arg(place(fraction)), Quantity::Time, false, false}};
}

std::vector<EntryForm::Field> meter() {
    return {{QStringLiteral("name"), tr("Meter and its number"), {}, true, false},
            {QStringLiteral("a"), tr("a, per revolution"), Quantity::Length, false, false},
            {QStringLiteral("b"), tr("b"), Quantity::Velocity, false, true},
            {QStringLiteral("limit"), tr("Second range above (rev/s)"), Quantity::Number, false, false},
            {QStringLiteral("a2"), tr("a of the second range"), Quantity::Length, false, false},
            {QStringLiteral("b2"), tr("b of the second range"), Quantity::Velocity, false, true},
            {QStringLiteral("limit2"), tr("Third range above (rev/s)"), Quantity::Number, false, false},
            {QStringLiteral("a3"), tr("a of the third range"), Quantity::Length, false, false},
            {QStringLiteral("b3"), tr("b of the third range"), Quantity::Velocity, false, true},
            {QStringLiteral("from"), tr("Rated from"), Quantity::Velocity, false, false},
            {QStringLiteral("to"), tr("Rated to"), Quantity::Velocity, false, false}};
}

QList<Choice> points() {
    return {{QStringLiteral("0.6"), tr("One: 0.6")},
            {QStringLiteral("0.2 0.8"), tr("Two: 0.2, 0.8")},
            {QStringLiteral("0.2 0.6 0.8"), tr("Three")},
            {QStringLiteral("0 0.2 0.6 0.8 1"), tr("Five")},
            {QStringLiteral("0 0.2 0.4 0.6 0.8 1"), tr("Six")},
            {QStringLiteral("0"), tr("Surface only")}};
}

} // namespace gauging_fields
