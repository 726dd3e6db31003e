// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "expected.h"

namespace rillmark {

// Reynolds number up to which flow is taken as laminar, and from which as turbulent. Between them no formula is
// reliable. Practice differs: 2000 or 2300 for the lower limit; 2000, the cautious one, is taken. Common practice, no
// source.
inline constexpr double kLaminarBelow = 2000.0;
inline constexpr double kTurbulentFrom = 4000.0;

// Roughness divided by bore up to which the Colebrook-White formula is charted (L. F. Moody, Trans. ASME 66, 1944,
// 671).
inline constexpr double kRelativeRoughnessMax = 0.05;

enum class Regime { Still, Laminar, Transition, Turbulent };

struct FrictionFactor {
    double darcy = 0.0; // Darcy's f; Fanning's, printed in some textbooks, is a quarter of it
    Regime regime = Regime::Still;
};

/// Darcy friction factor of a full pipe from its Reynolds number (>= 0) and relative roughness (0..0.05).
///
/// Laminar: 64/Re. Turbulent: Colebrook-White, 1/sqrt(f) = -2 log10(e/(3.7 D) + 2.51/(Re sqrt(f))) (C. F. Colebrook,
/// J. Inst. Civil Engrs. 11, 1939, 133), solved by Halley's method (third order). Between Re 2000 and 4000: the larger of both. No flow: factor 0. Accuracy: 1e-12 as a root; measured
/// smooth pipes lie within 4 % of the formula (kFrictionFormulaUncertainty). Refuses what is not finite
/// (`uncertainty.not_finite`), a negative input (`power.negative`) and a roughness above 0.05 of the bore
/// (`power.too_rough_for_formula`).
[[nodiscard]] Expected<FrictionFactor> darcy_friction(double reynolds, double relative_roughness);

// Relative standard uncertainty of a friction loss by the formula: +/- 4 % at k = 2, the scatter of measured smooth
// pipe against it (Oregon smooth-pipe facility data, Re 8e4..1e6).
inline constexpr double kFrictionFormulaUncertainty = 0.02;

/// What the empirical formula needs.
struct HazenWilliamsPipe {
    double length_m = 0.0;    // > 0
    double bore_m = 0.0;      // > 0
    double coefficient = 0.0; // C: 150 new plastic, 140 new steel, lower with age; > 0
};

/// Friction loss by Hazen and Williams, m of water: h = 10.67 L Q^1.852 / (C^1.852 D^4.87). For comparison only: it
/// knows no viscosity, holds for turbulent water of 15..20 degC at 1..3 m/s in bores above 50 mm, and is some 3 % low
/// at 10 degC. Source: common practice (US irrigation and water supply), no source. Refuses as darcy_friction does, and
/// a length, bore or coefficient that is not above zero (`power.not_positive`).
[[nodiscard]] Expected<double> hazen_williams_loss_m(const HazenWilliamsPipe& pipe, double discharge_m3s);

} // namespace rillmark
