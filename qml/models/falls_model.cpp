// SPDX-License-Identifier: GPL-3.0-or-later
#include "falls_model.h"

#include "heights/height_method.h"
#include "levelling/sight_judgement.h"
#include "site/height_evidence.h"
#include "site/next_measurement.h"
#include "site/profile.h"
#include "units/units.h"

#include <algorithm>
#include <cmath>
#include <limits>

using namespace rillmark;

namespace {

constexpr std::size_t kMostNext = 3;

QString method_words(const std::string& method) {
    if (method == "level-book")
        return Formatter::words("levels.level_book");
    const std::optional<HeightMethod> known = height_method_from_id(method);
    return known ? Formatter::words(std::string(height_method_info(*known).name_code)) : QString::fromStdString(method);
}

QString rise_words(const Formatter& formatter, const Estimate& rise) {
    const QString size = formatter.estimate({std::abs(rise.value), rise.standard_uncertainty}, Quantity::Length);
    return rise.value < 0.0 ? FallsModel::tr("falls %1").arg(size) : FallsModel::tr("rises %1").arg(size);
}

} // namespace

FallsModel::FallsModel(OpenProject& project, SettingsModel& settings, ResumeState& resume, QObject* parent)
    : QObject(parent), m_project(project), m_settings(settings), m_resume(resume) {
    connect(&m_project, &OpenProject::opened, this, [this] {
        m_view = m_resume.text(QStringLiteral("levels/view"), QStringLiteral("book"));
        m_upper = 0;
        m_lower = 0;
    });
    connect(&m_project, &OpenProject::changed, this, &FallsModel::changed);
    connect(&m_settings, &SettingsModel::changed, this, &FallsModel::changed);
}

void FallsModel::setView(const QString& view) {
    if (m_view == view)
        return;
    m_view = view;
    m_resume.setText(QStringLiteral("levels/view"), view);
    emit changed();
}

QList<FallItem> FallsModel::falls() const {
    QList<FallItem> items;
    const Formatter formatter = m_settings.formatter();
    const SiteHeights& heights = m_project.estimate().heights;
    for (const Booked<LevelBookRow>& book : m_project.survey().books) {
        FallItem item{key_text(book.row.id), true, QString::fromStdString(book.row.name), tr("Level book"),
                      Formatter::when(book.row.created_at), tr("nothing booked yet"), book.struck};
        if (const auto rise = heights.books.find(book.row.id); rise != heights.books.end())
            item.result = rise_words(formatter, rise->second);
        else if (!m_project.survey().page(book.row.id).empty())
            item.result = tr("back at its first point");
        items.append(item);
    }
    for (const Booked<HeightRunRow>& run : m_project.survey().height_runs) {
        FallItem item{key_text(run.row.id), false, QString::fromStdString(run.row.name), method_words(run.row.method),
                      Formatter::when(run.row.created_at), tr("nothing booked yet"), run.struck};
        for (const RunResult& result : heights.runs)
            if (result.run_id == run.row.id) {
                if (result.whole)
                    item.result = rise_words(formatter, *result.whole);
                else if (result.two_peg)
                    item.result = formatter.collimation(result.two_peg->collimation);
            }
        items.append(item);
    }
    return items;
}

QList<EvidenceItem> FallsModel::evidence() const {
    QList<EvidenceItem> items;
    const Formatter formatter = m_settings.formatter();
    const int decimals = formatter.options().system == UnitSystem::Metric ? 1 : 2; // tenths of a millimetre, hundredths of an inch
    QString group;
    for (const Evidence& one : evidence_of(m_project.survey(), m_project.estimate().heights)) {
        EvidenceItem item;
        item.book = one.place == Evidence::Place::Book;
        item.id = one.place == Evidence::Place::Station ? QString() : key_text(one.place_id);
        QString heading = Formatter::words(one.source);
        heading[0] = heading[0].toUpper();
        if (heading != group)
            item.group = heading;
        group = heading;
        item.text = QString::fromStdString(one.subject);
        item.struck = one.struck;
        if (one.struck) {
            item.detail = QString::fromStdString(one.struck_reason);
        } else {
            item.residual = formatter.value(one.adjusted.residual_m, Quantity::Bore, decimals);
            item.outlier = one.adjusted.outlier;
            if (one.adjusted.normalised_residual)
                item.bar = std::clamp(*one.adjusted.normalised_residual / kOutlierLimit, -1.0, 1.0);
            item.detail = one.adjusted.smallest_found_m
                              ? tr("checked to %1 by the rest; an error above %2 would show")
                                    .arg(formatter.percent(one.adjusted.redundancy),
                                         formatter.value(*one.adjusted.smallest_found_m, Quantity::Bore, decimals))
                              : tr("checked by nothing");
            if (one.slip)
                item.detail += QStringLiteral(". ") + formatter.finding(*one.slip).sentence;
        }
        items.append(item);
    }
    return items;
}

