// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "expected.h"
#include "finding.h"
#include "uncertainty/estimate.h"

#include <cstdint>
#include <optional>
#include <span>
#include <vector>

namespace rillmark {

// Calibration factors are in (kg/m3)/(S/m): 1 mg/L per uS/cm is 10 of them.

// Richardson, Sentlinger, Moore & Zimmermann 2017, Confluence 1(2), doi:10.22230/jwsm.2017v1n1a1, conclusions and
// table 8: 0.486 mg/L per uS/cm at 25 degC for food-grade salt; its standard deviation over streams 0.006961, of a good
// calibration 0.001604, of a poor one in the field 0.010284.
inline constexpr Estimate kGenericSaltFactor{4.86, 0.06961};
inline constexpr double kGoodCalibration_u = 0.01604;
inline constexpr double kPoorCalibration_u = 0.10284;
// As above: the generic factor holds for streams with less than 500 uS/cm.
inline constexpr double kGenericFactorBackground_Sm = 0.05;
// Our own choice: fewer additions leave the line's scatter unknown.
inline constexpr int kMinimumAdditions = 3;
inline constexpr int kGoodAdditions = 5;
// Our own choice: scatter of the points about the line, relative to the whole range, that is warned of.
inline constexpr double kLargeCalibrationScatter_rel = 0.02;

/// One point of a calibration line.
struct CalibrationPoint {
    double ec_Sm = 0.0;
    double concentration_kgm3 = 0.0; // of the salt that was added
};

/// Straight line of concentration over conductivity.
struct CalibrationLine {
    double slope = 0.0;          // (kg/m3)/(S/m)
    double slope_u = 0.0;        // standard deviation from the scatter, not enlarged for few points
    double intercept_kgm3 = 0.0; // 0 through the origin
    double scatter_kgm3 = 0.0;   // standard deviation of a point about the line
    int degrees = 0;             // of freedom
};

enum class CalibrationFit : std::uint8_t {
    FreeIntercept, // the usual choice: no reading counts more than another
    ThroughOrigin, // conductivities are changes from the one before the first addition
};

/// Least squares of concentration on conductivity. Refuses fewer than three points (two through the origin) as
/// `flow.few_calibration_points`, values that are not finite (`uncertainty.not_finite`), and points without a spread of
/// conductivity or whose line does not rise (`flow.calibration_does_not_rise`).
[[nodiscard]] Expected<CalibrationLine> fit_calibration(std::span<const CalibrationPoint> points, CalibrationFit fit);

/// One reading of a stepwise calibration.
struct SaltAddition {
    std::int64_t id = 0;
    double added_m3 = 0.0; // volume of standard solution added so far, in all; 0 to 0.01, the first usually 0
    double ec_Sm = 0.0;    // as read in the sample, brought to 25 degC or not just as the trace is; 0 to 20
    bool struck = false;
};

struct SaltCalibrationInput {
    double sample_m3 = 0.0;     // stream water in the vessel before the first addition; 0.00001 to 1
    double solution_kgm3 = 0.0; // salt in the standard solution; 0.001 to 360
    std::vector<SaltAddition> additions;
    /// Conductivity of the water that the solution was made with, where it is not stream water (distilled: about
    /// 0.0002).
    std::optional<double> solvent_ec_Sm;
    // Relative standard uncertainties shared by all additions; 0 to 0.5. Our own choice of defaults: a graduated
    // cylinder, a pipette, and a solution of weighed salt.
    double sample_u_rel = 0.005;
    double solution_u_rel = 0.005;
    double added_u_rel = 0.005;
    double resolution_Sm = 0.0001; // smallest step of the display; 0 to 0.01
};

struct SaltCalibration {
    Budgeted factor; // (kg/m3)/(S/m)
    CalibrationLine line;
    std::vector<CalibrationPoint> points; // in the order of the additions used
    double highest_ec_Sm = 0.0;           // the line says nothing above it
    Findings findings;
};

/// Calibration factor by adding a standard solution step by step to stream water.
///
/// Concentration after y of solution: c y / (V + y); to leave y out of the divisor is a common error of 1 % and more.
/// The factor is the slope of the line with a free intercept. With a solution of other than stream water each addition
/// also thins the salt of the stream; that is taken out, see correct_for_solvent.
///
/// Uncertainty: slope, enlarged by student_factor, and at least what the resolution (rectangular) makes of it; volume
/// of the sample, of the additions, and strength of the solution, in quadrature. Source: Richardson and others 2017 (as
/// above), appendix 1. Accuracy of the arithmetic: rounding.
///
/// Warns: scatter (`flow.calibration_scatters`), a factor far from that of salt at any temperature
/// (`flow.calibration_factor_unusual`: outside 0.4 to 1.1 mg/L per uS/cm; raw cold water has up to 1.0). Notes few
/// additions (`flow.few_additions`).
/// Refuses volumes, concentrations and readings out of range (`flow.bad_sample_volume`, `flow.bad_solution`,
/// `flow.bad_addition`, `flow.bad_conductivity`, `flow.bad_option`), additions that fall
/// (`flow.additions_fall`), and what fit_calibration refuses.
[[nodiscard]] Expected<SaltCalibration> salt_calibration(const SaltCalibrationInput& input);

/// The factor that a calibration would have had with a solution of stream water:
/// CF = CF' / (1 + CF' (EC_stream - EC_solvent) / c), with c the concentration of the solution.
///
/// From the balance of salt in the vessel. Richardson and others 2017, equation A1.10, is its first order with the
/// generic factor inside; as printed there the difference has the wrong sign (the printed result needs this one).
[[nodiscard]] double correct_for_solvent(double factor, double stream_ec_Sm, double solvent_ec_Sm,
                                         double solution_kgm3);

} // namespace rillmark
