// SPDX-License-Identifier: GPL-3.0-or-later
#include "power/economic_diameter.h"

#include "power/energy.h"
#include "power/input_checks.h"

#include <algorithm>
#include <cmath>
#include <optional>

namespace rillmark {

namespace {

// A leap year is no refusal.
constexpr double kLongestYear_s = kEnergyYear_s + 86400.0;
// AHEC/MNRE, Guidelines for Hydraulic Design of Small Hydro Plants, 2008, 6.2.
constexpr double kSarkaria = 3.55;
// ESHA, Guide on How to Develop a Small Hydropower Plant, 2004, ch. 5; from memory, unconfirmed.
constexpr double kFourPercent = 2.69;
constexpr double kFourPercentExponent = 0.1875;

Expected<void> check_site(const EconomicSite& site) {
    if (const Expected<void> check =
            first_refusal(check_positive("power.gross_head", site.gross_head_m, Quantity::Length),
                          check_positive("power.density", site.density_kgm3, Quantity::Density),
                          check_positive("power.efficiency", site.efficiency),
                          check_not_negative("power.energy_price", site.energy_price_per_J),
                          check_positive("power.years", site.years),
                          check_not_negative("power.interest", site.interest));
        !check)
        return check;
    if (site.efficiency > 1.0)
        return refusal("power.ratio_above_one", "power.efficiency", {{"value", site.efficiency}});
    return {};
}

Expected<void> check_times(std::span<const FlowTime> times) {
    if (times.empty())
        return refusal("power.no_flows");
    double total_s = 0.0;
    for (const FlowTime& time : times) {
        if (const Expected<void> check = first_refusal(check_not_negative("power.flow", time.flow_m3s, Quantity::Discharge),
                                                       check_not_negative("power.time", time.time_s, Quantity::Time));
            !check)
            return check;
        total_s += time.time_s;
    }
    if (total_s > kLongestYear_s)
        return refusal("power.more_than_a_year", "power.time");
    return {};
}

double present_worth(double years, double interest) {
    if (interest == 0.0)
        return years;
    return -std::expm1(-years * std::log1p(interest)) / interest;
}

Expected<PricedRow> price(const PricedSize& size, const EconomicSite& site, std::span<const FlowTime> times) {
    if (const Expected<void> check = first_refusal(check_not_negative("power.pipe_price", size.pipe_price_per_m),
                                                   check_not_negative("power.trench_price", size.trench_price_per_m));
        !check)
        return check.error();
    PricedRow row{size, true, site.length_m * (size.pipe_price_per_m + size.trench_price_per_m), 0.0, 0.0, 0.0};
    for (const FlowTime& time : times) {
        const Expected<PipeLoss> loss =
            pipe_loss({site.length_m, size.bore_m, size.roughness_m, site.minor_k}, site.water, time.flow_m3s);
        if (!loss)
            return loss.error();
        row.carries = row.carries && loss->total_m() < site.gross_head_m;
        row.lost_J += site.density_kgm3 * site.water.gravity_ms2 * time.flow_m3s * loss->total_m() * site.efficiency *
                      time.time_s;
    }
    row.loss_cost = row.lost_J * site.energy_price_per_J * present_worth(site.years, site.interest);
    row.total_cost = row.build_cost + row.loss_cost;
    if (!std::isfinite(row.total_cost))
        return refusal("uncertainty.not_finite", "power.pipe_price");
    return row;
}

} // namespace

Expected<EconomicDiameter> economic_diameter(std::span<const PricedSize> sizes, const EconomicSite& site,
                                             std::span<const FlowTime> times) {
    if (sizes.empty())
        return refusal("power.no_sizes");
    if (const Expected<void> check = first_refusal(check_site(site), check_times(times)); !check)
        return check.error();
    EconomicDiameter result;
    std::optional<std::size_t> cheapest;
    for (const PricedSize& size : sizes) {
        const Expected<PricedRow> row = price(size, site, times);
        if (!row)
            return row.error();
        result.rows.push_back(*row);
        if (row->carries && (!cheapest || row->total_cost < result.rows[*cheapest].total_cost))
            cheapest = result.rows.size() - 1;
    }
    if (!cheapest)
        return refusal("power.no_size_carries", "power.bore");
    result.cheapest = *cheapest;
    const double bore_m = result.rows[*cheapest].size.bore_m;
    const auto any_carries = [&](auto beside) {
        return std::ranges::any_of(result.rows,
                                   [&](const PricedRow& row) { return row.carries && beside(row.size.bore_m); });
    };
    result.at_an_end = !any_carries([&](double other_m) { return other_m < bore_m; }) ||
                       !any_carries([&](double other_m) { return other_m > bore_m; });
    return result;
}

Expected<double> sarkaria_bore_m(double flow_m3s, double net_head_m, double gravity_ms2) {
    if (const Expected<void> check = first_refusal(check_positive("power.flow", flow_m3s, Quantity::Discharge),
                                                   check_positive("power.net_head", net_head_m, Quantity::Length),
                                                   check_positive("power.gravity", gravity_ms2));
        !check)
        return check.error();
    return kSarkaria * std::pow(flow_m3s * flow_m3s / (2.0 * gravity_ms2 * net_head_m), 0.25);
}

Expected<double> four_percent_bore_m(const ManningPipe& pipe) {
    if (const Expected<void> check = first_refusal(check_positive("power.flow", pipe.flow_m3s, Quantity::Discharge),
                                                   check_positive("power.manning_n", pipe.manning_n),
                                                   check_positive("power.pipe_length", pipe.length_m, Quantity::Length),
                                                   check_positive("power.gross_head", pipe.gross_head_m, Quantity::Length));
        !check)
        return check.error();
    const double nq = pipe.manning_n * pipe.flow_m3s;
    return kFourPercent * std::pow(nq * nq * pipe.length_m / pipe.gross_head_m, kFourPercentExponent);
}

} // namespace rillmark
