// SPDX-License-Identifier: GPL-3.0-or-later
#include "formatter.h"

#include "words/words.h"

#include <QCoreApplication>
#include <QDateTime>
#include <QLocale>

#include <algorithm>

using namespace rillmark;

namespace {

QString translated(const char* english) {
    return QCoreApplication::translate("words", english);
}

FigureText in_parts(const Shown& shown) {
    FigureText figure;
    figure.value = QString::fromStdString(shown.value);
    if (!shown.plus_minus.empty())
        figure.plus_minus = QStringLiteral("± ") + QString::fromStdString(shown.plus_minus);
    figure.unit = QString::fromStdString(shown.unit);
    return figure;
}

} // namespace

QString FigureText::text() const {
    QString whole = value;
    for (const QString& part : {plus_minus, unit})
        if (!part.isEmpty())
            whole += QLatin1Char(' ') + part;
    return whole;
}

FigureText Formatter::figure(const std::optional<Estimate>& estimate, Quantity quantity) const {
    return estimate ? in_parts(show_estimate(*estimate, quantity, m_options)) : FigureText{};
}

FigureText Formatter::plain(const std::optional<double>& si, Quantity quantity, std::optional<int> decimals) const {
    return si ? in_parts(show_value(*si, quantity, m_options, decimals)) : FigureText{};
}

QString Formatter::estimate(const Estimate& estimate, Quantity quantity) const {
    return QString::fromStdString(format_estimate(estimate, quantity, m_options));
}

QString Formatter::value(const std::optional<double>& si, Quantity quantity, std::optional<int> decimals) const {
    return si ? QString::fromStdString(format_value(*si, quantity, m_options, decimals)) : QString();
}

QString Formatter::percent(double share) const {
    return value(share, Quantity::Ratio, 0);
}

FindingText Formatter::finding(const Finding& finding) const {
    const auto show = [this](const Arg& arg) -> std::string {
        if (const double* number = std::get_if<double>(&arg.value))
            return format_value(*number, arg.quantity, m_options);
        if (const std::int64_t* whole = std::get_if<std::int64_t>(&arg.value))
            return std::to_string(*whole);
        return std::get<std::string>(arg.value);
    };
    FindingText text;
    text.sentence = QString::fromStdString(
        words::sentence(finding, show, [](const char* english) { return translated(english).toStdString(); }));
    if (const words::Word* word = words::find(finding.code); word && *word->source)
        text.source = QCoreApplication::translate("Formatter", "Source: %1").arg(translated(word->source));
    text.severity = static_cast<int>(finding.severity);
    return text;
}

QList<FindingText> Formatter::findings(const Findings& findings) const {
    QList<FindingText> texts;
    for (const Finding& one : findings)
        texts.append(finding(one));
    std::stable_sort(texts.begin(), texts.end(),
                     [](const FindingText& a, const FindingText& b) { return a.severity > b.severity; });
    return texts;
}

QString Formatter::words(const std::string& code) {
    const words::Word* word = words::find(code);
    return word ? translated(word->text) : QString::fromStdString(code);
}

QString Formatter::against_intake(const Estimate& fall_m) const {
    const QString size = estimate({std::abs(fall_m.value), fall_m.standard_uncertainty}, Quantity::Length);
    return fall_m.value < 0.0 ? QObject::tr("%1 above the intake").arg(size) : QObject::tr("%1 below the intake").arg(size);
}

QString Formatter::collimation(const Estimate& per_metre) const {
    // over a hundred metres or three hundred feet, whichever the user counts in
    const double over_m = m_options.system == UnitSystem::Metric ? 100.0 : to_si(entry_unit(Quantity::Length, m_options.system), 300.0);
    return QObject::tr("line of sight %1 over %2")
        .arg(estimate({per_metre.value * over_m, per_metre.standard_uncertainty * over_m}, Quantity::Bore),
             value(over_m, Quantity::Length, 0));
}

QString Formatter::when(const std::string& utc) {
    const QDateTime time = QDateTime::fromString(QString::fromStdString(utc), Qt::ISODateWithMs);
    return time.isValid() ? QLocale().toString(time.toLocalTime(), QLocale::ShortFormat) : QString();
}
