// SPDX-License-Identifier: GPL-3.0-or-later
#include "flow/limits.h"
#include "flow/salt_trace.h"

#include "flow/tracer_input.h"
#include "units/constants.h"
#include "units/in_range.h"

#include <algorithm>
#include <cmath>

namespace rillmark {

namespace {

constexpr double kFarthestTime_s = 1e7;
constexpr double kHalfDay_s = 0.5 * kSecondsPerDay;
// Displays of three and a half and four and a half digits, in S/m.
constexpr double kOverRangeCodes_Sm[] = {0.0999, 0.1999, 0.9999, 1.9999};
constexpr double kSameReading_Sm = 1e-9;
constexpr int kSpikePasses = 3;
// Normal distribution: median of |x| is 0.6745 sigma; a second difference of white noise has sigma sqrt(6).
constexpr double kMedianOfNormal = 0.6745;

double median(std::vector<double> values) {
    if (values.empty())
        return 0.0;
    const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
    std::nth_element(values.begin(), middle, values.end());
    return *middle;
}

/// The readings still in use while a trace is cleaned.
struct Kept {
    std::vector<double> time_s;
    std::vector<double> ec_Sm;
    std::vector<std::size_t> row;

    void drop(const std::vector<std::size_t>& places) {
        std::size_t next = 0;
        std::size_t to = 0;
        for (std::size_t i = 0; i < time_s.size(); ++i) {
            if (next < places.size() && places[next] == i) {
                ++next;
                continue;
            }
            time_s[to] = time_s[i];
            ec_Sm[to] = ec_Sm[i];
            row[to++] = row[i];
        }
        time_s.resize(to);
        ec_Sm.resize(to);
        row.resize(to);
    }
};

bool is_code(double ec_Sm, double median_Sm) {
    return ec_Sm > 2.0 * median_Sm && std::ranges::any_of(kOverRangeCodes_Sm, [&](double code_Sm) {
               return std::abs(ec_Sm - code_Sm) < kSameReading_Sm;
           });
}

/// The mark that a reading earns by itself.
ReadingMark mark_of(const TraceReading& reading, double median_Sm, const TraceOptions& options) {
    if (reading.struck)
        return ReadingMark::Struck;
    if (!reading.ec_Sm || !std::isfinite(*reading.ec_Sm))
        return ReadingMark::Missing;
    if (*reading.ec_Sm <= 0.0)
        return ReadingMark::Zero;
    const bool over =
        options.over_range_Sm ? *reading.ec_Sm >= *options.over_range_Sm : is_code(*reading.ec_Sm, median_Sm);
    return over ? ReadingMark::OverRange : ReadingMark::Used;
}

double median_reading_Sm(const std::vector<TraceReading>& readings) {
    std::vector<double> values;
    for (const TraceReading& reading : readings)
        if (!reading.struck && reading.ec_Sm && *reading.ec_Sm > 0.0)
            values.push_back(*reading.ec_Sm);
    return median(std::move(values));
}

Expected<Kept> usable_readings(const std::vector<TraceReading>& readings, const TraceOptions& options,
                               PreparedTrace& trace) {
    Kept kept;
    const double median_Sm = median_reading_Sm(readings);
    double added_s = 0.0;
    std::optional<double> last_s;
    for (std::size_t i = 0; i < readings.size(); ++i) {
        ReadingMark& mark = trace.marks[i];
        mark = mark_of(readings[i], median_Sm, options);
        if (mark == ReadingMark::Struck)
            continue;
        double time_s = readings[i].time_s;
        if (!in_range(time_s, -kFarthestTime_s, kFarthestTime_s))
            return bad_row_value("flow.bad_trace_time", "time_s", i, time_s, Quantity::Time);
        const bool of_a_day =
            last_s && in_range(time_s, 0.0, kSecondsPerDay) && in_range(*last_s - added_s, 0.0, kSecondsPerDay);
        if (of_a_day && *last_s - added_s - time_s > kHalfDay_s) {
            added_s += kSecondsPerDay;
            trace.findings.push_back(
                note("flow.trace_midnight", "time_s", {{"row", static_cast<std::int64_t>(i) + 1}}));
        }
        time_s += added_s;
        if (last_s && time_s < *last_s)
            return bad_row_value("flow.trace_time_backwards", "time_s", i, readings[i].time_s, Quantity::Time);
        const bool repeated = last_s && time_s == *last_s && !kept.time_s.empty() && kept.time_s.back() == time_s;
        last_s = time_s;
        if (mark == ReadingMark::Used && repeated)
            mark = ReadingMark::Repeated;
        if (mark != ReadingMark::Used)
            continue;
        if (*readings[i].ec_Sm > kHighest_Sm)
            return bad_row_value("flow.bad_conductivity", "ec_Sm", i, *readings[i].ec_Sm, Quantity::Conductivity);
        const Expected<double> ec_Sm = conductivity_at_25(
            *readings[i].ec_Sm, readings[i].temperature_degC.value_or(NAN), options.correction, options.alpha_per_K);
        if (!ec_Sm) {
            Finding refused = ec_Sm.error();
            refused.args.push_back({"row", static_cast<std::int64_t>(i) + 1});
            return refused;
        }
        kept.time_s.push_back(time_s);
        kept.ec_Sm.push_back(*ec_Sm);
        kept.row.push_back(i);
    }
    return kept;
}

double noise_Sm(const std::vector<double>& ec_Sm) {
    std::vector<double> differences;
    for (std::size_t i = 1; i + 1 < ec_Sm.size(); ++i)
        differences.push_back(std::abs(ec_Sm[i - 1] - 2.0 * ec_Sm[i] + ec_Sm[i + 1]));
    return median(std::move(differences)) / kMedianOfNormal / std::sqrt(6.0);
}

/// Whether `width` readings from `at` on stand out from both sides.
bool is_spike(const std::vector<double>& ec, std::size_t at, std::size_t width, double noise) {
    if (at < 1 || at + width >= ec.size())
        return false;
    const double left = ec[at - 1];
    const double right = ec[at + width];
    double change = std::abs(left - right);
    if (at >= 2)
        change = std::max(change, std::abs(left - ec[at - 2]));
    if (at + width + 1 < ec.size())
        change = std::max(change, std::abs(right - ec[at + width + 1]));
    const double limit =
        kSpikeOverChange * change + std::max(kSpikeOverNoise * noise, kSpikeOverLevel * std::max(left, right));
    const auto inside = [&](auto stands_out) {
        return std::all_of(ec.begin() + static_cast<std::ptrdiff_t>(at),
                           ec.begin() + static_cast<std::ptrdiff_t>(at + width), stands_out);
    };
    return inside([&](double value) { return value > std::max(left, right) + limit; }) ||
           inside([&](double value) { return value < std::min(left, right) - limit; });
}

void drop_spikes(Kept& kept, double noise, std::vector<ReadingMark>& marks) {
    for (int pass = 0; pass < kSpikePasses; ++pass) {
        std::vector<std::size_t> spikes;
        for (std::size_t i = 1; i + 1 < kept.ec_Sm.size(); ++i)
            for (const std::size_t width : {std::size_t{1}, std::size_t{2}})
                if (is_spike(kept.ec_Sm, i, width, noise)) {
                    for (std::size_t k = 0; k < width; ++k)
                        spikes.push_back(i + k);
                    i += width;
                    break;
                }
        if (spikes.empty())
            return;
        for (const std::size_t at : spikes)
            marks[kept.row[at]] = ReadingMark::Spike;
        kept.drop(spikes);
    }
}

void add_sums(PreparedTrace& trace) {
    const std::size_t count = trace.time_s.size();
    trace.base_Sm = trace.ec_Sm.front();
    trace.area_so_far_Ss_m.assign(count, 0.0);
    trace.squares_so_far_s2.assign(count, 0.0);
    double smallest_step_Sm = kHighest_Sm;
    for (std::size_t i = 1; i < count; ++i) {
        const double step_s = trace.time_s[i] - trace.time_s[i - 1];
        const double sum_Sm = trace.ec_Sm[i] + trace.ec_Sm[i - 1] - 2.0 * trace.base_Sm;
        trace.area_so_far_Ss_m[i] = trace.area_so_far_Ss_m[i - 1] + 0.5 * step_s * sum_Sm;
        const double weight_s = 0.5 * (trace.time_s[i] - trace.time_s[i > 1 ? i - 2 : 0]);
        trace.squares_so_far_s2[i] = trace.squares_so_far_s2[i - 1] + weight_s * weight_s;
        const double change_Sm = std::abs(trace.ec_Sm[i] - trace.ec_Sm[i - 1]);
        if (change_Sm > kSameReading_Sm)
            smallest_step_Sm = std::min(smallest_step_Sm, change_Sm);
    }
    trace.resolution_Sm = smallest_step_Sm < kHighest_Sm ? smallest_step_Sm : 0.0;
}

void note_left_out(PreparedTrace& trace) {
    const auto count = [&](ReadingMark mark) {
        return static_cast<std::int64_t>(std::ranges::count(trace.marks, mark));
    };
    const std::int64_t all = count(ReadingMark::Missing) + count(ReadingMark::Zero) + count(ReadingMark::OverRange) +
                             count(ReadingMark::Spike) + count(ReadingMark::Repeated);
    if (all > 0)
        trace.findings.push_back(note("flow.readings_left_out", {},
                                      {{"count", all},
                                       {"missing", count(ReadingMark::Missing)},
                                       {"zero", count(ReadingMark::Zero)},
                                       {"over_range", count(ReadingMark::OverRange)},
                                       {"spike", count(ReadingMark::Spike)},
                                       {"repeated", count(ReadingMark::Repeated)}}));
}

/// Readings over the range between two that are high already: the peak itself is cut off.
void warn_of_clipping(PreparedTrace& trace, const std::vector<std::size_t>& rows) {
    const double high_Sm = 0.5 * (median(trace.ec_Sm) + *std::ranges::max_element(trace.ec_Sm));
    for (std::size_t i = 1; i < rows.size(); ++i) {
        const auto from = trace.marks.begin() + static_cast<std::ptrdiff_t>(rows[i - 1]);
        const auto to = trace.marks.begin() + static_cast<std::ptrdiff_t>(rows[i]);
        const auto over = std::count(from, to, ReadingMark::OverRange);
        if (over >= 2 && std::min(trace.ec_Sm[i - 1], trace.ec_Sm[i]) > high_Sm) {
            trace.findings.push_back(warning(
                "flow.trace_clipped", "ec_Sm",
                {{"row", static_cast<std::int64_t>(rows[i - 1]) + 2}, {"count", static_cast<std::int64_t>(over)}}));
            return;
        }
    }
}

} // namespace

Expected<PreparedTrace> prepare_trace(const std::vector<TraceReading>& readings, const TraceOptions& options) {
    if (readings.size() > kLongestTrace)
        return refusal("flow.trace_too_long", {}, {{"limit", static_cast<std::int64_t>(kLongestTrace)}});
    if (options.over_range_Sm && !in_range(*options.over_range_Sm, kSameReading_Sm, kHighest_Sm))
        return bad_option("over_range_Sm", *options.over_range_Sm, Quantity::Conductivity);
    PreparedTrace trace;
    trace.marks.assign(readings.size(), ReadingMark::Used);
    Expected<Kept> usable = usable_readings(readings, options, trace);
    if (!usable)
        return usable.error();
    Kept kept = std::move(usable).value();
    trace.noise_Sm = noise_Sm(kept.ec_Sm);
    drop_spikes(kept, trace.noise_Sm, trace.marks);
    if (kept.time_s.size() < kShortestTrace)
        return refusal("flow.trace_too_short", {},
                       {{"count", static_cast<std::int64_t>(kept.time_s.size())},
                        {"needed", static_cast<std::int64_t>(kShortestTrace)}});
    trace.time_s = std::move(kept.time_s);
    trace.ec_Sm = std::move(kept.ec_Sm);
    add_sums(trace);
    note_left_out(trace);
    warn_of_clipping(trace, kept.row);
    return trace;
}

} // namespace rillmark
