// SPDX-License-Identifier: GPL-3.0-or-later
#include "formatter.h"

#include <algorithm>

using namespace rillmark;

namespace {

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

FindingText Formatter::finding(const Finding& finding) const {
    FindingText text;
    text.sentence = sentence(finding);
    text.source = source(finding.code);
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
