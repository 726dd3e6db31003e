// SPDX-License-Identifier: GPL-3.0-or-later
// The season's part in the flow to use, and what of it may be taken.
#include "site/season.h"

#include "flow/independent_budget.h"

#include <algorithm>
#include <cmath>

namespace rillmark {

namespace {

/// The month that the flow to use belongs to: that of the visit it is; nothing where it rests on more than one.
std::optional<unsigned> month_of(const FlowToUse& to_use) {
    for (const FlowVisit& visit : to_use.visits)
        if (to_use.choice != FlowChoice::Season && visit.discharge.estimate.value == to_use.discharge.estimate.value)
            return static_cast<unsigned>(std::stoul(visit.date.substr(5, 2)));
    return {};
}

/// The month of a monthly table that the flow is divided in.
unsigned leave_month(const FlowToLeave& leave, const FlowToUse& to_use) {
    if (const std::optional<unsigned> month = month_of(to_use))
        return *month;
    const auto most = std::ranges::max_element(leave.monthly_m3s);
    return static_cast<unsigned>(most - leave.monthly_m3s.begin()) + 1;
}

/// The flow less what stays, each line of its doubt kept in that part.
Budgeted taken_of(const FlowToUse& to_use, double usable_m3s, double kept, double left_u_m3s) {
    std::vector<BudgetLine> lines = to_use.discharge.budget;
    for (BudgetLine& line : lines)
        line.contribution *= kept;
    if (left_u_m3s > 0.0)
        lines.push_back({"site.flow_left", {}, left_u_m3s, 0.0});
    Budgeted taken = combine_independent(usable_m3s, std::move(lines));
    // lines of tests that are correlated do not sum to it
    taken.estimate.standard_uncertainty = std::hypot(kept * to_use.discharge.estimate.standard_uncertainty, left_u_m3s);
    return taken;
}

} // namespace

const std::optional<Budgeted>* season_figure(const SiteSeason& season, const std::string& figure) {
    if (!season.site)
        return nullptr;
    if (figure == "q50")
        return &season.site->q50;
    if (figure == "mean")
        return &season.site->mean;
    return figure == "low7" ? &season.site->low7 : &season.site->q95;
}

void use_season(const SiteRow& site, const SiteSeason& season, SiteFlow& flow) {
    if (site.flow_choice != "season")
        return;
    const std::optional<Budgeted>* figure = season_figure(season, site.flow_figure);
    if (figure == nullptr || !*figure) {
        flow.findings.insert(flow.findings.begin(), warning("site.season_unknown"));
        return;
    }
    FlowToUse to_use;
    to_use.visits = flow.visits;
    to_use.choice = FlowChoice::Season;
    to_use.discharge = **figure;
    to_use.findings = season.findings;
    flow.findings = to_use.findings;
    flow.to_use = std::move(to_use);
}

const std::array<std::optional<double> SiteRow::*, 12>& leave_columns() {
    static constexpr std::array<std::optional<double> SiteRow::*, 12> columns{
        &SiteRow::leave_jan_m3s, &SiteRow::leave_feb_m3s, &SiteRow::leave_mar_m3s, &SiteRow::leave_apr_m3s,
        &SiteRow::leave_may_m3s, &SiteRow::leave_jun_m3s, &SiteRow::leave_jul_m3s, &SiteRow::leave_aug_m3s,
        &SiteRow::leave_sep_m3s, &SiteRow::leave_oct_m3s, &SiteRow::leave_nov_m3s, &SiteRow::leave_dec_m3s};
    return columns;
}

std::optional<FlowToLeave> leave_of(const SiteRow& site) {
    FlowToLeave leave;
    if (site.leave_rule == "fixed") {
        leave.fixed_m3s = site.leave_m3s.value_or(0.0);
    } else if (site.leave_rule == "share-of-flow") {
        leave.rule = LeaveRule::ShareOfFlow;
        leave.share = site.leave_share.value_or(0.0);
    } else if (site.leave_rule == "share-of-q95") {
        leave.rule = LeaveRule::ShareOfQ95;
        leave.share = site.leave_q95_share.value_or(0.0);
    } else if (site.leave_rule == "monthly") {
        leave.rule = LeaveRule::Monthly;
        for (std::size_t month = 0; month < leave.monthly_m3s.size(); ++month)
            leave.monthly_m3s[month] = (site.*leave_columns()[month]).value_or(0.0);
    } else {
        return {};
    }
    return leave;
}

UsableFlow usable_flow_of(const SiteRow& site, const FlowToUse& to_use, const SiteSeason& season) {
    UsableFlow flow{to_use.discharge, 0.0, 0, {}};
    const std::optional<FlowToLeave> leave = leave_of(site);
    if (!leave)
        return flow;
    DayFlow day{to_use.discharge.estimate.value, 1, {}};
    if (leave->rule == LeaveRule::Monthly) {
        day.month = flow.month = leave_month(*leave, to_use);
        flow.findings.push_back(note("site.leave_month", {}, {{"month", static_cast<std::int64_t>(flow.month)}}));
    }
    double left_u_m3s = 0.0;
    if (leave->rule == LeaveRule::ShareOfQ95 && season.site && season.site->q95) {
        day.q95_m3s = season.site->q95->estimate.value;
        left_u_m3s = leave->share * season.site->q95->estimate.standard_uncertainty;
    }
    const Expected<DividedFlow> divided = divide_flow(*leave, day);
    if (!divided) {
        flow.findings.push_back(divided.error());
        flow.findings.push_back(warning("site.nothing_left"));
        return flow;
    }
    flow.left_m3s = divided->left_m3s;
    const double kept = leave->rule == LeaveRule::ShareOfFlow ? 1.0 - leave->share : 1.0; // of a change of the flow
    flow.usable = taken_of(to_use, divided->usable_m3s, kept, left_u_m3s);
    return flow;
}

} // namespace rillmark
