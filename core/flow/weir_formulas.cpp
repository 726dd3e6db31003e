// SPDX-License-Identifier: GPL-3.0-or-later
#include "flow/weir_formulas.h"

#include "units/units.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <numbers>

namespace rillmark {

namespace {

struct VNotchLine {
    double angle_deg;
    double effective;
    double head_add_m;
};
// Shen 1981 after Blevins 1984; 90 degrees: Ponce (0.0029 ft).
constexpr std::array kVNotch{VNotchLine{20.0, 0.590, 0.0028},     VNotchLine{40.0, 0.580, 0.0017},
                             VNotchLine{60.0, 0.575, 0.0012},     VNotchLine{80.0, 0.575, 0.0010},
                             VNotchLine{90.0, 0.578, 0.00088392}, VNotchLine{100.0, 0.580, 0.0010}};

struct NotchLine {
    double length_over_width;
    NotchCoefficients coefficients;
};
// a and slope: Morgenschweis, Hydrometrie, table 5.3. kb: from memory; 0.1, 0.3, 0.5 and 0.7 lie on straight lines
// between.
constexpr std::array kRectangular{NotchLine{0.0, {0.587, -0.0023, 0.0024}}, NotchLine{0.1, {0.588, -0.0021, 0.0024}},
                                  NotchLine{0.2, {0.589, -0.0018, 0.0024}}, NotchLine{0.3, {0.590, 0.0020, 0.00255}},
                                  NotchLine{0.4, {0.591, 0.0058, 0.0027}},  NotchLine{0.5, {0.592, 0.0110, 0.00315}},
                                  NotchLine{0.6, {0.593, 0.0180, 0.0036}},  NotchLine{0.7, {0.595, 0.0300, 0.0039}},
                                  NotchLine{0.8, {0.597, 0.0450, 0.0042}},  NotchLine{0.9, {0.599, 0.0640, 0.0037}},
                                  NotchLine{1.0, {0.602, 0.0750, -0.0009}}};

// USBR Water Measurement Manual, ch. 7 sec. 6 (0.003 ft); ISO 1438.
constexpr double kRectangularHeadAdd_m = 0.001;
// USBR Water Measurement Manual, equation 7-7, in feet and cubic feet a second.
constexpr double kCipolletti_ft = 3.367;
// Villemonte 1947.
constexpr double kVillemontePower = 0.385;

/// The two lines that hold a value, and how far it lies from the first to the second, 0 to 1.
template <class Lines, class Key>
auto bracket(const Lines& lines, double value, Key key) {
    struct Bracket {
        std::size_t first;
        double part;
    };
    std::size_t first = 0;
    while (first + 2 < lines.size() && lines[first + 1].*key < value)
        ++first;
    const double low = lines[first].*key;
    const double high = lines[first + 1].*key;
    return Bracket{first, std::clamp((value - low) / (high - low), 0.0, 1.0)};
}

} // namespace

VNotchCoefficients v_notch_coefficients(double angle_rad) {
    const auto at = bracket(kVNotch, angle_rad * 180.0 / std::numbers::pi, &VNotchLine::angle_deg);
    const VNotchLine& low = kVNotch[at.first];
    const VNotchLine& high = kVNotch[at.first + 1];
    return {std::lerp(low.effective, high.effective, at.part), std::lerp(low.head_add_m, high.head_add_m, at.part)};
}

double v_notch_m3s(double angle_rad, double head_m, double gravity_ms2) {
    const VNotchCoefficients c = v_notch_coefficients(angle_rad);
    return 8.0 / 15.0 * c.effective * std::sqrt(2.0 * gravity_ms2) * std::tan(0.5 * angle_rad) *
           std::pow(head_m + c.head_add_m, 2.5);
}

NotchCoefficients rectangular_coefficients(double length_over_width) {
    const auto at = bracket(kRectangular, length_over_width, &NotchLine::length_over_width);
    const NotchCoefficients& low = kRectangular[at.first].coefficients;
    const NotchCoefficients& high = kRectangular[at.first + 1].coefficients;
    return {std::lerp(low.a, high.a, at.part), std::lerp(low.slope, high.slope, at.part),
            std::lerp(low.length_add_m, high.length_add_m, at.part)};
}

double rectangular_notch_m3s(const RectangularNotch& notch, double head_m, double gravity_ms2) {
    const NotchCoefficients c = rectangular_coefficients(notch.length_m / notch.approach_width_m);
    const double effective = c.a + c.slope * head_m / notch.crest_height_m;
    return 2.0 / 3.0 * effective * std::sqrt(2.0 * gravity_ms2) * (notch.length_m + c.length_add_m) *
           std::pow(head_m + kRectangularHeadAdd_m, 1.5);
}

double cipolletti_m3s(double length_m, double head_m) {
    // [C] = length^0.5 / time
    static const double constant = kCipolletti_ft * std::sqrt(find_unit(Quantity::Length, "ft")->factor);
    return constant * length_m * std::pow(head_m, 1.5);
}

double villemonte_factor(double ratio, double power) {
    return std::pow(1.0 - std::pow(ratio, power), kVillemontePower);
}

} // namespace rillmark
