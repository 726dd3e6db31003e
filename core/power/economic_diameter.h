// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "expected.h"
#include "power/pipe_flow.h"

#include <cstddef>
#include <span>
#include <string>
#include <vector>

namespace rillmark {

/// A size of pipe with the user's own prices, in any one currency. No price is proposed.
struct PricedSize {
    std::string label;
    double bore_m = 0.0;             // > 0
    double roughness_m = 0.0;        // >= 0
    double pipe_price_per_m = 0.0;   // >= 0
    double trench_price_per_m = 0.0; // >= 0
};
/// How long in a year a flow runs through the pipe.
struct FlowTime {
    double flow_m3s = 0.0; // >= 0
    double time_s = 0.0;   // >= 0, at most a year in all
};
struct EconomicSite {
    double gross_head_m = 0.0;       // > 0
    double length_m = 0.0;           // slope length, > 0
    double minor_k = 0.0;            // >= 0
    PipeWater water;
    double density_kgm3 = 0.0;       // > 0
    double efficiency = 0.0;         // water to wire, above 0, at most 1
    double energy_price_per_J = 0.0; // >= 0, what the owner gets or saves
    double years = 0.0;              // over which the energy counts, > 0
    double interest = 0.0;           // a year, >= 0
};
struct PricedRow {
    PricedSize size;
    bool carries = false;     // the loss stays below the gross head at every flow; else the rest is not to be compared
    double build_cost = 0.0;  // pipe and trench
    double lost_J = 0.0;      // a year, at the wire
    double loss_cost = 0.0;   // present worth over the years
    double total_cost = 0.0;
};
struct EconomicDiameter {
    std::vector<PricedRow> rows; // as given
    std::size_t cheapest = 0;
    bool at_an_end = false; // the cheapest is the smallest or widest that carries: a size beyond may be cheaper
};
/// Cost of each size: building it, and the present worth of the energy that its losses (pipe_loss) take away; a payment of
/// one a year is worth (1 - (1 + i)^-n)/i. Left out: repair, pressure class, anchors, power that a wider pipe would add to
/// a larger turbine. Refuses no sizes (`power.no_sizes`), sizes that are all too small (`power.no_size_carries`), more
/// than a year (`power.more_than_a_year`), inputs out of their ranges and what pipe_loss refuses.
[[nodiscard]] Expected<EconomicDiameter> economic_diameter(std::span<const PricedSize> sizes, const EconomicSite& site,
                                                           std::span<const FlowTime> times);

/// A first guess of a penstock's bore, m: D = 3.55 (Q^2/(2 g H))^(1/4), G. S. Sarkaria's form in AHEC/MNRE, Guidelines
/// for Hydraulic Design of Small Hydro Plants, 2008, 6.2. Refuses what is not above zero.
[[nodiscard]] Expected<double> sarkaria_bore_m(double flow_m3s, double net_head_m, double gravity_ms2);
struct ManningPipe {
    double flow_m3s = 0.0;     // > 0
    double manning_n = 0.0;    // > 0
    double length_m = 0.0;     // > 0
    double gross_head_m = 0.0; // > 0
};
/// The bore (m) that loses 4 % of the head: D = 2.69 (n^2 Q^2 L/H)^0.1875, ESHA, Guide on How to Develop a Small Hydropower
/// Plant, 2004, ch. 5 (from memory, unconfirmed). Refuses what is not above zero.
[[nodiscard]] Expected<double> four_percent_bore_m(const ManningPipe& pipe);

} // namespace rillmark
