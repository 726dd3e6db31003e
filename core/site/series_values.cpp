// SPDX-License-Identifier: GPL-3.0-or-later
#include "site/series_values.h"

#include "units/iso_time.h"

#include <fmt/format.h>

#include <charconv>
#include <cmath>
#include <iterator>

namespace rillmark {

namespace {

using std::chrono::days;
using std::chrono::seconds;
using std::chrono::sys_days;
using std::chrono::sys_seconds;

std::string text_of(sys_seconds time) {
    const sys_days day = std::chrono::floor<days>(time);
    const std::chrono::year_month_day date(day);
    const std::int64_t second = (time - day).count();
    return fmt::format("{:04}-{:02}-{:02}T{:02}:{:02}:{:02}.000Z", static_cast<int>(date.year()),
                       static_cast<unsigned>(date.month()), static_cast<unsigned>(date.day()), second / 3600,
                       second / 60 % 60, second % 60);
}

/// Puts readings one after the other into blocks.
class BlockWriter {
public:
    void add(sys_seconds time, const std::optional<double>& value) {
        if (m_blocks.empty() || m_blocks.back().readings == static_cast<std::int64_t>(kReadingsInABlock)) {
            FlowSeriesBlockRow& block = m_blocks.emplace_back();
            block.position = static_cast<std::int64_t>(m_blocks.size()) - 1;
            block.first_at = text_of(time);
            m_first = time;
        }
        FlowSeriesBlockRow& block = m_blocks.back();
        ++block.readings;
        auto out = std::back_inserter(block.data);
        if (value)
            fmt::format_to(out, "{},{}\n", (time - m_first).count(), *value);
        else
            fmt::format_to(out, "{},\n", (time - m_first).count());
    }
    std::vector<FlowSeriesBlockRow> take() { return std::move(m_blocks); }

private:
    std::vector<FlowSeriesBlockRow> m_blocks;
    sys_seconds m_first{};
};

Finding bad_block(const FlowSeriesBlockRow& block) {
    return refusal("project.bad_series", "flow_series_block", {{"id", block.id, Quantity::Number}});
}

/// Calls take(time, value) for each line; false where the text is none of ours.
template <class Take>
bool read_block(const FlowSeriesBlockRow& block, Take&& take) {
    const std::optional<double> first = seconds_of_utc(block.first_at);
    if (!first)
        return false;
    const sys_seconds start{seconds(static_cast<std::int64_t>(*first))};
    const char* at = block.data.data();
    const char* const end = at + block.data.size();
    std::int64_t readings = 0;
    while (at != end) {
        std::int64_t after = 0;
        const auto time = std::from_chars(at, end, after);
        // A hundred years: beyond, the sum of two times would be no time.
        if (time.ec != std::errc() || time.ptr == end || *time.ptr != ',' || after < 0 || after > 100LL * 366 * 86400)
            return false;
        at = time.ptr + 1;
        std::optional<double> value;
        if (at != end && *at != '\n') {
            double number = 0.0;
            const auto read = std::from_chars(at, end, number);
            if (read.ec != std::errc() || !std::isfinite(number))
                return false;
            value = number;
            at = read.ptr;
        }
        if (at == end || *at != '\n' || !take(start + seconds(after), value))
            return false;
        ++at;
        ++readings;
    }
    return readings == block.readings;
}

bool add_day(DailyFlow& series, sys_seconds time, const std::optional<double>& flow_m3s) {
    const sys_days day = std::chrono::floor<days>(time);
    if (series.flow_m3s.empty())
        series.first = day;
    if (day != series.first + days(static_cast<std::int64_t>(series.flow_m3s.size())) ||
        series.flow_m3s.size() >= kLongestRecord_days)
        return false;
    series.flow_m3s.push_back(flow_m3s);
    return true;
}

} // namespace

std::vector<FlowSeriesBlockRow> stage_blocks(const std::vector<StagePoint>& log) {
    BlockWriter writer;
    for (const StagePoint& point : log)
        writer.add(point.time, point.stage_m);
    return writer.take();
}

std::vector<FlowSeriesBlockRow> daily_blocks(const DailyFlow& series) {
    BlockWriter writer;
    for (std::size_t i = 0; i < series.flow_m3s.size(); ++i)
        writer.add(series.first + days(static_cast<std::int64_t>(i)), series.flow_m3s[i]);
    return writer.take();
}

Expected<SeriesValues> series_values(const std::string& kind, const std::vector<const FlowSeriesBlockRow*>& blocks) {
    SeriesValues values;
    const bool stage = kind == kStageSeries;
    if (!stage && kind != kDailyFlowSeries)
        return values; // of a newer version
    for (const FlowSeriesBlockRow* block : blocks) {
        const bool ours = read_block(*block, [&](sys_seconds time, const std::optional<double>& value) {
            if (!stage)
                return add_day(values.daily, time, value);
            values.stages.push_back({time, value});
            return true;
        });
        if (!ours)
            return bad_block(*block);
    }
    return values;
}

Expected<Id> book_series(Project& project, FlowSeriesRow series, std::vector<FlowSeriesBlockRow> blocks) {
    const Expected<void> booked = project.together([&](Project::Batch& batch) -> Expected<void> {
        const Expected<Id> id = batch.book(series);
        if (!id)
            return id.error();
        series.id = *id;
        for (FlowSeriesBlockRow& block : blocks) {
            block.series_id = *id;
            if (const Expected<Id> done = batch.book(block); !done)
                return done.error();
        }
        return {};
    });
    if (!booked)
        return booked.error();
    return series.id;
}

} // namespace rillmark
