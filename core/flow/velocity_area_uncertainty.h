// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "flow/point_velocity.h"
#include "uncertainty/estimate.h"

#include <vector>

namespace rillmark {

// The components of ISO 748:2007 (DIN EN ISO 748:2008), as relative standard uncertainties (0.025 = 2.5 %), from the
// tables as printed in G. Morgenschweis, Hydrometrie (Springer, VDI-Buch, DOI 10.1007/978-3-642-05390-0), Tab. 4.8 to
// 4.13. The book calls the values guidance that must be checked on site. Between printed values: straight lines.
namespace iso748 {

/// u_m, too few verticals (Tab. 4.8). Below 5 the table has nothing: 7.5 % x 5 / count (our own extension).
[[nodiscard]] double verticals(int count);
/// u_b, width (Tab. 4.9): 0.15, 0.20, 0.25 % up to 100, 150, 250 m of total width; 0.25 % beyond.
[[nodiscard]] double width(double total_width_m);
/// u_d, depth (Tab. 4.10): 0.65 % up to 6 m (rod), 0.25 % beyond (line), but never less than depth_u_m / depth. The
/// table's 0.65 % was made for a mean depth of 3.2 m, where it is 2 cm; keeping those 2 cm in a shallow stream is our
/// own extension (5 % at 0.4 m). Depth must be > 0.
[[nodiscard]] double depth(double depth_m, double depth_u_m);
/// u_p, number of points in a vertical (Tab. 4.11): 1: 7.5 %, 2: 3.5 %, 5 and more: 2.5 %; 3 by interpolation, 3.17 %.
[[nodiscard]] double points(int count);
/// u_p of a vertical read at the surface only (Tab. 4.11).
inline constexpr double kSurfacePoint = 0.15;
/// u_c, meter rating (Tab. 4.12). The third row is printed as 0.12 m/s and held as 0.15 elsewhere: 0.15, the more
/// cautious, is used. Below 0.03 m/s the uncertainty stays what it is there in m/s, so the relative one grows.
[[nodiscard]] double meter_ms(double velocity_ms, bool individual);
/// u_e, exposure time (Tab. 4.13), for a point at depth_fraction (one table to 0.6, one below). Below 0.05 m/s the
/// uncertainty stays what it is there in m/s. Below 30 s it grows with sqrt(30 s / exposure) (our own extension); above
/// 3 minutes it stays. Exposure must be > 0.
[[nodiscard]] double exposure_ms(double velocity_ms, double exposure_s, double depth_fraction);
/// u_s, systematic (sec. 4.5.14).
inline constexpr double kSystematic = 0.01;

/// Exposure taken where a reading has none: the shortest of the table, so the most doubtful.
inline constexpr double kAssumedExposure_s = 30.0;

} // namespace iso748

/// What one panel brings into the variance: each part as a standard uncertainty of its discharge [m3/s].
struct PanelDoubt {
    double width_m3s = 0.0;
    double depth_m3s = 0.0;
    double points_m3s = 0.0;
    double meter_m3s = 0.0;    // already reduced by the number of points
    double exposure_m3s = 0.0; // already reduced by the number of points
    double still_rotor_m3s = 0.0;
    double wall_m3s = 0.0;

    [[nodiscard]] double variance() const;
};

/// What the doubt of one panel follows from.
struct PanelFacts {
    double total_width_m = 0.0;
    double depth_m = 0.0;
    double depth_u_m = 0.0;
    double discharge_m3s = 0.0;    // of this panel
    double velocity_area_m2 = 0.0; // that the vertical's velocity acts on: its own and, by a share, a wall's beside it
    double cosine = 1.0;           // of the angle of flow
    const VerticalVelocity* measured = nullptr; // none at a bank or where there is no depth
    double wall_u_m3s = 0.0;
};

/// The parts of one panel by the tables above. The errors of the points of a vertical are combined with the weights of
/// the points: for equal weights that is the standard's division by n, for the weights 1:2:1 it is 3/8 and not 1/3.
/// A rotor that stood still has the doubt of its starting speed in place of u_c and u_e.
[[nodiscard]] PanelDoubt panel_doubt(const PanelFacts& facts);

/// The combined uncertainty of a gauging (Morgenschweis Eq. 4.51):
/// u^2 = (u_s^2 + u_m^2) Q^2 + sum over panels of q^2 (u_b^2 + u_d^2 + u_p^2 + (u_c^2 + u_e^2) / n),
/// here with each panel's parts already in m3/s so that still water needs no division by zero. Two parts are our own:
/// a rotor that stands still (rectangular between 0 and its starting speed) and the velocity taken at a wall.
/// Errors of different panels are independent, as the standard has it. Budget lines: `flow.systematic`,
/// `flow.verticals`, `flow.width`, `flow.depth`, `flow.points`, `flow.meter_rating`, `flow.exposure`,
/// `flow.still_rotor`, `flow.wall_velocity` (the last two only where they occur), largest first.
/// Checked: Hattingen/Ruhr example, 2.81 %.
[[nodiscard]] Budgeted combine_velocity_area(double discharge_m3s, double systematic, double verticals,
                                             const std::vector<PanelDoubt>& panels);

} // namespace rillmark
