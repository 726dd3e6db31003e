// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "power/economic_diameter.h"
#include "power/energy.h"
#include "power/turbine_tables.h"
#include "site/season.h"
#include "site/site_estimate.h"

#include <array>
#include <optional>
#include <vector>

namespace rillmark {

/// Watts at the house (at the generator without a cable) in one calendar month of the record.
struct MonthOfWatts {
    double mean_W = 0.0;
    double middle_W = 0.0; // of the flow that half of its days reach
    double low_W = 0.0;    // of the flow that 95 in 100 of its days reach
    double running = 0.0;  // part of its days with power
};

/// The year of an alternative by the season of the site. What cannot be known is empty, with the reason in `findings`.
struct PlantYear {
    std::array<std::optional<MonthOfWatts>, 12> months; // January first; those that the record has
    std::optional<EnergyYear> year;
    std::optional<DesignCurve> curve;
    std::vector<FlowTime> through_pipe; // how long in a mean year what flows in all pipes, in kFlowClasses
    Findings findings;
};

// Classes of the flow through the turbine, from none to the design flow; our choice.
inline constexpr std::size_t kFlowClasses = 20;

/// Every day of the site's record, less what its rule leaves in the creek, through the alternative's chain.
///
/// The uncertainty is that of measuring alone: of the gauge or rating and of the transfer to the site for the flow
/// (SiteRecord::mean without the scatter of the years), of the chain for head and efficiency. How the years differ
/// stands apart in EnergyYear::year_spread_J. A flow to leave that cannot be reckoned is not left out: there is no year
/// then. Findings: `site.year_no_record`, `site.year_mean_only`, `site.year_no_transfer` say what is missing;
/// `site.year_nothing_left` that no rule for the flow to leave is chosen; and those of the energy (see energy_of_days),
/// of the chain (`power.no_watts`), of the tables (`power.unknown_turbine`).
[[nodiscard]] PlantYear plant_year(const Survey& survey, const SiteSeason& season, const AlternativeEstimate& estimate,
                                   const TurbineTables& tables);

/// The site's flow on every day of the record that has one; empty where the season does not know it.
[[nodiscard]] std::vector<FlowDay> site_days(const SiteSeason& season);

} // namespace rillmark
