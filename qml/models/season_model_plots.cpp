// SPDX-License-Identifier: GPL-3.0-or-later
// The part of SeasonModel that shows curves and figures.
#include "season_model.h"

#include "units/units.h"

#include <QLocale>

#include <algorithm>
#include <cmath>

using namespace rillmark;

namespace {

constexpr int kCurvePoints = 60;
constexpr int kDurationPoints = 200;
constexpr std::size_t kDayPoints = 1500; // a screen has no more columns
constexpr double kBeyond = 0.15;         // of the range of stages, drawn on above the highest gauged
constexpr double kDaysInAYear = 365.2425;

QString symbol_of(const Unit& unit) {
    return QString::fromUtf8(unit.symbol.data(), static_cast<qsizetype>(unit.symbol.size()));
}

} // namespace

Unit SeasonModel::length_unit() const {
    return entry_unit(Quantity::Length, m_settings.formatter().options().system);
}

/// One for all plots, so that they can be held against each other: that of the mean.
Unit SeasonModel::flow_unit() const {
    double typical_m3s = 0.1;
    if (season() != nullptr && season()->site && season()->site->mean)
        typical_m3s = season()->site->mean->estimate.value;
    else if (season() != nullptr && !season()->inputs.gauge_visits.empty())
        typical_m3s = season()->inputs.gauge_visits.front().discharge_m3s.value;
    return display_unit(Quantity::Discharge, m_settings.formatter().options().system, typical_m3s);
}

double SeasonModel::in_flow_unit(double m3s) const {
    return from_si(flow_unit(), m3s);
}

QString SeasonModel::flowUnit() const {
    return symbol_of(flow_unit());
}

QString SeasonModel::lengthUnit() const {
    return symbol_of(length_unit());
}

QList<QPointF> SeasonModel::gauged() const {
    QList<QPointF> points;
    if (season() == nullptr)
        return points;
    for (const GaugeVisit& visit : season()->inputs.gauge_visits)
        if (visit.counts)
            points.append({from_si(length_unit(), visit.stage_m), in_flow_unit(visit.discharge_m3s.value)});
    return points;
}

QList<QPointF> SeasonModel::rating_line(double RatedFlow::* edge) const {
    QList<QPointF> points;
    if (season() == nullptr || !season()->rating)
        return points;
    const StageRating& rating = *season()->rating;
    const double range_m = rating.highest_stage_m - rating.lowest_stage_m;
    const double from_m = std::max(rating.h0_m + 0.01 * range_m, rating.lowest_stage_m - kBeyond * range_m);
    const double to_m = rating.highest_stage_m + kBeyond * range_m;
    for (int i = 0; i <= kCurvePoints; ++i) {
        const double stage_m = std::lerp(from_m, to_m, static_cast<double>(i) / kCurvePoints);
        const RatedFlow flow = rating.at(stage_m);
        if (flow.range != RatedRange::NoFlow)
            points.append({from_si(length_unit(), stage_m),
                           in_flow_unit(edge == nullptr ? flow.discharge.value : flow.*edge)});
    }
    return points;
}

QList<QPointF> SeasonModel::ratingCurve() const {
    return rating_line(nullptr);
}

QList<QPointF> SeasonModel::ratingLower() const {
    return rating_line(&RatedFlow::lowest);
}

QList<QPointF> SeasonModel::ratingUpper() const {
    return rating_line(&RatedFlow::highest);
}

QString SeasonModel::ratingAt(double stage) const {
    if (season() == nullptr || !season()->rating)
        return {};
    const double stage_m = to_si(length_unit(), stage);
    const RatedFlow flow = season()->rating->at(stage_m);
    const Formatter formatter = m_settings.formatter();
    const QString at = formatter.value(stage_m, Quantity::Length);
    if (flow.range == RatedRange::NoFlow)
        return tr("At %1 the rating gives no flow.").arg(at);
    const QString text = tr("At %1: %2, likely %3 to %4")
                             .arg(at, formatter.value(flow.discharge.value, Quantity::Discharge),
                                  formatter.value(flow.lowest, Quantity::Discharge), formatter.value(flow.highest, Quantity::Discharge));
    return flow.range == RatedRange::Within ? text : tr("%1; not gauged at such a stage").arg(text);
}

