// SPDX-License-Identifier: GPL-3.0-or-later
#include "budget_bars.h"

#include <QCoreApplication>

#include <algorithm>
#include <cmath>

using namespace rillmark;

namespace {

constexpr int kMostBars = 7;

QString tr(const char* text) {
    return QCoreApplication::translate("ReadoutModel", text);
}

QString label_of(const BudgetLine& line) {
    const QString input = Formatter::words(line.input);
    return line.subject.empty() ? input : QStringLiteral("%1: %2").arg(QString::fromStdString(line.subject), input);
}

} // namespace

QList<BudgetBar> budget_bars(const Budgeted& result, Quantity quantity, const Formatter& formatter) {
    QList<BudgetBar> bars;
    double rest_share = 0.0;
    double rest_variance = 0.0;
    for (const BudgetLine& line : result.budget) {
        if (bars.size() < kMostBars)
            bars.append({label_of(line), QStringLiteral("± ") + formatter.value(kCoverageFactor * line.contribution, quantity),
                         std::clamp(line.share, 0.0, 1.0), formatter.percent(line.share)});
        else {
            rest_share += line.share;
            rest_variance += line.contribution * line.contribution;
        }
    }
    if (rest_share > 0.0)
        bars.append({tr(QT_TRANSLATE_NOOP("ReadoutModel", "All others")),
                     QStringLiteral("± ") + formatter.value(kCoverageFactor * std::sqrt(rest_variance), quantity),
                     rest_share, formatter.percent(rest_share)});
    return bars;
}

QString repeat_advice(const Budgeted& result, Quantity quantity, const Formatter& formatter) {
    if (result.budget.empty() || result.estimate.standard_uncertainty <= 0.0)
        return {};
    const BudgetLine& largest = result.budget.front();
    // a second, equally good reading halves the variance that this one brings in
    const double narrowed = result.estimate.standard_uncertainty * std::sqrt(1.0 - 0.5 * std::clamp(largest.share, 0.0, 1.0));
    return tr(QT_TRANSLATE_NOOP("ReadoutModel", "Repeat %1: a second one as good would bring the ± to about %2."))
        .arg(label_of(largest), formatter.value(kCoverageFactor * narrowed, quantity));
}
