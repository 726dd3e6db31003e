// SPDX-License-Identifier: GPL-3.0-or-later
#include "flow/salt_trace.h"

#include "flow/tracer_input.h"
#include "units/in_range.h"

#include <algorithm>
#include <cmath>

namespace rillmark {

namespace {

// Our own choice: a rise below this many times the noise, or steps of the display, is no peak.
constexpr double kPeakOverNoise = 5.0;
constexpr double kPeakOverResolution = 2.0;
// Our own choice: a fall from the first to the second half of the background after that is more than chance.
constexpr double kFallOverNoise = 3.0;
constexpr double kFallOfRise = 0.002;

/// The last reading at or before a time that lies within the trace, and never the very last.
std::size_t place_of(const PreparedTrace& trace, double time_s) {
    const auto after = std::upper_bound(trace.time_s.begin(), trace.time_s.end(), time_s);
    const auto place = static_cast<std::size_t>(after - trace.time_s.begin());
    return std::min(std::max<std::size_t>(place, 1) - 1, trace.time_s.size() - 2);
}

double ec_at(const PreparedTrace& trace, double time_s) {
    const std::size_t i = place_of(trace, time_s);
    const double part = (time_s - trace.time_s[i]) / (trace.time_s[i + 1] - trace.time_s[i]);
    return std::lerp(trace.ec_Sm[i], trace.ec_Sm[i + 1], part);
}

/// Area of ec - base from the first reading to a time.
double area_to(const PreparedTrace& trace, double time_s) {
    const std::size_t i = place_of(trace, time_s);
    const double mean_Sm = 0.5 * (trace.ec_Sm[i] + ec_at(trace, time_s)) - trace.base_Sm;
    return trace.area_so_far_Ss_m[i] + mean_Sm * (time_s - trace.time_s[i]);
}

double mean_over(const PreparedTrace& trace, const TimeWindow& window) {
    if (!(window.to_s > window.from_s))
        return ec_at(trace, window.from_s);
    return trace.base_Sm +
           (area_to(trace, window.to_s) - area_to(trace, window.from_s)) / (window.to_s - window.from_s);
}

double reading_u(const PreparedTrace& trace) {
    return std::max(trace.noise_Sm, trace.resolution_Sm / std::sqrt(12.0)); // rectangular: GUM 4.3.7
}

struct Background {
    double middle_s;
    double level_Sm;
    double level_u;
};

Background background_of(const PreparedTrace& trace, const TimeWindow& window) {
    const auto first = std::ranges::lower_bound(trace.time_s, window.from_s);
    const auto last = std::ranges::upper_bound(trace.time_s, window.to_s);
    const double count = std::max(1.0, static_cast<double>(last - first));
    const double by_noise = trace.noise_Sm / std::sqrt(count);
    // a steady level stays within one step of the display however often it is read
    const double by_resolution = trace.noise_Sm < trace.resolution_Sm ? trace.resolution_Sm / std::sqrt(12.0) : 0.0;
    return {0.5 * (window.from_s + window.to_s), mean_over(trace, window), std::hypot(by_noise, by_resolution)};
}

/// The background as a straight line over time.
struct BackgroundLine {
    std::optional<Background> before;
    std::optional<Background> after;

