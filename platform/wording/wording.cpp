// SPDX-License-Identifier: GPL-3.0-or-later
#include "wording/wording.h"

#include "words/words.h"

#include <QCoreApplication>
#include <QDateTime>
#include <QLocale>
#include <QObject>

#include <cmath>

using namespace rillmark;

namespace {

QString translated(const char* english) {
    return QCoreApplication::translate("words", english);
}

} // namespace

QString Wording::estimate(const Estimate& estimate, Quantity quantity) const {
    return QString::fromStdString(format_estimate(estimate, quantity, m_options));
}

QString Wording::value(const std::optional<double>& si, Quantity quantity, std::optional<int> decimals) const {
    return si ? QString::fromStdString(format_value(*si, quantity, m_options, decimals)) : QString();
}

QString Wording::percent(double share) const {
    return value(share, Quantity::Ratio, 0);
}

QString Wording::sentence(const Finding& finding) const {
    const auto show = [this](const Arg& arg) -> std::string {
        if (const double* number = std::get_if<double>(&arg.value))
            return format_value(*number, arg.quantity, m_options);
        if (const std::int64_t* whole = std::get_if<std::int64_t>(&arg.value))
            return std::to_string(*whole);
        return std::get<std::string>(arg.value);
    };
    return QString::fromStdString(
        words::sentence(finding, show, [](const char* english) { return translated(english).toStdString(); }));
}

QString Wording::source(const std::string& code) {
    const words::Word* word = words::find(code);
    return word && *word->source ? QCoreApplication::translate("Formatter", "Source: %1").arg(translated(word->source))
                                 : QString();
}

QString Wording::words(const std::string& code) {
    const words::Word* word = words::find(code);
    return word ? translated(word->text) : QString::fromStdString(code);
}

QString Wording::against_intake(const Estimate& fall_m) const {
    const QString size = estimate({std::abs(fall_m.value), fall_m.standard_uncertainty}, Quantity::Length);
    return fall_m.value < 0.0 ? QObject::tr("%1 above the intake").arg(size) : QObject::tr("%1 below the intake").arg(size);
}

QString Wording::closing(const BookClosing& closing) const {
    const QString off = value(closing.closure.misclosure_m, Quantity::Length, 3);
    const QString allowed = value(closing.closure.allowed_m, Quantity::Length, 3);
    switch (closing.on) {
    case BookClosing::On::Itself: return QObject::tr("Closing error %1, allowed %2").arg(off, allowed);
    case BookClosing::On::KnownHeight: return QObject::tr("Closing error between bench marks %1, allowed %2").arg(off, allowed);
    case BookClosing::On::SecondRun:
        return QObject::tr("Differs from %1 by %2, allowed %3").arg(QString::fromStdString(closing.second_run), off, allowed);
    }
    return {};
}

QString Wording::collimation(const Estimate& per_metre) const {
    // over a hundred metres or three hundred feet, whichever the user counts in
    const double over_m =
        m_options.system == UnitSystem::Metric ? 100.0 : to_si(entry_unit(Quantity::Length, m_options.system), 300.0);
    return QObject::tr("line of sight %1 over %2")
        .arg(estimate({per_metre.value * over_m, per_metre.standard_uncertainty * over_m}, Quantity::Bore),
             value(over_m, Quantity::Length, 0));
}

QString Wording::when(const std::string& utc) {
    const QDateTime time = QDateTime::fromString(QString::fromStdString(utc), Qt::ISODateWithMs);
    return time.isValid() ? QLocale().toString(time.toLocalTime(), QLocale::ShortFormat) : QString();
}
