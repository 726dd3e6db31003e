// SPDX-License-Identifier: GPL-3.0-or-later
#include "season/daily_flow.h"

#include "season/limits.h"

#include <algorithm>
#include <functional>
#include <iterator>
#include <numeric>

namespace rillmark {

namespace {

struct Counts {
    std::int64_t missing = 0;
    std::int64_t coded = 0;
    std::int64_t zero = 0;
};

/// Puts the rows into the order of their days; most records stand in it.
Expected<void> put_in_order(std::vector<DayRecord>& rows) {
    for (std::size_t i = 0; i < rows.size(); ++i)
        if (rows[i].flow_m3s && *rows[i].flow_m3s > kGreatestFlow_m3s)
            return refusal(
                "flow.bad_daily_flow", "flow_m3s",
                {{"row", static_cast<std::int64_t>(i) + 1}, {"value", *rows[i].flow_m3s, Quantity::Discharge}});
    if (std::ranges::adjacent_find(rows, std::ranges::greater_equal(), &DayRecord::day) == rows.end())
        return {};
    std::vector<std::size_t> order(rows.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    const auto day_of = [&](std::size_t row) { return rows[row].day; };
    std::ranges::stable_sort(order, {}, day_of);
    if (const auto twice = std::ranges::adjacent_find(order, {}, day_of); twice != order.end())
        return refusal("flow.day_twice", "date",
                       {{"row", static_cast<std::int64_t>(*std::next(twice)) + 1},
                        {"other", static_cast<std::int64_t>(*twice) + 1}});
    std::ranges::sort(rows, {}, &DayRecord::day);
    return {};
}

Findings findings_of(const Counts& counts, std::size_t days) {
    Findings findings;
    const Arg total{"days", static_cast<std::int64_t>(days)};
    if (counts.missing > 0)
        findings.push_back(note("flow.days_missing", {}, {{"count", counts.missing}, total}));
    if (counts.coded > 0)
        findings.push_back(warning("flow.days_coded", {}, {{"count", counts.coded}, total}));
    if (counts.zero > 0)
        findings.push_back(note("flow.days_zero", {}, {{"count", counts.zero}, total}));
    return findings;
}

} // namespace

std::vector<double> DailyFlow::known_m3s() const {
    std::vector<double> known;
    known.reserve(flow_m3s.size());
    for (const std::optional<double>& flow : flow_m3s)
        if (flow)
            known.push_back(*flow);
    return known;
}

Expected<DailyRecord> daily_record(std::vector<DayRecord> rows) {
    if (const Expected<void> ordered = put_in_order(rows); !ordered)
        return ordered.error();
    if (rows.empty())
        return refusal("flow.no_days");
    DailyRecord record;
    record.series.first = rows.front().day;
    const auto days = static_cast<std::size_t>((rows.back().day - rows.front().day).count()) + 1;
    if (days > kLongestRecord_days)
        return refusal(
            "flow.record_too_long", {},
            {{"days", static_cast<std::int64_t>(days)}, {"limit", static_cast<std::int64_t>(kLongestRecord_days)}});
    record.series.flow_m3s.resize(days);
    Counts counts;
    std::int64_t known = 0;
    for (const DayRecord& one : rows) {
        if (!one.flow_m3s)
            continue;
        if (!(*one.flow_m3s >= 0.0)) {
            ++counts.coded;
            continue;
        }
        ++known;
        counts.zero += *one.flow_m3s == 0.0 ? 1 : 0;
        record.series.flow_m3s[static_cast<std::size_t>((one.day - record.series.first).count())] = one.flow_m3s;
    }
    if (known == 0)
        return refusal("flow.no_days");
    counts.missing = static_cast<std::int64_t>(days) - known - counts.coded;
    record.findings = findings_of(counts, days);
    return record;
}

} // namespace rillmark
