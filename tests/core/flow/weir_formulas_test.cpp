// SPDX-License-Identifier: GPL-3.0-or-later
#include "flow/weir_formulas.h"

#include "checks/checks.h"
#include "units/constants.h"
#include "units/units.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

namespace rillmark {
namespace {

const double kFoot_m = find_unit(Quantity::Length, "ft")->factor;

TEST(WeirFormulas, TableOfRectangularCoefficients) {
    const auto check = checks::entry("flow_structures", "weir-rect-kc-table");
    const double tolerance = check["tolerance"]["abs"];
    const std::vector<double> h_over_p = check["inputs"]["h_over_p"];
    for (const auto& [ratio, a] : check["expected"]["a"].items()) {
        const NotchCoefficients c = rectangular_coefficients(std::stod(ratio));
        EXPECT_NEAR(c.a, a.get<double>(), tolerance) << ratio;
        EXPECT_NEAR(c.slope, check["expected"]["a_prime"][ratio].get<double>(), tolerance) << ratio;
        for (std::size_t i = 0; i < h_over_p.size(); ++i)
            EXPECT_NEAR(c.a + c.slope * h_over_p[i], check["expected"]["Ce"][ratio][i].get<double>(), tolerance)
                << ratio;
    }
}

TEST(WeirFormulas, RectangularConstantsInFeet) {
    const auto check = checks::entry("flow_structures", "weir-rect-kc-us-constants");
    const double printed_h_over_p = check["inputs"]["h_over_p"];
    double largest_pct = 0.0;
    for (const auto& [ratio, cw] : check["expected"]["Cw"].items()) {
        const NotchCoefficients c = rectangular_coefficients(std::stod(ratio));
        const double c1 = check["expected"]["c1"][ratio];
        const double c2 = check["expected"]["c2"][ratio];
        EXPECT_NEAR(c1 * printed_h_over_p + c2, cw.get<double>(), check["tolerance"]["Cw"]["abs"].get<double>());
        for (const double h_over_p : {0.0, 0.5, 1.0}) { // the entry's largest is that of h/p up to 1
            const double ours =
                2.0 / 3.0 * (c.a + c.slope * h_over_p) * std::sqrt(2.0 * kStandardGravity_ms2 / kFoot_m);
            largest_pct = std::max(largest_pct, 100.0 * std::abs(ours / (c1 * h_over_p + c2) - 1.0));
        }
    }
    EXPECT_NEAR(largest_pct, check["expected"]["max_deviation_from_SI_table_pct"].get<double>(),
                check["tolerance"]["max_deviation_from_SI_table_pct"]["abs"].get<double>());
}

TEST(WeirFormulas, CoefficientsRunOnWithoutAStepAndStayAtTheEnds) {
    const double degree = std::acos(-1.0) / 180.0;
    for (double angle_deg = 20.0; angle_deg < 100.0; angle_deg += 0.5) {
        const VNotchCoefficients here = v_notch_coefficients(angle_deg * degree);
        const VNotchCoefficients next = v_notch_coefficients((angle_deg + 0.5) * degree);
        EXPECT_NEAR(next.effective, here.effective, 0.0004) << angle_deg;
        EXPECT_NEAR(next.head_add_m, here.head_add_m, 0.00004) << angle_deg;
    }
    EXPECT_EQ(v_notch_coefficients(10.0 * degree).effective, 0.590);
    EXPECT_EQ(v_notch_coefficients(120.0 * degree).effective, 0.580);
    EXPECT_EQ(rectangular_coefficients(-1.0).a, 0.587);
    EXPECT_EQ(rectangular_coefficients(2.0).a, 0.602);
}

} // namespace
} // namespace rillmark
