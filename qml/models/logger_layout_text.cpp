// SPDX-License-Identifier: GPL-3.0-or-later
#include "logger_layout_text.h"

#include <QJsonArray>

#include <algorithm>

using namespace rillmark;

namespace {

const QString kSeparator = QStringLiteral("separator");
const QString kDecimal = QStringLiteral("decimal");
const QString kTime = QStringLiteral("time");
const QString kDate = QStringLiteral("date");
const QString kTimeUnit = QStringLiteral("time_unit");
const QString kOrder = QStringLiteral("date_order");
const QString kLeaveOut = QStringLiteral("leave_out");
const QString kValues = QStringLiteral("values");
const QString kColumn = QStringLiteral("column");
const QString kUnit = QStringLiteral("unit");
constexpr int kMostColumns = 1000;

QString symbol(const Unit& unit) {
    return QString::fromUtf8(unit.symbol.data(), static_cast<qsizetype>(unit.symbol.size()));
}

std::optional<std::size_t> column_of(const QJsonValue& value) {
    const int column = value.toInt(-1);
    if (column < 0 || column > kMostColumns)
        return {};
    return static_cast<std::size_t>(column);
}

char letter_of(const QJsonValue& value, char otherwise) {
    const QString text = value.toString();
    return text.size() == 1 && text[0].unicode() < 128 ? text[0].toLatin1() : otherwise;
}

} // namespace

QJsonObject layout_to_json(const LoggerLayout& layout) {
    QJsonArray values;
    for (const std::optional<LoggerColumn>& one : layout.values)
        values.append(one ? QJsonObject{{kColumn, static_cast<int>(one->column)}, {kUnit, symbol(one->unit)}}
                          : QJsonObject());
    QJsonObject json{{kSeparator, QString(QLatin1Char(layout.separator))},
                     {kDecimal, QString(QLatin1Char(layout.decimal))},
                     {kTime, static_cast<int>(layout.time_column)},
                     {kOrder, static_cast<int>(layout.date_order)},
                     {kLeaveOut, layout.leave_out_bad_lines},
                     {kValues, values}};
    if (layout.date_column)
        json.insert(kDate, static_cast<int>(*layout.date_column));
    if (layout.time_unit)
        json.insert(kTimeUnit, symbol(*layout.time_unit));
    return json;
}

LoggerLayout layout_from_json(const QJsonObject& json, std::span<const LoggerField> fields) {
    LoggerLayout layout;
    layout.separator = letter_of(json.value(kSeparator), ',');
    layout.decimal = letter_of(json.value(kDecimal), '.');
    layout.time_column = column_of(json.value(kTime)).value_or(0);
    layout.date_column = column_of(json.value(kDate));
    layout.time_unit = find_unit(Quantity::Time, json.value(kTimeUnit).toString().toStdString());
    layout.date_order =
        static_cast<DateOrder>(std::clamp(json.value(kOrder).toInt(), 0, static_cast<int>(DateOrder::MonthDayYear)));
    layout.leave_out_bad_lines = json.value(kLeaveOut).toBool();
    const QJsonArray values = json.value(kValues).toArray();
    for (std::size_t i = 0; i < fields.size(); ++i) {
        layout.values.emplace_back();
        const QJsonObject one = values.at(static_cast<qsizetype>(i)).toObject();
        const std::optional<std::size_t> column = column_of(one.value(kColumn));
        const std::optional<Unit> unit = find_unit(fields[i].quantity, one.value(kUnit).toString().toStdString());
        if (column && unit)
            layout.values.back() = LoggerColumn{*column, *unit};
    }
    return layout;
}
