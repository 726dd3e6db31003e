// SPDX-License-Identifier: GPL-3.0-or-later
#include "flow/head_readings.h"

#include "flow/settings.h"
#include "flow/student_factor.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <optional>

namespace rillmark {

namespace {

constexpr double kLargestReading_m = 100.0;
constexpr double kLargestHead_u_m = 0.1;

std::optional<Finding> bad_gauge(const HeadGauge& gauge) {
    return first_bad_setting({{"zero_m", gauge.zero_m, -kLargestReading_m, kLargestReading_m, Quantity::Length},
                              {"reading_u_m", gauge.reading_u_m, 0.0, kLargestHead_u_m, Quantity::Length},
                              {"zero_u_m", gauge.zero_u_m, 0.0, kLargestHead_u_m, Quantity::Length}});
}

double scatter_of(const std::vector<double>& values, double mean) {
    double sum = 0.0;
    for (const double value : values)
        sum += (value - mean) * (value - mean);
    return values.size() < 2 ? 0.0 : std::sqrt(sum / static_cast<double>(values.size() - 1));
}

} // namespace

Expected<MeanHead> mean_head(const std::vector<HeadReading>& readings, const HeadGauge& gauge) {
    if (const std::optional<Finding> bad = bad_gauge(gauge))
        return *bad;
    std::vector<double> used;
    std::int64_t row = 0;
    for (const HeadReading& reading : readings) {
        ++row;
        if (reading.struck)
            continue;
        if (!in_range(reading.reading_m, -kLargestReading_m, kLargestReading_m))
            return refusal("flow.bad_head", "reading_m",
                           {{"row", row}, {"value", reading.reading_m, Quantity::Length}});
        used.push_back(reading.reading_m);
    }
    if (used.empty())
        return refusal("flow.no_heads");
    const double count = static_cast<double>(used.size());
    double mean = 0.0;
    for (const double reading : used)
        mean += reading / count;
    MeanHead head;
    head.head_m = mean - gauge.zero_m;
    if (!(head.head_m > 0.0))
        return refusal("flow.head_not_positive", {}, {{"value", head.head_m, Quantity::Length}});

    const double scatter = scatter_of(used, mean);
    const double seen = scatter * student_factor(static_cast<int>(used.size()) - 1);
    // a scatter that the gauge explains says nothing new: with few readings it is a poor estimate of it
    const bool unsteady = scatter > kUnsteadyHead * gauge.reading_u_m;
    head.reading_u_m = std::max(gauge.reading_u_m, unsteady ? seen : scatter) / std::sqrt(count);
    if (unsteady)
        head.findings.push_back(warning("flow.heads_scatter", "reading_m", {{"scatter", scatter, Quantity::Length}}));
    if (used.size() < static_cast<std::size_t>(kGoodHeadReadings))
        head.findings.push_back(note("flow.few_heads", "reading_m",
                                     {{"count", static_cast<std::int64_t>(used.size())},
                                      {"needed", static_cast<std::int64_t>(kGoodHeadReadings)}}));
    return head;
}

} // namespace rillmark
