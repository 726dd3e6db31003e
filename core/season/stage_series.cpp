// SPDX-License-Identifier: GPL-3.0-or-later
#include "season/stage_series.h"

#include "flow/settings.h"
#include "season/limits.h"

#include <algorithm>
#include <array>
#include <map>

namespace rillmark {

Expected<FlowSeries> flow_series(const std::vector<StagePoint>& log, const StageRating& rating) {
    if (log.empty())
        return refusal("flow.no_stages");
    FlowSeries series;
    series.points.reserve(log.size());
    std::array<std::int64_t, 4> in_range_of{};
    std::int64_t missing = 0;
    for (std::size_t i = 0; i < log.size(); ++i) {
        const std::int64_t row = static_cast<std::int64_t>(i) + 1;
        if (i > 0 && log[i].time <= log[i - 1].time)
            return refusal("flow.times_do_not_rise", "time", {{"row", row}});
        FlowPoint point{log[i].time, {}, {}};
        if (!log[i].stage_m) {
            ++missing;
            series.points.push_back(point);
            continue;
        }
        if (!in_range(*log[i].stage_m, -kLargestStage_m, kLargestStage_m))
            return refusal("flow.bad_stage", "stage_m", {{"row", row}, {"value", *log[i].stage_m, Quantity::Length}});
        const RatedFlow flow = rating.at(*log[i].stage_m);
        point.range = flow.range;
        ++in_range_of[static_cast<std::size_t>(flow.range)];
        if (flow.range != RatedRange::NoFlow)
            point.flow = flow;
        series.points.push_back(point);
    }
    const auto say = [&](const char* code, std::int64_t count, double limit_m) {
        if (count > 0)
            series.findings.push_back(warning(code, {}, {{"count", count}, {"limit", limit_m, Quantity::Length}}));
    };
    say("flow.stages_above", in_range_of[static_cast<std::size_t>(RatedRange::Above)], rating.highest_stage_m);
    say("flow.stages_below", in_range_of[static_cast<std::size_t>(RatedRange::Below)], rating.lowest_stage_m);
    say("flow.stages_no_flow", in_range_of[static_cast<std::size_t>(RatedRange::NoFlow)], rating.h0_m);
    if (missing > 0)
        series.findings.push_back(note("flow.stages_missing", {}, {{"count", missing}}));
    return series;
}

Expected<DailyFlow> daily_means(const FlowSeries& series, double least_part) {
    struct Day {
        double sum_m3s = 0.0;
        std::size_t flows = 0;
        std::size_t entries = 0;
    };
    std::map<std::chrono::sys_days, Day> days;
    std::size_t fullest = 0;
    bool any = false;
    auto today = days.end();
    for (const FlowPoint& point : series.points) {
        const auto date = std::chrono::floor<std::chrono::days>(point.time);
        if (today == days.end() || today->first != date) // a log stays long in a day
            today = days.try_emplace(date).first;
        Day& day = today->second;
        fullest = std::max(fullest, ++day.entries);
        if (!point.flow)
            continue;
        any = true;
        ++day.flows;
        day.sum_m3s += point.flow->discharge.value;
    }
    if (!any)
        return refusal("flow.no_days");
    DailyFlow means;
    means.first = days.begin()->first;
    const auto count = static_cast<std::size_t>((days.rbegin()->first - means.first).count()) + 1;
    if (count > kLongestRecord_days)
        return refusal(
            "flow.record_too_long", {},
            {{"days", static_cast<std::int64_t>(count)}, {"limit", static_cast<std::int64_t>(kLongestRecord_days)}});
    means.flow_m3s.resize(count);
    for (const auto& [date, day] : days)
        if (day.flows > 0 && static_cast<double>(day.flows) >= least_part * static_cast<double>(fullest))
            means.flow_m3s[static_cast<std::size_t>((date - means.first).count())] =
                day.sum_m3s / static_cast<double>(day.flows);
    return means;
}

} // namespace rillmark
