// SPDX-License-Identifier: GPL-3.0-or-later
#include "season/daily_flow.h"

#include "season/limits.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace rillmark {

namespace {

struct Dated {
    std::chrono::sys_days day;
    std::int64_t row;
    std::optional<double> flow_m3s;
};

struct Counts {
    std::int64_t missing = 0;
    std::int64_t coded = 0;
    std::int64_t zero = 0;
};

Expected<std::vector<Dated>> dated_rows(const std::vector<DayRecord>& rows) {
    std::vector<Dated> dated;
    dated.reserve(rows.size());
    for (const DayRecord& record : rows) {
        const std::int64_t row = static_cast<std::int64_t>(dated.size()) + 1;
        const std::optional<std::chrono::sys_days> day = day_from_iso(record.date);
        if (!day)
            return refusal("flow.bad_day", "date", {{"row", row}, {"date", record.date}});
        if (record.flow_m3s && *record.flow_m3s > kGreatestFlow_m3s)
            return refusal("flow.bad_daily_flow", "flow_m3s",
                           {{"row", row}, {"value", *record.flow_m3s, Quantity::Discharge}});
        dated.push_back({*day, row, record.flow_m3s});
    }
    std::ranges::stable_sort(dated, {}, &Dated::day);
    const auto twice = std::ranges::adjacent_find(dated, {}, &Dated::day);
    if (twice != dated.end())
        return refusal("flow.day_twice", "date", {{"row", std::next(twice)->row}, {"other", twice->row}});
    return dated;
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

Expected<DailyRecord> daily_record(const std::vector<DayRecord>& rows) {
    const Expected<std::vector<Dated>> dated = dated_rows(rows);
    if (!dated)
        return dated.error();
    if (dated->empty())
        return refusal("flow.no_days");
    DailyRecord record;
    record.series.first = dated->front().day;
    const auto days = static_cast<std::size_t>((dated->back().day - dated->front().day).count()) + 1;
    if (days > kLongestRecord_days)
        return refusal(
            "flow.record_too_long", {},
            {{"days", static_cast<std::int64_t>(days)}, {"limit", static_cast<std::int64_t>(kLongestRecord_days)}});
    record.series.flow_m3s.resize(days);
    Counts counts;
    std::int64_t known = 0;
    for (const Dated& one : *dated) {
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