    [[nodiscard]] double weight_after(double time_s) const {
        if (!before || !after)
            return before ? 0.0 : 1.0;
        return (time_s - before->middle_s) / (after->middle_s - before->middle_s);
    }
    [[nodiscard]] double at(double time_s) const {
        const double weight = weight_after(time_s);
        return (before ? (1.0 - weight) * before->level_Sm : 0.0) + (after ? weight * after->level_Sm : 0.0);
    }
    [[nodiscard]] double u_at(double time_s) const {
        const double weight = weight_after(time_s);
        return std::hypot(before ? (1.0 - weight) * before->level_u : 0.0, after ? weight * after->level_u : 0.0);
    }
};

Finding bad_window(const char* where, double value_s) {
    return refusal("flow.bad_window", where, {{"value", value_s, Quantity::Time}});
}

std::optional<Finding> check_windows(const PreparedTrace& trace, const TraceWindows& windows) {
    const double first_s = trace.time_s.front();
    const double last_s = trace.time_s.back();
    if (!in_range(windows.start_s, first_s, last_s))
        return bad_window("start_s", windows.start_s);
    if (!in_range(windows.end_s, first_s, last_s) || !(windows.end_s > windows.start_s))
        return bad_window("end_s", windows.end_s);
    if (!windows.before && !windows.after)
        return refusal("flow.no_background");
    const auto bad = [&](const std::optional<TimeWindow>& window) {
        return window &&
               (!in_range(window->from_s, first_s, last_s) || !in_range(window->to_s, window->from_s, last_s));
    };
    if (bad(windows.before))
        return bad_window("before", windows.before->from_s);
    if (bad(windows.after))
        return bad_window("after", windows.after->from_s);
    if (windows.before && windows.after &&
        !(windows.after->from_s + windows.after->to_s > windows.before->from_s + windows.before->to_s))
        return bad_window("after", windows.after->from_s);
    return std::nullopt;
}

/// Peak and time above the counted rise; the longest gap.
double look_at_peak(const PreparedTrace& trace, const TraceWindows& windows, const BackgroundLine& line,
                    TraceIntegral& integral) {
    double longest_gap_s = 0.0;
    double last_s = windows.start_s;
    integral.peak_rise_Sm = -1.0;
    const auto first = std::ranges::lower_bound(trace.time_s, windows.start_s) - trace.time_s.begin();
    for (auto i = static_cast<std::size_t>(first); i < trace.time_s.size() && trace.time_s[i] <= windows.end_s; ++i) {
        const double step_s = trace.time_s[i] - last_s;
        const double rise_Sm = trace.ec_Sm[i] - line.at(trace.time_s[i]);
        longest_gap_s = std::max(longest_gap_s, step_s);
        if (rise_Sm > kCountedRise_Sm)
            integral.above_s += step_s;
        if (rise_Sm > integral.peak_rise_Sm) {
            integral.peak_rise_Sm = rise_Sm;
            integral.peak_Sm = trace.ec_Sm[i];
            integral.peak_time_s = trace.time_s[i];
        }
        last_s = trace.time_s[i];
    }
    return longest_gap_s;
}

/// Whether the background after the peak still falls, more than by chance and than matters.
bool tail_runs(const PreparedTrace& trace, const TraceWindows& windows, const BackgroundLine& line, double rise_Sm) {
    if (!line.after || !(windows.after->to_s > windows.after->from_s))
        return false;
    const double middle_s = line.after->middle_s;
    const Background early = background_of(trace, {windows.after->from_s, middle_s});
    const Background late = background_of(trace, {middle_s, windows.after->to_s});
    const double by_chance = kFallOverNoise * std::hypot(early.level_u, late.level_u);
    return early.level_Sm - late.level_Sm > std::max(by_chance, kFallOfRise * rise_Sm);
}

void judge_ends(const PreparedTrace& trace, const TraceWindows& windows, const BackgroundLine& line,
                TraceIntegral& integral) {
    const double doubt_Sm = kFallOverNoise * reading_u(trace);
    const auto rest = [&](double time_s) { return ec_at(trace, time_s) - line.at(time_s); };
    const auto high = [&](double rest_Sm) {
        return rest_Sm > kLargeRestAtEnd * integral.peak_rise_Sm && rest_Sm > doubt_Sm;
    };
    Findings& findings = integral.findings;
    if (high(rest(windows.start_s)))
        findings.push_back(warning("flow.start_on_salt", "start_s",
                                   {{"share", rest(windows.start_s) / integral.peak_rise_Sm, Quantity::Ratio}}));
    if (high(rest(windows.end_s)))
        findings.push_back(warning("flow.end_on_salt", "end_s",
                                   {{"share", rest(windows.end_s) / integral.peak_rise_Sm, Quantity::Ratio}}));
    if (tail_runs(trace, windows, line, integral.peak_rise_Sm))
        findings.push_back(warning("flow.tail_running", "end_s"));
    if (!windows.before || !windows.after)
        findings.push_back(note("flow.background_one_side"));
}

void judge_rules(const PreparedTrace& trace, double duration_s, double longest_gap_s, TraceIntegral& integral) {
    Findings& findings = integral.findings;
    const double interval_s =
        (trace.time_s.back() - trace.time_s.front()) / static_cast<double>(trace.time_s.size() - 1);
    if (longest_gap_s > kLargeGap * duration_s)
        findings.push_back(warning("flow.trace_gap", "time_s", {{"gap", longest_gap_s, Quantity::Time}}));
    if (integral.peak_rise_Sm < kSmallestRise_Sm)
        findings.push_back(warning("flow.rise_small", {},
                                   {{"rise", integral.peak_rise_Sm, Quantity::Conductivity},
                                    {"limit", kSmallestRise_Sm, Quantity::Conductivity}}));
    else if (integral.above_s < kShortestAbove_s)
        findings.push_back(warning("flow.peak_brief", {},
                                   {{"time", integral.above_s, Quantity::Time},
                                    {"limit", kShortestAbove_s, Quantity::Time},
                                    {"rise", kCountedRise_Sm, Quantity::Conductivity}}));
    if (integral.peak_rise_Sm > kLargestRise_Sm)
        findings.push_back(note("flow.rise_large", {},
                                {{"rise", integral.peak_rise_Sm, Quantity::Conductivity},
                                 {"limit", kLargestRise_Sm, Quantity::Conductivity}}));
    // 5 % for the jitter of a clock
    if (interval_s > 1.05 * kGoodInterval_s)
        findings.push_back(
            note("flow.logging_slow", {},
                 {{"interval", interval_s, Quantity::Time}, {"limit", kGoodInterval_s, Quantity::Time}}));
}

} // namespace

Expected<TraceIntegral> integrate_trace(const PreparedTrace& trace, const TraceWindows& windows) {
    if (const std::optional<Finding> bad = check_windows(trace, windows))
        return *bad;
    BackgroundLine line;
    if (windows.before)
        line.before = background_of(trace, *windows.before);
    if (windows.after)
        line.after = background_of(trace, *windows.after);

    TraceIntegral integral;
    const double duration_s = windows.end_s - windows.start_s;
    const double middle_s = 0.5 * (windows.start_s + windows.end_s);
    integral.background_start_Sm = line.at(windows.start_s);
    integral.background_end_Sm = line.at(windows.end_s);
    integral.area_Ss_m = area_to(trace, windows.end_s) - area_to(trace, windows.start_s) -
                         (line.at(middle_s) - trace.base_Sm) * duration_s;
    const double longest_gap_s = look_at_peak(trace, windows, line, integral);
    const double smallest_Sm = std::max(kPeakOverNoise * trace.noise_Sm, kPeakOverResolution * trace.resolution_Sm);
    if (!(integral.area_Ss_m > 0.0) || !(integral.peak_rise_Sm > smallest_Sm))
        return refusal("flow.no_peak", {},
                       {{"rise", std::max(integral.peak_rise_Sm, 0.0), Quantity::Conductivity},
                        {"limit", smallest_Sm, Quantity::Conductivity}});
    if (ec_at(trace, windows.end_s) - line.at(windows.end_s) > 0.5 * integral.peak_rise_Sm)
        return refusal("flow.peak_not_passed", "end_s");

    const double squares_s2 = trace.squares_so_far_s2[place_of(trace, windows.end_s) + 1] -
                              trace.squares_so_far_s2[place_of(trace, windows.start_s)];
    integral.noise_u = reading_u(trace) * std::sqrt(squares_s2);
    integral.background_u = line.u_at(middle_s) * duration_s;
    const double drift_Sm = integral.background_end_Sm - integral.background_start_Sm;
    integral.drift_u = 0.5 * std::abs(drift_Sm) * duration_s / std::sqrt(6.0); // triangular: GUM 4.3.9
    judge_ends(trace, windows, line, integral);
    judge_rules(trace, duration_s, longest_gap_s, integral);
    return integral;
}

} // namespace rillmark
