// SPDX-License-Identifier: GPL-3.0-or-later
#include "flow/salt_slug.h"

#include "flow/independent_budget.h"
#include "flow/limits.h"
#include "flow/salt_advice.h"
#include "flow/salt_calibration.h"
#include "flow/tracer_input.h"
#include "units/in_range.h"

#include <algorithm>
#include <cmath>

namespace rillmark {

namespace {

constexpr double kLeastMass_kg = 1e-4;
constexpr double kMostMass_kg = 1e4;
constexpr double kLeastSolution_m3 = 1e-5;
constexpr double kMostSolution_m3 = 100.0;
constexpr double kLeastFactor = 0.1;
constexpr double kMostFactor = 1000.0;
constexpr double kLargestArea_Ss_m = 1e9;

Expected<double> mass_of(const SaltDose& dose) {
    const bool solution = dose.solution_m3 && dose.solution_kgm3;
    const bool part = dose.solution_m3 || dose.solution_kgm3;
    if (dose.mass_kg ? part : !solution)
        return refusal("flow.dose_unclear");
    if (!in_range(dose.u_rel, 0.0, kLargest_u_rel))
        return bad_option("u_rel", dose.u_rel, Quantity::Ratio);
    if (dose.mass_kg) {
        if (!in_range(*dose.mass_kg, kLeastMass_kg, kMostMass_kg))
            return refusal("flow.bad_mass", "mass_kg", {{"value", *dose.mass_kg, Quantity::Mass}});
        return *dose.mass_kg;
    }
    if (!in_range(*dose.solution_m3, kLeastSolution_m3, kMostSolution_m3))
        return refusal("flow.bad_dose_volume", "solution_m3", {{"value", *dose.solution_m3, Quantity::Volume}});
    if (!in_range(*dose.solution_kgm3, kWeakestSolution_kgm3, kStrongestSolution_kgm3))
        return refusal("flow.bad_solution", "solution_kgm3", {{"value", *dose.solution_kgm3, Quantity::Density}});
    return *dose.solution_m3 * *dose.solution_kgm3;
}

std::optional<Finding> check_probes(const std::vector<SlugProbe>& probes) {
    if (probes.empty())
        return refusal("flow.no_probe");
    for (const SlugProbe& probe : probes) {
        if (!in_range(probe.factor.value, kLeastFactor, kMostFactor) ||
            !in_range(probe.factor.standard_uncertainty, 0.0, kLargest_u_rel * probe.factor.value))
            return refusal("flow.bad_factor", probe.name,
                           {{"factor", probe.factor.value / kGenericSaltFactor.value, Quantity::Number}});
        const TraceIntegral& area = probe.integral;
        const double doubt = std::hypot(area.noise_u, area.background_u, area.drift_u);
        if (!(area.area_Ss_m > 0.0) || !in_range(area.area_Ss_m, 0.0, kLargestArea_Ss_m) || !std::isfinite(doubt))
            return refusal("flow.bad_area", probe.name);
    }
    return std::nullopt;
}

std::optional<Finding> check_options(const SlugOptions& options) {
    if (!in_range(options.mixing_u_rel, 0.0, kLargest_u_rel))
        return bad_option("mixing_u_rel", options.mixing_u_rel, Quantity::Ratio);
    if (options.reach_m && !in_range(*options.reach_m, 0.1, 1e5))
        return bad_option("reach_m", *options.reach_m, Quantity::Length);
    if (options.width_m && !in_range(*options.width_m, 0.05, 1000.0))
        return bad_option("width_m", *options.width_m, Quantity::Length);
    return std::nullopt;
}

/// Standard deviation of the probes about their mean, relative; 0 for one.
double probe_scatter_rel(const std::vector<ProbeDischarge>& probes, double mean_m3s) {
    if (probes.size() < 2)
        return 0.0;
    double sum = 0.0;
    for (const ProbeDischarge& probe : probes)
        sum += (probe.discharge_m3s - mean_m3s) * (probe.discharge_m3s - mean_m3s);
    return std::sqrt(sum / static_cast<double>(probes.size() - 1)) / mean_m3s;
}

Findings findings_of(const std::vector<SlugProbe>& probes, const SlugResult& result, const SlugOptions& options) {
    Findings findings;
    const auto [least, most] = std::ranges::minmax(result.probes, {}, &ProbeDischarge::discharge_m3s);
    const double apart = (most.discharge_m3s - least.discharge_m3s) / result.flow.discharge.estimate.value;
    if (probes.size() == 1)
        findings.push_back(note("flow.one_probe", {}, {{"mixing", options.mixing_u_rel, Quantity::Ratio}}));
    else if (apart > kLargeProbeDifference_rel)
        findings.push_back(
            warning("flow.probes_disagree", {},
                    {{"apart", apart, Quantity::Ratio}, {"limit", kLargeProbeDifference_rel, Quantity::Ratio}}));
    if (options.reach_m && options.width_m && *options.reach_m < kLeastMixing_widths * *options.width_m)
        findings.push_back(warning("flow.reach_short", {},
                                   {{"reach", *options.reach_m, Quantity::Length},
                                    {"needed", kLeastMixing_widths * *options.width_m, Quantity::Length}}));
    for (const SlugProbe& probe : probes) {
        if (probe.highest_calibrated_Sm && probe.integral.peak_Sm > *probe.highest_calibrated_Sm)
            findings.push_back(warning("flow.above_calibration", probe.name,
                                       {{"peak", probe.integral.peak_Sm, Quantity::Conductivity},
                                        {"limit", *probe.highest_calibrated_Sm, Quantity::Conductivity}}));
        if (probe.generic_factor && probe.integral.background_start_Sm > kGenericFactorBackground_Sm)
            findings.push_back(warning("flow.generic_factor_doubtful", probe.name,
                                       {{"background", probe.integral.background_start_Sm, Quantity::Conductivity},
                                        {"limit", kGenericFactorBackground_Sm, Quantity::Conductivity}}));
        for (Finding finding : probe.integral.findings) {
            finding.where = probe.name;
            findings.push_back(std::move(finding));
        }
    }
    for (Finding& finding : judge_chloride(result.peak_chloride_kgm3 * kSaltPerChloride))
        findings.push_back(std::move(finding));
    return findings;
}

} // namespace

Expected<SlugResult> salt_slug(const SaltDose& dose, const std::vector<SlugProbe>& probes, const SlugOptions& options) {
    const Expected<double> mass_kg = mass_of(dose);
    if (!mass_kg)
        return mass_kg.error();
    if (const std::optional<Finding> bad = check_probes(probes))
        return *bad;
    if (const std::optional<Finding> bad = check_options(options))
        return *bad;

    SlugResult result;
    result.mass_kg = *mass_kg;
    const double count = static_cast<double>(probes.size());
    double mean_m3s = 0.0;
    double factor_u = 0.0;
    std::vector<BudgetLine> lines;
    for (const SlugProbe& probe : probes) {
        const TraceIntegral& area = probe.integral;
        const double q_m3s = *mass_kg / (probe.factor.value * area.area_Ss_m);
        result.probes.push_back({probe.name, q_m3s});
        mean_m3s += q_m3s / count;
        // one calibration for all probes: its errors do not average out
        factor_u += q_m3s * probe.factor.standard_uncertainty / probe.factor.value / count;
        lines.push_back({"flow.trace_noise", probe.name, q_m3s * area.noise_u / area.area_Ss_m / count});
        lines.push_back({"flow.trace_background", probe.name, q_m3s * area.background_u / area.area_Ss_m / count});
        lines.push_back({"flow.trace_drift", probe.name, q_m3s * area.drift_u / area.area_Ss_m / count});
        result.peak_chloride_kgm3 =
            std::max(result.peak_chloride_kgm3, chloride_of_salt(probe.factor.value * area.peak_rise_Sm));
    }
    const double mixing_rel =
        std::max(options.mixing_u_rel, probe_scatter_rel(result.probes, mean_m3s)) / std::sqrt(count);
    lines.push_back({"flow.salt_mass", {}, mean_m3s * dose.u_rel});
    lines.push_back({"flow.salt_factor", {}, factor_u});
    lines.push_back({"flow.salt_mixing", {}, mean_m3s * mixing_rel});
    result.flow.method = FlowMethod::SaltSlug;
    result.flow.discharge = combine_independent(mean_m3s, std::move(lines));
    result.flow.findings = findings_of(probes, result, options);
    return result;
}

} // namespace rillmark
