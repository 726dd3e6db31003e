// SPDX-License-Identifier: GPL-3.0-or-later
#include "season/flow_to_leave.h"

#include "flow/settings.h"
#include "season/limits.h"

#include <algorithm>

namespace rillmark {

namespace {

constexpr double kGreatestShareOfQ95 = 10.0;

Setting flow_setting(const char* where, double flow_m3s) {
    return {where, flow_m3s, 0.0, kGreatestFlow_m3s, Quantity::Discharge};
}

std::optional<Finding> bad_rule(const FlowToLeave& leave, std::optional<double> q95_m3s) {
    switch (leave.rule) {
    case LeaveRule::Fixed:
        return first_bad_setting({flow_setting("fixed_m3s", leave.fixed_m3s)});
    case LeaveRule::ShareOfFlow:
        return first_bad_setting({{"share", leave.share, 0.0, 1.0, Quantity::Ratio}});
    case LeaveRule::ShareOfQ95:
        if (!q95_m3s)
            return refusal("flow.q95_unknown");
        return first_bad_setting(
            {{"share", leave.share, 0.0, kGreatestShareOfQ95, Quantity::Ratio}, flow_setting("q95_m3s", *q95_m3s)});
    case LeaveRule::Monthly:
        for (const double flow_m3s : leave.monthly_m3s)
            if (std::optional<Finding> bad = first_bad_setting({flow_setting("monthly_m3s", flow_m3s)}))
                return bad;
    }
    return std::nullopt;
}

/// What a sound rule asks for.
double asked_m3s(const FlowToLeave& leave, const DayFlow& day) {
    switch (leave.rule) {
    case LeaveRule::Fixed:
        return leave.fixed_m3s;
    case LeaveRule::ShareOfFlow:
        return leave.share * day.flow_m3s;
    case LeaveRule::ShareOfQ95:
        return leave.share * day.q95_m3s.value_or(0.0);
    case LeaveRule::Monthly:
        return leave.monthly_m3s[day.month - 1];
    }
    return 0.0;
}

} // namespace

Expected<DividedFlow> divide_flow(const FlowToLeave& leave, const DayFlow& day) {
    if (const std::optional<Finding> bad = bad_rule(leave, day.q95_m3s))
        return *bad;
    if (const std::optional<Finding> bad =
            first_bad_setting({flow_setting("flow_m3s", day.flow_m3s),
                               {"month", static_cast<double>(day.month), 1.0, 12.0, Quantity::Number}}))
        return *bad;
    const double left_m3s = std::min(asked_m3s(leave, day), day.flow_m3s);
    return DividedFlow{left_m3s, day.flow_m3s - left_m3s};
}

Expected<DailyFlow> usable_flow(const FlowToLeave& leave, const DailyFlow& series, std::optional<double> q95_m3s) {
    DailyFlow usable = series;
    for (std::size_t i = 0; i < series.flow_m3s.size(); ++i) {
        if (!series.flow_m3s[i])
            continue;
        const Expected<DividedFlow> day =
            divide_flow(leave, {*series.flow_m3s[i], static_cast<unsigned>(series.day(i).month()), q95_m3s});
        if (!day)
            return day.error();
        usable.flow_m3s[i] = day->usable_m3s;
    }
    return usable;
}

} // namespace rillmark
