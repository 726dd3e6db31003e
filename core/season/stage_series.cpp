// SPDX-License-Identifier: GPL-3.0-or-later
#include "season/stage_series.h"

#include "flow/settings.h"
#include "season/limits.h"

#include <algorithm>
#include <array>

namespace rillmark {

namespace {

struct Day {
    std::chrono::sys_days date;
    double sum_m3s = 0.0;
    std::size_t flows = 0;
    std::size_t entries = 0;
    bool outside = false;
};

/// Goes through a log and keeps what a day comes to.
class LogDays {
public:
    explicit LogDays(const StageRating& rating) : m_rating(rating) {}

    void add(const StagePoint& point) {
        const auto date = std::chrono::floor<std::chrono::days>(point.time);
        if (days.empty() || days.back().date != date)
            days.push_back({date});
        Day& day = days.back();
        ++day.entries;
        if (!point.stage_m) {
            ++missing;
            return;
        }
        if (m_stage_m != point.stage_m) { // a creek stands for many entries where it stood
            m_stage_m = point.stage_m;
            m_range = m_rating.range_of(*point.stage_m);
            m_flow_m3s = m_range == RatedRange::NoFlow ? 0.0 : m_rating.discharge_m3s(*point.stage_m);
        }
        ++of_range[static_cast<std::size_t>(m_range)];
        day.outside = day.outside || m_range != RatedRange::Within;
        if (m_range == RatedRange::NoFlow)
            return;
        ++day.flows;
        day.sum_m3s += m_flow_m3s;
    }

    [[nodiscard]] std::int64_t count(RatedRange range) const { return of_range[static_cast<std::size_t>(range)]; }

    std::vector<Day> days;
    std::array<std::int64_t, 4> of_range{};
    std::int64_t missing = 0;

private:
    const StageRating& m_rating;
    std::optional<double> m_stage_m; // the last one, and what it gave
    RatedRange m_range = RatedRange::Within;
    double m_flow_m3s = 0.0;
};

Findings findings_of(const LogDays& log, const StageRating& rating) {
    Findings findings;
    const auto say = [&](const char* code, RatedRange range, double limit_m) {
        if (log.count(range) > 0)
            findings.push_back(warning(code, {}, {{"count", log.count(range)}, {"limit", limit_m, Quantity::Length}}));
    };
    say("flow.stages_above", RatedRange::Above, rating.highest_stage_m);
    say("flow.stages_below", RatedRange::Below, rating.lowest_stage_m);
    say("flow.stages_no_flow", RatedRange::NoFlow, rating.h0_m);
    if (log.missing > 0)
        findings.push_back(note("flow.stages_missing", {}, {{"count", log.missing}}));
    return findings;
}

} // namespace

Expected<RatedDays> rated_days(const std::vector<StagePoint>& log, const StageRating& rating, double least_part) {
    if (log.empty())
        return refusal("flow.no_stages");
    LogDays seen(rating);
    for (std::size_t i = 0; i < log.size(); ++i) {
        const std::int64_t row = static_cast<std::int64_t>(i) + 1;
        if (i > 0 && log[i].time <= log[i - 1].time)
            return refusal("flow.times_do_not_rise", "time", {{"row", row}});
        if (log[i].stage_m && !in_range(*log[i].stage_m, -kLargestStage_m, kLargestStage_m))
            return refusal("flow.bad_stage", "stage_m", {{"row", row}, {"value", *log[i].stage_m, Quantity::Length}});
        seen.add(log[i]);
    }
    if (std::ranges::all_of(seen.days, [](const Day& day) { return day.flows == 0; }))
        return refusal("flow.no_days");
    RatedDays rated;
    rated.daily.first = seen.days.front().date;
    const auto count = static_cast<std::size_t>((seen.days.back().date - rated.daily.first).count()) + 1;
    if (count > kLongestRecord_days)
        return refusal(
            "flow.record_too_long", {},
            {{"days", static_cast<std::int64_t>(count)}, {"limit", static_cast<std::int64_t>(kLongestRecord_days)}});
    rated.daily.flow_m3s.resize(count);
    rated.outside.resize(count);
    const std::size_t fullest = std::ranges::max_element(seen.days, {}, &Day::entries)->entries;
    for (const Day& day : seen.days) {
        const auto place = static_cast<std::size_t>((day.date - rated.daily.first).count());
        rated.outside[place] = day.outside;
        if (day.flows > 0 && static_cast<double>(day.flows) >= least_part * static_cast<double>(fullest))
            rated.daily.flow_m3s[place] = day.sum_m3s / static_cast<double>(day.flows);
    }
    rated.findings = findings_of(seen, rating);
    return rated;
}

} // namespace rillmark
