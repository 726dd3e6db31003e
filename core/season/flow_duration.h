// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "season/daily_flow.h"

#include <array>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <vector>

namespace rillmark {

/// How a rank becomes a part of the time. Years of daily flows hardly feel the choice; eleven values move by 6 %.
enum class PlottingRule : std::uint8_t {
    Weibull, // P = r / (N + 1), the default: the common choice in hydrology
    Linear,  // P = (r - 1) / (N - 1): quantile type 7, the default of statistics packages and of the WMO low-flow
             // manual's
};

/// A flow-duration curve: the flows of a record, sorted once, highest first.
class FlowDuration {
public:
    FlowDuration() = default;
    /// Of finite flows in any order.
    explicit FlowDuration(std::vector<double> flows_m3s);

    [[nodiscard]] std::size_t size() const { return m_flows_m3s.size(); }
    [[nodiscard]] const std::vector<double>& flows_m3s() const { return m_flows_m3s; }
    /// Nothing for an empty record.
    [[nodiscard]] std::optional<double> mean_m3s() const;
    /// The flow that is reached or passed for a part of the time, 0 to 1 (Q95: 0.95); straight lines between the ranks.
    /// Nothing outside 0 to 1, and, by Weibull, nearer to 0 or 1 than 1 / (N + 1): the record does not say.
    [[nodiscard]] std::optional<double> flow_m3s(double part_of_time, PlottingRule rule = PlottingRule::Weibull) const;

private:
    std::vector<double> m_flows_m3s;
};

/// The part of the time at which a rank from 1 (the highest) of N is plotted.
[[nodiscard]] double plotted_part(std::size_t rank, std::size_t count, PlottingRule rule);

/// The curve of all days that have a flow.
[[nodiscard]] FlowDuration flow_duration(const DailyFlow& series);

/// One curve for each calendar month, January first, of all its days in the record.
[[nodiscard]] std::array<FlowDuration, 12> monthly_flow_duration(const DailyFlow& series);

} // namespace rillmark