QList<FindingText> FallsModel::findings() const {
    return m_settings.formatter().findings(m_project.estimate().heights.findings);
}

QString FallsModel::fit() const {
    const SiteHeights& heights = m_project.estimate().heights;
    if (!heights.network)
        return tr("No evidence of height yet.");
    const std::optional<GlobalTest>& test = heights.network->global_test();
    if (!test)
        return tr("Nothing is measured twice: nothing checks these heights.");
    const QString numbers = tr("readings to spare %1, spread %2 times what their ± allow for")
                                .arg(test->degrees_of_freedom)
                                .arg(test->s0(), 0, 'f', 2);
    return test->passes() ? tr("The evidence fits together: %1.").arg(numbers)
                          : tr("The evidence does not fit together: %1.").arg(numbers);
}

QList<ProfileItem> FallsModel::profile() const {
    QList<ProfileItem> items;
    const Unit unit = entry_unit(Quantity::Length, m_settings.formatter().options().system);
    const SiteHeights& heights = m_project.estimate().heights;
    for (const ProfilePoint& point : profile_of(m_project.survey(), heights)) {
        const StationRow* station = m_project.survey().station(point.station);
        items.append({key_text(point.station), QString::fromStdString(station->name), from_si(unit, point.chainage_m),
                      from_si(unit, point.height.value),
                      from_si(unit, kCoverageFactor * point.height.standard_uncertainty)});
    }
    return items;
}

QString FallsModel::lengthUnit() const {
    const std::string_view symbol = entry_unit(Quantity::Length, m_settings.formatter().options().system).symbol;
    return QString::fromUtf8(symbol.data(), static_cast<qsizetype>(symbol.size()));
}

QList<Choice> FallsModel::stations() const {
    return station_choices(m_project.survey());
}

QString FallsModel::upper() const {
    if (m_upper != 0)
        return key_text(m_upper);
    const StationRow* intake = intake_of(m_project.survey());
    return intake ? key_text(intake->id) : QString();
}

void FallsModel::setUpper(const QString& station) {
    m_upper = key_of(station);
    emit changed();
}

QString FallsModel::lower() const {
    if (m_lower != 0)
        return key_text(m_lower);
    const std::optional<RunningHead>& head = m_project.estimate().heights.running_head;
    return head ? key_text(head->to_station) : QString();
}

void FallsModel::setLower(const QString& station) {
    m_lower = key_of(station);
    emit changed();
}

QString FallsModel::drop() const {
    const std::optional<Drop> drop = drop_between(m_project.survey(), m_project.estimate().heights, key_of(upper()), key_of(lower()));
    return drop ? m_settings.formatter().estimate(drop->fall, Quantity::Length) : QString();
}

QString FallsModel::dropDetail() const {
    const Formatter formatter = m_settings.formatter();
    const std::optional<Drop> drop = drop_between(m_project.survey(), m_project.estimate().heights, key_of(upper()), key_of(lower()));
    if (!drop)
        return tr("Choose two stations that readings join.");
    if (!drop->slope)
        return tr("No distance between them is known.");
    return tr("over %1 level and %2 of pipe: mean slope %3, %4 of fall for each %5 of pipe")
        .arg(formatter.value(*drop->level_m, Quantity::Length, 1), formatter.value(*drop->pipe_m, Quantity::Length, 1),
             formatter.value(*drop->slope, Quantity::Slope),
             formatter.value(100.0 * drop->fall.value / *drop->pipe_m, Quantity::Length, 2),
             formatter.value(100.0, Quantity::Length, 0));
}

void FallsModel::touchProfile(const QString& station) {
    const QList<ProfileItem> items = profile();
    const auto along = [&items](const QString& key) {
        const auto hit = std::find_if(items.begin(), items.end(), [&key](const ProfileItem& one) { return one.id == key; });
        return hit == items.end() ? std::numeric_limits<double>::infinity() : hit->along;
    };
    const double touched = along(station);
    if (std::abs(touched - along(upper())) <= std::abs(touched - along(lower())))
        setUpper(station);
    else
        setLower(station);
}

QStringList FallsModel::nextMeasurements() const {
    QStringList lines;
    const Formatter formatter = m_settings.formatter();
    for (const NextMeasurement& next : what_to_measure_next(m_project.survey(), m_project.estimate().heights, kMostNext))
        lines.append(next.joins
                         ? tr("%1 from %2 to %3 would join them to the rest")
                               .arg(method_words(next.method), QString::fromStdString(next.from), QString::fromStdString(next.to))
                         : tr("%1 from %2 to %3: the head's ± would go from %4 to %5")
                               .arg(method_words(next.method), QString::fromStdString(next.from),
                                    QString::fromStdString(next.to),
                                    formatter.value(kCoverageFactor * next.before_m, Quantity::Length),
                                    formatter.value(kCoverageFactor * next.after_m, Quantity::Length)));
    return lines;
}
