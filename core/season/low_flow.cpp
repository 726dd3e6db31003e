// SPDX-License-Identifier: GPL-3.0-or-later
#include "season/low_flow.h"

#include "flow/student_factor.h"

#include <algorithm>
#include <cmath>

namespace rillmark {

namespace {

constexpr std::size_t kWeek = 7;

/// The days of one year of the record: [first, end).
struct YearDays {
    int year = 0;
    std::size_t first = 0;
    std::size_t end = 0;
    std::vector<double> known_m3s;
};

std::vector<YearDays> years_of(const DailyFlow& series, unsigned year_begins) {
    std::vector<YearDays> years;
    for (std::size_t i = 0; i < series.flow_m3s.size(); ++i) {
        const std::chrono::year_month_day day = series.day(i);
        const int year = static_cast<int>(day.year()) - (static_cast<unsigned>(day.month()) < year_begins ? 1 : 0);
        if (years.empty() || years.back().year != year)
            years.push_back({year, i, i, {}});
        years.back().end = i + 1;
        if (series.flow_m3s[i])
            years.back().known_m3s.push_back(*series.flow_m3s[i]);
    }
    return years;
}

std::optional<double> lowest_week_m3s(const DailyFlow& series, const YearDays& year) {
    std::optional<double> lowest;
    for (std::size_t first = year.first; first + kWeek <= year.end; ++first) {
        double sum = 0.0;
        bool whole = true;
        for (std::size_t i = first; i < first + kWeek && whole; ++i) {
            whole = series.flow_m3s[i].has_value();
            sum += series.flow_m3s[i].value_or(0.0);
        }
        if (whole && (!lowest || sum / kWeek < *lowest))
            lowest = sum / kWeek;
    }
    return lowest;
}

/// Mean of the values, with the standard uncertainty that their scatter gives; 0 for one.
std::optional<Estimate> sample_mean(const std::vector<double>& values) {
    if (values.empty())
        return std::nullopt;
    const double count = static_cast<double>(values.size());
    Estimate mean;
    for (const double value : values)
        mean.value += value / count;
    if (values.size() < 2)
        return mean;
    double squares = 0.0;
    for (const double value : values)
        squares += (value - mean.value) * (value - mean.value);
    mean.standard_uncertainty =
        std::sqrt(squares / (count - 1.0) / count) * student_factor(static_cast<int>(values.size()) - 1);
    return mean;
}

std::optional<double> sample_u(const std::vector<double>& values) {
    if (values.size() < 2)
        return std::nullopt;
    return sample_mean(values)->standard_uncertainty;
}

void add_years(const DailyFlow& series, const SummaryOptions& options, DailySummary& summary) {
    std::vector<double> means;
    std::vector<double> q50;
    std::vector<double> q95;
    std::vector<double> lows;
    for (YearDays& year : years_of(series, options.year_begins)) {
        if (year.known_m3s.size() < kDaysOfAFullYear)
            continue;
        ++summary.full_years;
        const FlowDuration curve(std::move(year.known_m3s));
        means.push_back(*curve.mean_m3s());
        q50.push_back(*curve.flow_m3s(0.5, options.rule));
        q95.push_back(*curve.flow_m3s(0.95, options.rule));
        if (const std::optional<double> low = lowest_week_m3s(series, year)) {
            summary.year_lows.push_back({year.year, *low});
            lows.push_back(*low);
        }
    }
    summary.mean_u_m3s = sample_u(means);
    summary.q50_u_m3s = sample_u(q50);
    summary.q95_u_m3s = sample_u(q95);
    summary.low7_m3s = sample_mean(lows);
}

// Smoothed minima, see base_flow_index().
constexpr std::size_t kBlock = 5;
constexpr double kTurn = 0.9;

struct Low {
    std::size_t day = 0;
    double flow_m3s = 0.0;
};

struct Volumes {
    double base = 0.0;
    double all = 0.0;
};

void add_line(const DailyFlow& series, const Low& from, const Low& to, bool with_last, Volumes& volumes) {
    for (std::size_t i = from.day; i < to.day + (with_last ? 1 : 0); ++i) {
        const double part = static_cast<double>(i - from.day) / static_cast<double>(to.day - from.day);
        const double flow = *series.flow_m3s[i];
        volumes.base += std::min(std::lerp(from.flow_m3s, to.flow_m3s, part), flow);
        volumes.all += flow;
    }
}

/// The lows of blocks that follow each other without a gap.
void add_run(const DailyFlow& series, const std::vector<Low>& lows, Volumes& volumes) {
    std::vector<Low> turns;
    for (std::size_t i = 1; i + 1 < lows.size(); ++i)
        if (kTurn * lows[i].flow_m3s <= std::min(lows[i - 1].flow_m3s, lows[i + 1].flow_m3s))
            turns.push_back(lows[i]);
    for (std::size_t i = 1; i < turns.size(); ++i)
        add_line(series, turns[i - 1], turns[i], i + 1 == turns.size(), volumes);
}

} // namespace

std::optional<double> base_flow_index(const DailyFlow& series) {
    Volumes volumes;
    std::vector<Low> run;
    for (std::size_t first = 0; first + kBlock <= series.flow_m3s.size(); first += kBlock) {
        std::optional<Low> low;
        bool whole = true;
        for (std::size_t i = first; i < first + kBlock; ++i) {
            const std::optional<double>& flow = series.flow_m3s[i];
            whole = whole && flow.has_value();
            if (flow && (!low || *flow < low->flow_m3s))
                low = Low{i, *flow};
        }
        if (whole) {
            run.push_back(*low);
            continue;
        }
        add_run(series, run, volumes);
        run.clear();
    }
    add_run(series, run, volumes);
    if (!(volumes.all > 0.0))
        return std::nullopt;
    return volumes.base / volumes.all;
}

Expected<DailySummary> daily_summary(const DailyFlow& series, const SummaryOptions& options) {
    if (options.year_begins < 1 || options.year_begins > 12)
        return refusal("flow.bad_option", "year_begins",
                       {{"value", static_cast<double>(options.year_begins), Quantity::Number}});
    const FlowDuration curve = flow_duration(series);
    if (curve.size() == 0)
        return refusal("flow.no_days");
    DailySummary summary;
    summary.days = curve.size();
    summary.mean_m3s = *curve.mean_m3s();
    summary.q50_m3s = curve.flow_m3s(0.5, options.rule);
    summary.q95_m3s = curve.flow_m3s(0.95, options.rule);
    add_years(series, options, summary);
    summary.base_flow_index = base_flow_index(series);
    if (summary.full_years < kGoodYears)
        summary.findings.push_back(warning("flow.record_short", {},
                                           {{"count", static_cast<std::int64_t>(summary.full_years)},
                                            {"needed", static_cast<std::int64_t>(kGoodYears)}}));
    return summary;
}

} // namespace rillmark
