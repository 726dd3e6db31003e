// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "formatter.h"
#include "uncertainty/estimate.h"

#include <QList>
#include <QObject>
#include <QString>
#include <QtQml/qqmlregistration.h>

/// One bar of "how we know": an input, its part in the variance, and where it was read.
class BudgetBar {
    Q_GADGET
    QML_VALUE_TYPE(budgetBar)
    Q_PROPERTY(QString label MEMBER label CONSTANT FINAL)
    Q_PROPERTY(QString part MEMBER part CONSTANT FINAL)   // its own +/- in the unit of the figure
    Q_PROPERTY(double share MEMBER share CONSTANT FINAL)  // 0..1
    Q_PROPERTY(QString percent MEMBER percent CONSTANT FINAL)
public:
    QString label;
    QString part;
    double share = 0.0;
    QString percent;
    friend bool operator==(const BudgetBar&, const BudgetBar&) = default;
};

/// Largest first, small ones summed up in a last line.
[[nodiscard]] QList<BudgetBar> budget_bars(const rillmark::Budgeted& result, rillmark::Quantity quantity,
                                           const Formatter& formatter);
/// The one reading whose repeat would narrow the figure most; empty where nothing would.
[[nodiscard]] QString repeat_advice(const rillmark::Budgeted& result, rillmark::Quantity quantity, const Formatter& formatter);
