// SPDX-License-Identifier: GPL-3.0-or-later
#include "report/context.h"

#include "flow/flow_method.h"
#include "heights/height_method.h"

#include <QLocale>

namespace rillmark::report {

QString shown(const Context& context, const std::optional<Estimate>& estimate, Quantity quantity) {
    if (!estimate)
        return QStringLiteral("–");
    return estimate->standard_uncertainty > 0.0 ? context.wording.estimate(*estimate, quantity)
                                                : context.wording.value(estimate->value, quantity);
}

QString day_of(const std::string& utc) {
    const QDateTime time = QDateTime::fromString(QString::fromStdString(utc), Qt::ISODateWithMs);
    return time.isValid() ? QLocale().toString(time.toLocalTime().date(), QLocale::ShortFormat) : QString();
}

QString share_text(const Context& context, double share) {
    constexpr double kRoundsToNothing = 0.005;
    return share > 0.0 && share < kRoundsToNothing ? QStringLiteral("< %1").arg(context.wording.percent(0.01))
                                                   : context.wording.percent(share);
}

QString label_of(const BudgetLine& line) {
    QString input = Wording::words(line.input);
    if (!line.subject.empty())
        return QStringLiteral("%1: %2").arg(text_of(line.subject), input);
    input[0] = input[0].toUpper();
    return input;
}

QString flow_method_words(const std::string& id) {
    const std::optional<FlowMethod> method = flow_method_from_id(id);
    return method ? Wording::words(std::string(flow_method_info(*method).name_code)) : text_of(id);
}

QString height_method_words(const std::string& id) {
    const std::optional<HeightMethod> method = height_method_from_id(id);
    return method ? Wording::words(std::string(height_method_info(*method).name_code)) : text_of(id);
}

} // namespace rillmark::report
