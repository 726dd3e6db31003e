// SPDX-License-Identifier: GPL-3.0-or-later
#include "flow/parshall_flume.h"

#include "flow/settings.h"
#include "uncertainty/propagate.h"
#include "units/units.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <string>
#include <utility>

namespace rillmark {

namespace {

// Columns: id, feet, W, C, n, least and greatest head, limit of hb/ha, from memory. Sources: flume_sizes().
constexpr std::array kSizes{
    FlumeSize{"us-1in", true, 1.0 / 12.0, 0.338, 1.55, 0.05, 0.70, 0.5, true},
    FlumeSize{"us-2in", true, 2.0 / 12.0, 0.676, 1.55, 0.05, 0.80, 0.5, true},
    FlumeSize{"us-3in", true, 0.25, 0.992, 1.547, 0.10, 1.10, 0.5, false},
    FlumeSize{"us-6in", true, 0.5, 2.06, 1.58, 0.10, 1.50, 0.6, false},
    FlumeSize{"us-9in", true, 0.75, 3.07, 1.53, 0.10, 2.00, 0.6, false},
    FlumeSize{"us-1ft", true, 1.0, 4.0, 1.522, 0.10, 2.50, 0.7, false},
    FlumeSize{"us-1.5ft", true, 1.5, 6.0, 1.538, 0.10, 2.50, 0.7, false},
    FlumeSize{"us-2ft", true, 2.0, 8.0, 1.550, 0.15, 2.50, 0.7, false},
    FlumeSize{"us-3ft", true, 3.0, 12.0, 1.566, 0.15, 2.50, 0.7, false},
    FlumeSize{"us-4ft", true, 4.0, 16.0, 1.578, 0.20, 2.50, 0.7, false},
    FlumeSize{"us-5ft", true, 5.0, 20.0, 1.587, 0.20, 2.50, 0.7, false},
    FlumeSize{"us-6ft", true, 6.0, 24.0, 1.595, 0.25, 2.50, 0.7, false},
    FlumeSize{"us-7ft", true, 7.0, 28.0, 1.601, 0.25, 2.50, 0.7, false},
    FlumeSize{"us-8ft", true, 8.0, 32.0, 1.607, 0.25, 2.50, 0.7, false},
    FlumeSize{"us-10ft", true, 10.0, 39.375, 1.6, 0.30, 3.50, 0.8, false},
    FlumeSize{"us-12ft", true, 12.0, 46.75, 1.6, 0.30, 4.50, 0.8, false},
    FlumeSize{"iso-0.152", false, 0.152, 0.381, 1.580, 0.03, 0.45, 0.6, false},
    FlumeSize{"iso-0.25", false, 0.25, 0.561, 1.513, 0.03, 0.60, 0.6, true},
    FlumeSize{"iso-0.30", false, 0.30, 0.679, 1.521, 0.03, 0.75, 0.6, true},
    FlumeSize{"iso-0.45", false, 0.45, 1.038, 1.537, 0.03, 0.75, 0.6, true},
    FlumeSize{"iso-0.60", false, 0.60, 1.403, 1.548, 0.05, 0.75, 0.6, true},
    FlumeSize{"iso-0.75", false, 0.75, 1.772, 1.557, 0.06, 0.75, 0.6, true},
    FlumeSize{"iso-0.90", false, 0.90, 2.147, 1.565, 0.06, 0.75, 0.6, true},
    FlumeSize{"iso-1.00", false, 1.00, 2.397, 1.569, 0.06, 0.80, 0.7, true},
    FlumeSize{"iso-1.20", false, 1.20, 2.904, 1.577, 0.06, 0.80, 0.7, true},
    FlumeSize{"iso-1.50", false, 1.50, 3.668, 1.586, 0.06, 0.80, 0.7, true},
    FlumeSize{"iso-1.80", false, 1.80, 4.440, 1.593, 0.08, 0.80, 0.7, true},
    FlumeSize{"iso-2.10", false, 2.10, 5.222, 1.599, 0.08, 0.80, 0.7, true},
    FlumeSize{"iso-2.40", false, 2.40, 6.004, 1.605, 0.08, 0.80, 0.7, false},
};

double length_unit_m(bool in_feet) {
    static const double foot = find_unit(Quantity::Length, "ft")->factor;
    return in_feet ? foot : 1.0;
}

std::string known_sizes() {
    std::string names;
    for (const FlumeSize& size : kSizes)
        names += (names.empty() ? "" : ", ") + std::string(size.id);
    return names;
}

std::optional<Finding> throat_finding(const FlumeSize& size, double throat_m) {
    const double off = std::abs(throat_m / size.throat_m() - 1.0);
    if (off <= kFlumeThroatOff)
        return std::nullopt;
    std::vector<Arg> args{{"size", std::string(size.id)},
                          {"value", throat_m, Quantity::Length},
                          {"nominal", size.throat_m(), Quantity::Length}};
    return off > kFlumeThroatWrong ? refusal("flow.flume_throat_wrong", "throat_m", std::move(args))
                                   : warning("flow.flume_throat_off", "throat_m", std::move(args));
}

void add_findings(const FlumeSize& size, FlumeResult& result) {
    Findings& findings = result.flow.findings;
    const auto head = [&](const char* code, double limit_m) {
        findings.push_back(
            warning(code, {}, {{"value", result.head_m, Quantity::Length}, {"limit", limit_m, Quantity::Length}}));
    };
    if (result.head_m < size.least_head_m())
        head("flow.flume_head_low", size.least_head_m());
    if (result.head_m > size.greatest_head_m())
        head("flow.flume_head_high", size.greatest_head_m());
    if (size.from_memory)
        findings.push_back(warning("flow.flume_unconfirmed", {}, {{"size", std::string(size.id)}}));
    if (!result.submergence)
        findings.push_back(
            note("flow.flume_downstream_unknown", {}, {{"limit", size.submergence_limit, Quantity::Ratio}}));
}

} // namespace

double FlumeSize::throat_m() const {
    return throat * length_unit_m(in_feet);
}

double FlumeSize::least_head_m() const {
    return least_head * length_unit_m(in_feet);
}

double FlumeSize::greatest_head_m() const {
    return greatest_head * length_unit_m(in_feet);
}

double FlumeSize::free_flow_m3s(double head_m) const {
    const double unit_m = length_unit_m(in_feet);
    return coefficient * std::pow(head_m / unit_m, power) * unit_m * unit_m * unit_m;
}

std::span<const FlumeSize> flume_sizes() {
    return kSizes;
}

const FlumeSize* find_flume_size(std::string_view id) {
    const auto* hit = std::ranges::find(kSizes, id, &FlumeSize::id);
    return hit == kSizes.end() ? nullptr : hit;
}

Expected<FlumeResult> parshall_flume(std::string_view size_id, const std::vector<HeadReading>& readings,
                                     const FlumeOptions& options) {
    const FlumeSize* const size = find_flume_size(size_id);
    if (size == nullptr)
        return refusal("flow.flume_unknown", {}, {{"size", std::string(size_id)}, {"accepted", known_sizes()}});
    const double throat_m = options.throat_m.value_or(size->throat_m());
    if (const std::optional<Finding> bad = first_bad_setting(
            {{"throat_m", throat_m, 0.01, 20.0, Quantity::Length},
             {"throat_u_m", options.throat_u_m, 0.0, 0.1, Quantity::Length},
             {"downstream_head_m", options.downstream_head_m.value_or(0.0), -100.0, 100.0, Quantity::Length}}))
        return *bad;
    const std::optional<Finding> throat = throat_finding(*size, throat_m);
    if (throat && throat->severity == Severity::Refusal)
        return *throat;
    const Expected<MeanHead> head = mean_head(readings, options.gauge);
    if (!head)
        return head.error();
    FlumeResult result;
    result.head_m = head->head_m;
    if (options.downstream_head_m) {
        result.submergence = std::max(*options.downstream_head_m, 0.0) / head->head_m;
        if (*result.submergence > size->submergence_limit)
            return refusal(
                "flow.flume_submerged", {},
                {{"ratio", *result.submergence, Quantity::Ratio}, {"limit", size->submergence_limit, Quantity::Ratio}});
    }
    const Expected<Budgeted> discharge =
        propagate({{"flow.head_reading", {}, {options.gauge.zero_m + head->head_m, head->reading_u_m}},
                   {"flow.head_zero", {}, {options.gauge.zero_m, options.gauge.zero_u_m}},
                   {"flow.flume_coefficient", {}, {1.0, kFlumeCoefficient_u_rel}},
                   {"flow.flume_throat", {}, {throat_m, options.throat_u_m}}},
                  [size](std::span<const double> in) {
                      const double head_m = std::max(in[0] - in[1], 0.0);
                      return in[2] * in[3] / size->throat_m() * size->free_flow_m3s(head_m);
                  });
    if (!discharge)
        return discharge.error();
    result.flow = {FlowMethod::Flume, *discharge, head->findings};
    if (throat)
        result.flow.findings.push_back(*throat);
    add_findings(*size, result);
    return result;
}

} // namespace rillmark
