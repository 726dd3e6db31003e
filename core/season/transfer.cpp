// SPDX-License-Identifier: GPL-3.0-or-later
#include "season/transfer.h"

#include "flow/independent_budget.h"
#include "flow/settings.h"
#include "flow/student_factor.h"
#include "season/limits.h"
#include "uncertainty/propagate.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <span>

namespace rillmark {

namespace {

constexpr double kLeastArea_m2 = 1.0;
constexpr double kGreatestArea_m2 = 1e13;
constexpr double kGreatestYield_ms = 1e-5;
constexpr double kGreatestArea_u_rel = 0.5; // above, the law of propagation says nothing

Setting area_setting(const char* where, const Estimate& area) {
    return {where, area.value, kLeastArea_m2, kGreatestArea_m2, Quantity::Area};
}

Setting area_u_setting(const char* where, const Estimate& area) {
    return {where, area.standard_uncertainty, 0.0, kGreatestArea_u_rel * area.value, Quantity::Area};
}

std::optional<Finding> bad_gauge_flow(const Estimate& flow) {
    return first_bad_setting(
        {{"flow.gauge_flow", flow.value, 0.0, kGreatestFlow_m3s, Quantity::Discharge},
         {"flow.gauge_flow", flow.standard_uncertainty, 0.0, kGreatestFlow_m3s, Quantity::Discharge}});
}

bool good_spot(const Estimate& flow) {
    return flow.value > 0.0 && flow.value <= kGreatestFlow_m3s &&
           in_range(flow.standard_uncertainty, 0.0, 0.5 * flow.value);
}

double relative(const Estimate& flow) {
    return flow.standard_uncertainty / flow.value;
}

} // namespace

Expected<TransferredFlow> transfer_by_area(const AreaTransfer& transfer) {
    if (const std::optional<Finding> bad = bad_gauge_flow(transfer.gauge_flow_m3s))
        return *bad;
    if (const std::optional<Finding> bad =
            first_bad_setting({area_setting("flow.gauge_area", transfer.gauge_area_m2),
                               area_setting("flow.site_area", transfer.site_area_m2),
                               area_u_setting("flow.gauge_area", transfer.gauge_area_m2),
                               area_u_setting("flow.site_area", transfer.site_area_m2),
                               {"flow.area_power", transfer.power.value, 0.3, 1.5, Quantity::Number},
                               {"flow.area_power", transfer.power.standard_uncertainty, 0.0, 1.0, Quantity::Number}}))
        return *bad;
    TransferredFlow result;
    const double areas = transfer.site_area_m2.value / transfer.gauge_area_m2.value;
    result.ratio = std::pow(areas, transfer.power.value);
    const bool usual = in_range(areas, kLeastAreaRatio, kGreatestAreaRatio);
    if (!usual)
        result.findings.push_back(warning("flow.area_ratio_far", {},
                                          {{"ratio", areas, Quantity::Number},
                                           {"least", kLeastAreaRatio, Quantity::Number},
                                           {"greatest", kGreatestAreaRatio, Quantity::Number}}));
    Expected<Budgeted> flow =
        propagate({{"flow.gauge_flow", {}, transfer.gauge_flow_m3s},
                   {"flow.gauge_area", {}, transfer.gauge_area_m2},
                   {"flow.site_area", {}, transfer.site_area_m2},
                   {"flow.area_power", {}, transfer.power},
                   {"flow.transfer_method", {}, {1.0, usual ? kAreaTransfer_u_rel : kFarAreaTransfer_u_rel}}},
                  [](std::span<const double> in) { return in[4] * in[0] * std::pow(in[2] / in[1], in[3]); });
    if (!flow)
        return flow.error();
    result.discharge = std::move(flow).value();
    return result;
}

Expected<TransferredFlow> transfer_by_spots(const std::vector<SpotRatio>& spots, const Estimate& gauge_flow_m3s) {
    if (const std::optional<Finding> bad = bad_gauge_flow(gauge_flow_m3s))
        return *bad;
    if (spots.empty())
        return refusal("flow.no_spots");
    const double count = static_cast<double>(spots.size());
    std::vector<double> logs;
    double mean_ln = 0.0;
    double measured = 0.0; // variance of the mean of ln r that the measurements make
    for (const SpotRatio& spot : spots) {
        if (!good_spot(spot.site_m3s) || !good_spot(spot.gauge_m3s))
            return refusal("flow.bad_spot", {}, {{"row", static_cast<std::int64_t>(logs.size()) + 1}});
        logs.push_back(std::log(spot.site_m3s.value / spot.gauge_m3s.value));
        mean_ln += logs.back() / count;
        measured += (std::pow(relative(spot.site_m3s), 2) + std::pow(relative(spot.gauge_m3s), 2)) / (count * count);
    }
    double squares = 0.0;
    for (const double ln : logs)
        squares += (ln - mean_ln) * (ln - mean_ln);
    const int freedom = static_cast<int>(logs.size()) - 1;
    const double scatter = freedom > 0 ? std::sqrt(squares / freedom) * student_factor(freedom) : 0.0;

    TransferredFlow result;
    const double ratio = std::exp(mean_ln);
    result.ratio = ratio;
    const double flow_m3s = ratio * gauge_flow_m3s.value;
    result.discharge = combine_independent(
        flow_m3s, {{"flow.gauge_flow", {}, ratio * gauge_flow_m3s.standard_uncertainty},
                   {"flow.spot_gaugings", {}, flow_m3s * std::sqrt(measured)},
                   {"flow.transfer_method", {}, flow_m3s * std::max(kOneSpotDoubt_ln, scatter) / std::sqrt(count)}});
    if (spots.size() < kGoodSpots)
        result.findings.push_back(warning(
            "flow.few_spots", {},
            {{"count", static_cast<std::int64_t>(spots.size())}, {"needed", static_cast<std::int64_t>(kGoodSpots)}}));
    return result;
}

Expected<TransferredFlow> flow_from_yield(const Estimate& yield_ms, const Estimate& area_m2) {
    if (const std::optional<Finding> bad = first_bad_setting(
            {{"flow.specific_yield", yield_ms.value, 0.0, kGreatestYield_ms, Quantity::Number},
             {"flow.specific_yield", yield_ms.standard_uncertainty, 0.0, kGreatestYield_ms, Quantity::Number},
             area_setting("flow.site_area", area_m2),
             area_u_setting("flow.site_area", area_m2)}))
        return *bad;
    Expected<Budgeted> flow = propagate({{"flow.specific_yield", {}, yield_ms},
                                         {"flow.site_area", {}, area_m2},
                                         {"flow.transfer_method", {}, {1.0, kSpecificYield_u_rel}}},
                                        [](std::span<const double> in) { return in[0] * in[1] * in[2]; });
    if (!flow)
        return flow.error();
    return TransferredFlow{std::move(flow).value(), {}, {}};
}

} // namespace rillmark
