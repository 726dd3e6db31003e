// SPDX-License-Identifier: GPL-3.0-or-later
#include "flow/salt_trace.h"

#include <algorithm>
#include <cmath>

namespace rillmark {

namespace {

constexpr double kNoiseAboveBackground = 3.0;
constexpr double kPartOfRise = 0.005;
constexpr double kWiden = 0.1;
constexpr int kReadingsAtRest = 3;

double middle_of(double a, double b, double c) {
    return std::max(std::min(a, b), std::min(std::max(a, b), c));
}

std::size_t peak_of(const std::vector<double>& ec) {
    std::size_t peak = 1;
    double highest = 0.0;
    for (std::size_t i = 1; i + 1 < ec.size(); ++i) {
        const double smooth = middle_of(ec[i - 1], ec[i], ec[i + 1]);
        if (smooth > highest) {
            highest = smooth;
            peak = i;
        }
    }
    return peak;
}

/// Median of the readings from `from` up to `to`, `to` not among them.
double median_of(const std::vector<double>& ec, std::size_t from, std::size_t to) {
    std::vector<double> part(ec.begin() + static_cast<std::ptrdiff_t>(from),
                             ec.begin() + static_cast<std::ptrdiff_t>(to));
    const auto middle = part.begin() + static_cast<std::ptrdiff_t>(part.size() / 2);
    std::nth_element(part.begin(), middle, part.end());
    return *middle;
}

} // namespace

TraceWindows suggest_windows(const PreparedTrace& trace) {
    const std::vector<double>& ec = trace.ec_Sm;
    const std::vector<double>& time_s = trace.time_s;
    const std::size_t last = ec.size() - 1;
    const std::size_t peak = peak_of(ec);
    const std::size_t before =
        std::max(peak / 10, std::min<std::size_t>(peak, 3)); // readings that give the first level
    const std::size_t after = last - (last - peak) / 10;     // the first that gives the last level
    const double before_Sm = median_of(ec, 0, before);
    const double after_Sm = median_of(ec, after, last + 1);
    const double before_s = 0.5 * (time_s.front() + time_s[before - 1]);
    const double after_s = 0.5 * (time_s[after] + time_s.back());
    const auto rise = [&](std::size_t i) {
        return ec[i] - std::lerp(before_Sm, after_Sm, (time_s[i] - before_s) / (after_s - before_s));
    };
    const double rest_Sm =
        std::max({kNoiseAboveBackground * trace.noise_Sm, kPartOfRise * rise(peak), trace.resolution_Sm});

    std::size_t start = peak;
    for (int at_rest = 0; start > 0 && at_rest < kReadingsAtRest; --start)
        at_rest = rise(start) <= rest_Sm ? at_rest + 1 : 0;
    std::size_t end = peak;
    for (int at_rest = 0; end < last && at_rest < kReadingsAtRest; ++end)
        at_rest = rise(end) <= rest_Sm ? at_rest + 1 : 0;

    const double wider_s = kWiden * (time_s[end] - time_s[start]);
    TraceWindows windows;
    windows.start_s = std::max(time_s[start] - wider_s, 0.5 * (time_s.front() + time_s[start]));
    // what gave the level of the background after stays outside, so that a tail that still runs is seen there
    windows.end_s = std::min({time_s[end] + wider_s, 0.5 * (time_s.back() + time_s[end]), time_s[after]});
    if (windows.start_s > time_s.front())
        windows.before = TimeWindow{time_s.front(), windows.start_s};
    if (windows.end_s < time_s.back())
        windows.after = TimeWindow{windows.end_s, time_s.back()};
    return windows;
}

} // namespace rillmark
