// SPDX-License-Identifier: GPL-3.0-or-later
#include "report/context.h"

#include "flow/flow_method.h"
#include "heights/height_method.h"

#include <QLocale>

namespace rillmark::report {

QString shown(const Context& context, const std::optional<Estimate>& estimate, Quantity quantity) {
    return estimate ? context.wording.estimate(*estimate, quantity) : QStringLiteral("–");
}

QString day_of(const std::string& utc) {
    const QDateTime time = QDateTime::fromString(QString::fromStdString(utc), Qt::ISODateWithMs);
    return time.isValid() ? QLocale().toString(time.toLocalTime().date(), QLocale::ShortFormat) : QString();
}

QString label_of(const BudgetLine& line) {
    const QString input = Wording::words(line.input);
    return line.subject.empty() ? input : QStringLiteral("%1: %2").arg(text_of(line.subject), input);
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
