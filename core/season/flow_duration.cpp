// SPDX-License-Identifier: GPL-3.0-or-later
#include "season/flow_duration.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <utility>

namespace rillmark {

FlowDuration::FlowDuration(std::vector<double> flows_m3s) : m_flows_m3s(std::move(flows_m3s)) {
    std::ranges::sort(m_flows_m3s, std::greater<>());
}

std::optional<double> FlowDuration::mean_m3s() const {
    if (m_flows_m3s.empty())
        return std::nullopt;
    double sum = 0.0;
    for (const double flow : m_flows_m3s)
        sum += flow;
    return sum / static_cast<double>(m_flows_m3s.size());
}

std::optional<double> FlowDuration::flow_m3s(double part_of_time, PlottingRule rule) const {
    const double count = static_cast<double>(m_flows_m3s.size());
    const double rank =
        rule == PlottingRule::Weibull ? part_of_time * (count + 1.0) : 1.0 + part_of_time * (count - 1.0);
    constexpr double kRounding = 1e-9; // a part that falls on the last rank may miss it by that
    if (m_flows_m3s.empty() || !(part_of_time >= 0.0 && part_of_time <= 1.0) || rank < 1.0 - kRounding ||
        rank > count + kRounding)
        return std::nullopt;
    const double place = std::clamp(rank, 1.0, count) - 1.0;
    const auto below = static_cast<std::size_t>(place);
    const std::size_t above = std::min(below + 1, m_flows_m3s.size() - 1);
    return std::lerp(m_flows_m3s[below], m_flows_m3s[above], place - std::floor(place));
}

double plotted_part(std::size_t rank, std::size_t count, PlottingRule rule) {
    const double r = static_cast<double>(rank);
    const double n = static_cast<double>(count);
    if (rule == PlottingRule::Weibull)
        return r / (n + 1.0);
    return count > 1 ? (r - 1.0) / (n - 1.0) : 0.0;
}

FlowDuration flow_duration(const DailyFlow& series) {
    return FlowDuration(series.known_m3s());
}

std::array<FlowDuration, 12> monthly_flow_duration(const DailyFlow& series) {
    std::array<std::vector<double>, 12> flows_m3s;
    for (std::size_t i = 0; i < series.flow_m3s.size(); ++i)
        if (series.flow_m3s[i])
            flows_m3s[static_cast<unsigned>(series.day(i).month()) - 1].push_back(*series.flow_m3s[i]);
    std::array<FlowDuration, 12> months;
    for (std::size_t month = 0; month < months.size(); ++month)
        months[month] = FlowDuration(std::move(flows_m3s[month]));
    return months;
}

} // namespace rillmark