QList<QPointF> SeasonModel::day_points(bool outside) const {
    QList<QPointF> points;
    if (season() == nullptr || !season()->record)
        return points;
    const GaugeRecord& record = *season()->record;
    const std::chrono::year_month_day first(record.daily.first);
    const double first_year =
        static_cast<int>(first.year()) +
        static_cast<double>((record.daily.first - std::chrono::sys_days(first.year() / 1 / 1)).count()) / kDaysInAYear;
    // of the days that fall on one column of the screen the highest is drawn: floods are short
    const std::size_t step = record.daily.flow_m3s.size() / kDayPoints + 1;
    for (std::size_t start = 0; start < record.daily.flow_m3s.size(); start += step) {
        std::optional<double> highest;
        for (std::size_t i = start; i < std::min(start + step, record.daily.flow_m3s.size()); ++i)
            if (record.daily.flow_m3s[i] && (!outside || (i < record.outside.size() && record.outside[i])))
                highest = std::max(highest.value_or(0.0), *record.daily.flow_m3s[i]);
        if (highest)
            points.append({first_year + static_cast<double>(start) / kDaysInAYear, in_flow_unit(*highest)});
    }
    return points;
}

QList<QPointF> SeasonModel::days() const {
    return day_points(false);
}

QList<QPointF> SeasonModel::daysOutside() const {
    return day_points(true);
}

QList<QPointF> SeasonModel::duration() const {
    QList<QPointF> points;
    if (season() == nullptr || !season()->site || season()->site->curve.size() == 0)
        return points;
    const PlottingRule rule = season()->inputs.summary.rule;
    for (int i = 0; i <= kDurationPoints; ++i) {
        const double part = static_cast<double>(i) / kDurationPoints;
        if (const std::optional<double> flow = season()->site->curve.flow_m3s(part, rule))
            points.append({100.0 * part, in_flow_unit(*flow)});
    }
    return points;
}

QString SeasonModel::durationAt(double percent) const {
    if (season() == nullptr || !season()->site)
        return {};
    const double part = std::clamp(percent / 100.0, 0.0, 1.0);
    const std::optional<double> flow = season()->site->curve.flow_m3s(part, season()->inputs.summary.rule);
    if (!flow)
        return tr("The record does not say what flows %1 of the time.").arg(m_settings.formatter().percent(part));
    return tr("%1 or more for %2 of the time")
        .arg(m_settings.formatter().value(*flow, Quantity::Discharge), m_settings.formatter().percent(part));
}

double SeasonModel::designFlow() const {
    const std::optional<Estimate>& flow = m_project.estimate().chosen.input.flow_m3s;
    return flow ? in_flow_unit(flow->value) : 0.0;
}

QList<YearFigureItem> SeasonModel::figures() const {
    QList<YearFigureItem> items;
    if (season() == nullptr || !season()->site)
        return items;
    const Formatter formatter = m_settings.formatter();
    const SiteRecord& site = *season()->site;
    const auto add = [&](const QString& label, const std::optional<Budgeted>& figure) {
        if (figure)
            items.append({label, formatter.estimate(figure->estimate, Quantity::Discharge)});
    };
    add(tr("Q95: reached or passed 95 % of the time"), site.q95);
    add(tr("Q50: reached or passed half of the time"), site.q50);
    add(tr("Mean"), site.mean);
    add(tr("Lowest 7 days of a year, in the mean"), site.low7);
    if (season()->record && season()->record->summary.base_flow_index)
        items.append({tr("Base-flow index: part that comes from storage"),
                      QLocale().toString(*season()->record->summary.base_flow_index, 'f', 2)});
    return items;
}

QList<MonthItem> SeasonModel::months() const {
    QList<MonthItem> items;
    if (season() == nullptr || !season()->site || season()->site->curve.size() == 0)
        return items;
    const Formatter formatter = m_settings.formatter();
    const PlottingRule rule = season()->inputs.summary.rule;
    const std::optional<FlowToLeave> leave = leave_of(site());
    double greatest = 0.0;
    for (const FlowDuration& month : season()->site->months)
        greatest = std::max(greatest, month.flow_m3s(0.5, rule).value_or(0.0));
    for (std::size_t i = 0; i < season()->site->months.size(); ++i) {
        const FlowDuration& month = season()->site->months[i];
        const std::optional<double> middle = month.flow_m3s(0.5, rule);
        const std::optional<double> low = month.flow_m3s(0.95, rule);
        const double left = leave && leave->rule == LeaveRule::Monthly ? leave->monthly_m3s[i] : 0.0;
        MonthItem item;
        item.name = QLocale().standaloneMonthName(static_cast<int>(i) + 1, QLocale::ShortFormat);
        if (greatest > 0.0) {
            item.middle = middle.value_or(0.0) / greatest;
            item.low = low.value_or(0.0) / greatest;
            item.left = std::min(1.0, left / greatest);
        }
        item.words = middle && low ? tr("%1, in dry ones %2").arg(formatter.value(*middle, Quantity::Discharge),
                                                                    formatter.value(*low, Quantity::Discharge))
                                   : tr("no days in the record");
        items.append(item);
    }
    return items;
}
