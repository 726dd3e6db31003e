// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

namespace rillmark {

// Flow over thin plates: plain arithmetic, SI, for arguments above zero. The limits are kept by thin_plate_weir().

/// Effective coefficient and addition to the head of a V-notch.
struct VNotchCoefficients {
    double effective = 0.0;  // Ce, 1
    double head_add_m = 0.0; // kh
};

/// Kindsvater-Shen coefficients of a fully contracted V-notch, from 20 to 100 degrees, between the lines of the table
/// by straight lines; outside, those of the nearest line. Source: Shen 1981 (USGS Water-Supply Paper 1617-B) after
/// Blevins 1984; 90 degrees: V. M. Ponce, San Diego State University, flume laboratory text. Curves fitted to the
/// figures of the USBR manual give flows within 0.35 %.
[[nodiscard]] VNotchCoefficients v_notch_coefficients(double angle_rad);

/// Q = 8/15 Ce sqrt(2g) tan(angle/2) (h + kh)^2.5 [m3/s], Kindsvater-Shen (USBR Water Measurement Manual, 3rd ed.,
/// equation 7-3).
[[nodiscard]] double v_notch_m3s(double angle_rad, double head_m, double gravity_ms2);

/// Coefficients of a rectangular notch: Ce = a + slope h/p, and the addition to the crest length.
struct NotchCoefficients {
    double a = 0.0;
    double slope = 0.0;
    double length_add_m = 0.0; // kb
};

/// Kindsvater-Carter coefficients by b/B, crest length over width of approach (0 to 1; 1 is a suppressed weir), between
/// the lines of the table by straight lines.
/// Source of a and slope: Kindsvater and Carter 1957 as printed in G. Morgenschweis, Hydrometrie (Springer), table 5.3.
/// kb: from memory, unconfirmed, but for b/B = 1; one text has 3.7 mm and one example 3.0 mm at b/B = 0.5, here 3.15
/// mm.
[[nodiscard]] NotchCoefficients rectangular_coefficients(double length_over_width);

/// A rectangular notch and the channel that leads to it.
struct RectangularNotch {
    double length_m = 0.0;         // b
    double approach_width_m = 0.0; // B, at least b
    double crest_height_m = 0.0;   // p, over the bed of the approach
};

/// Q = 2/3 (a + slope h/p) sqrt(2g) (b + kb) (h + 1 mm)^1.5 [m3/s], Kindsvater-Carter (ISO 1438; USBR Water Measurement
/// Manual, 3rd ed., ch. 7 sec. 6). It allows for the velocity of approach by h/p.
[[nodiscard]] double rectangular_notch_m3s(const RectangularNotch& notch, double head_m, double gravity_ms2);

/// Q = 1.859 L h^1.5 [m3/s], Cipolletti's trapezoidal notch with sides of 1 across to 4 up; L is the length of the
/// crest alone. Source: USBR Water Measurement Manual, 3rd ed., ch. 7 sec. 12, equation 7-7 (3.367 in feet; +/-5 %).
/// The velocity of approach is not allowed for.
[[nodiscard]] double cipolletti_m3s(double length_m, double head_m);

/// Part of the free flow that passes when the tailwater stands above the crest: (1 - (h2/h1)^n)^0.385, n the power of
/// the head in the free flow (1.5; V-notch 2.5). ratio = h2/h1, 0 to 1.
/// Source: J. R. Villemonte, Submerged-weir discharge studies, Engineering News-Record 139 (1947); US EPA, SWMM
/// Reference Manual, vol. II, equation 6-26.
[[nodiscard]] double villemonte_factor(double ratio, double power);

} // namespace rillmark
