// SPDX-License-Identifier: GPL-3.0-or-later
#include "flow/thin_plate_weir.h"

#include "checks/checks.h"
#include "checks/coverage.h"
#include "flow/weir_formulas.h"
#include "flow_fixtures.h"
#include "structures_fixtures.h"
#include "units/units.h"

#include <string>

namespace rillmark {
namespace {

using flow_fixtures::find_code;
using flow_fixtures::has_code;
using flow_fixtures::kInfinity;
using flow_fixtures::kNaN;
using flow_fixtures::number_arg;
using structures_fixtures::heads;

constexpr double kDegree = std::numbers::pi / 180.0;
const double kFoot_m = find_unit(Quantity::Length, "ft")->factor;
const double kCubicFoot_m3 = kFoot_m * kFoot_m * kFoot_m;

void expect_close(double value, double expected, double relative) {
    EXPECT_NEAR(value, expected, relative * std::abs(expected));
}

ThinPlateWeir v_notch(double angle_deg) {
    return {WeirShape::VNotch, angle_deg * kDegree, {}, 0.6, 2.0, 2.0};
}

ThinPlateWeir rectangular(double length_m, double width_m, double height_m) {
    return {WeirShape::Rectangular, {}, length_m, height_m, width_m, 2.0};
}

ThinPlateWeir cipolletti(double length_m) {
    return {WeirShape::Cipolletti, {}, length_m, 0.6, 3.0, 2.0};
}

double flow_of(const ThinPlateWeir& weir, double head_m, const WeirOptions& options = {}) {
    const auto result = thin_plate_weir(weir, heads({head_m}), options);
    EXPECT_TRUE(result.ok()) << (result.ok() ? "" : result.error().code);
    return result.ok() ? result->flow.discharge.estimate.value : kNaN;
}

TEST(WeirChecks, NinetyDegreeNotch) {
    const auto check = checks::entry("flow_structures", "weir-v90-kindsvater-shen");
    const std::vector<double> head_m = check["inputs"]["head_m"];
    for (std::size_t i = 0; i < head_m.size(); ++i)
        expect_close(1000.0 * flow_of(v_notch(90.0), head_m[i]), check["expected"]["discharge_L_s"][i],
                     check["tolerance"]["relative"]);
}

// The table is from memory, unconfirmed.
TEST(WeirChecks, NinetyDegreeNotchAgreesWithTheTable) {
    const auto check = checks::entry("flow_structures", "weir-v90-iso-table");
    const std::vector<double> head_m = check["inputs"]["head_m"];
    for (std::size_t i = 0; i < head_m.size(); ++i)
        expect_close(1000.0 * flow_of(v_notch(90.0), head_m[i]), check["expected"]["discharge_L_s"][i],
                     check["tolerance"]["relative"]);
}

TEST(WeirChecks, AnyAngle) {
    const auto check = checks::entry("flow_structures", "weir-v-any-angle");
    const std::vector<double> angle_deg = check["inputs"]["angle_deg"];
    for (std::size_t i = 0; i < angle_deg.size(); ++i)
        expect_close(1000.0 * flow_of(v_notch(angle_deg[i]), check["inputs"]["head_m"]),
                     check["expected"]["discharge_L_s"][i], check["tolerance"]["relative"]);
}

// The formula in feet is from memory, unconfirmed; its entry says that the two agree within 0.8 %.
TEST(WeirChecks, NinetyDegreeNotchAgreesWithTheFormulaInFeet) {
    const auto check = checks::entry("flow_structures", "weir-v90-usbr");
    const std::vector<double> head_ft = check["inputs"]["head_ft"];
    for (std::size_t i = 0; i < head_ft.size(); ++i)
        expect_close(flow_of(v_notch(90.0), head_ft[i] * kFoot_m) / kCubicFoot_m3,
                     check["expected"]["discharge_ft3_s"][i], 0.008);
}

TEST(WeirChecks, CurvesFittedToTheFiguresAgree) {
    const auto check = checks::entry("flow_structures", "weir-v-kshen-polynomial");
    const std::vector<double> head_m = check["inputs"]["head_m"];
    for (const auto& [angle, flows] : check["expected"]["discharge_L_s"].items()) {
        // the entry says 0.35 % for the angles of the table, which is 0.353 % before rounding; between the lines of the
        // table straight lines leave the curve by a little more
        const double relative = angle == "60" || angle == "90" || angle == "100" ? 0.00355 : 0.007;
        for (std::size_t i = 0; i < head_m.size(); ++i)
            expect_close(1000.0 * flow_of(v_notch(std::stod(angle)), head_m[i]), flows[i], relative);
    }
}

// Rough forms: the entry gives their bias against Kindsvater-Shen, which this reproduces.
TEST(WeirChecks, BiasOfTheSimpleForms) {
    const auto check = checks::entry("flow_structures", "weir-v-simple-forms");
    const std::vector<double> head_m = check["inputs"]["head_m"];
    for (std::size_t i = 0; i < head_m.size(); ++i) {
        const double simple = check["expected"]["q90_L_s"][i];
        const double bias_pct = 100.0 * (simple / (1000.0 * flow_of(v_notch(90.0), head_m[i])) - 1.0);
        EXPECT_NEAR(bias_pct, check["expected"]["q90_bias_vs_kindsvater_shen_pct"][i].get<double>(),
                    check["tolerance"]["bias"]["abs"].get<double>());
    }
}

// The printed tables claim 2 to 5 %. The entry says that Kindsvater-Shen gives 2 to 3 % more at these heads: so at 60
// degrees; at 45 degrees and the least head it gives 5.7 % more, and the curves fitted to the figures 5.6 %.
TEST(WeirChecks, PrintedTablesForSixtyAndFortyFiveDegrees) {
    const auto check = checks::entry("flow_structures", "weir-v-60-45-table");
    const std::vector<double> head_ft = check["inputs"]["head_ft"];
    for (const double angle_deg : {60.0, 45.0})
        for (std::size_t i = 0; i < head_ft.size(); ++i) {
            const double printed = check["expected"][angle_deg == 60.0 ? "deg60_ft3_s" : "deg45_ft3_s"][i];
            const double ours = flow_of(v_notch(angle_deg), head_ft[i] * kFoot_m) / kCubicFoot_m3;
            EXPECT_GT(ours / printed, 1.01) << angle_deg << " at " << head_ft[i];
            EXPECT_LT(ours / printed, angle_deg == 60.0 ? 1.035 : 1.058) << angle_deg << " at " << head_ft[i];
        }
}

TEST(WeirChecks, LimitsOfTheNotch) {
    const auto out = checks::entry("flow_structures", "weir-v-limits-usbr")["expected"];
    EXPECT_EQ(kVNotchLeastAngle_deg, out["angle_min_deg"].get<double>());
    expect_close(kVNotchLeastHead_m, out["min_head_m"], 0.02);
    expect_close(kVNotchGreatestHead_m / kFoot_m, out["max_head_ft"], 0.01); // from memory, unconfirmed
    expect_close(kFreeNappeDrop_m / kFoot_m, out["downstream_level_below_notch_ft"], 0.02);
}

// kb is from memory, unconfirmed.
TEST(WeirChecks, RectangularByContraction) {
    const auto check = checks::entry("flow_structures", "weir-rect-contracted-kc");
    const auto& in = check["inputs"];
    const double length_m = in["width_m"];
    for (const auto& [ratio, flow_L_s] : check["expected"]["discharge_L_s"].items()) {
        const double b_over_width = std::stod(ratio);
        const RectangularNotch notch{length_m, b_over_width > 0.0 ? length_m / b_over_width : 1e12,
                                     in["crest_height_m"]};
        expect_close(1000.0 * rectangular_notch_m3s(notch, in["head_m"], in["g_m_s2"]), flow_L_s,
                     check["tolerance"]["relative"]);
        if (b_over_width > 0.0)
            expect_close(
                1000.0 * flow_of(rectangular(length_m, length_m / b_over_width, in["crest_height_m"]), in["head_m"]),
                flow_L_s, check["tolerance"]["relative"]);
    }
}

// Other formulas of the trade, within the coefficient's own uncertainty (k = 2).
TEST(WeirChecks, OtherRectangularFormulasAgree) {
    const double relative = kCoverageFactor * kRectangularCoefficient_u_rel;
    const auto rehbock = checks::entry("flow_structures", "weir-rect-suppressed-rehbock");
    const double width_m = rehbock["inputs"]["width_m"];
    expect_close(
        flow_of(rectangular(width_m, width_m, rehbock["inputs"]["crest_height_m"]), rehbock["inputs"]["head_m"]),
        rehbock["expected"]["discharge_m3_s"], relative);
    const auto francis = checks::entry("flow_structures", "weir-rect-francis");
    const double length_m = francis["inputs"]["crest_length_ft"].get<double>() * kFoot_m;
    const std::vector<double> head_ft = francis["inputs"]["head_ft"];
    for (std::size_t i = 0; i < head_ft.size(); ++i)
        expect_close(flow_of(rectangular(length_m, 20.0, 2.0), head_ft[i] * kFoot_m) / kCubicFoot_m3,
                     francis["expected"]["discharge_ft3_s"][i], relative);
    const auto simple = checks::entry("flow_structures", "weir-rect-simple-mu06");
    const std::vector<double> head_cm = simple["inputs"]["head_cm"];
    for (std::size_t i = 1; i < head_cm.size(); ++i) { // the first is printed to one digit
        const double printed_L_s = simple["expected"]["discharge_L_s"][i];
        EXPECT_NEAR(1000.0 * flow_of(rectangular(0.5, 10.0, 2.0), head_cm[i] / 100.0), printed_L_s,
                    relative * printed_L_s + simple["tolerance"]["abs"].get<double>());
    }
}

TEST(WeirChecks, Cipolletti) {
    const auto check = checks::entry("flow_structures", "weir-cipolletti");
    const double relative = check["tolerance"]["relative"];
    const double length_m = check["inputs"]["crest_length_ft"].get<double>() * kFoot_m;
    const std::vector<double> head_ft = check["inputs"]["head_ft"];
    for (std::size_t i = 0; i < head_ft.size(); ++i)
        expect_close(flow_of(cipolletti(length_m), head_ft[i] * kFoot_m) / kCubicFoot_m3,
                     check["expected"]["discharge_ft3_s"][i], relative);
    expect_close(cipolletti_m3s(1.0, 1.0), check["expected"]["metric_constant_m05_s"], relative);
}

TEST(WeirChecks, Villemonte) {
    const auto check = checks::entry("flow_structures", "weir-submergence-villemonte");
    const std::vector<double> ratio = check["inputs"]["ratio_h2_h1"];
    for (std::size_t i = 0; i < ratio.size(); ++i) {
        WeirOptions options;
        options.tailwater_m = ratio[i] * 0.2;
        expect_close(flow_of(v_notch(60.0), 0.2, options) / flow_of(v_notch(60.0), 0.2),
                     check["expected"]["v_notch"][i], check["tolerance"]["relative"]);
        expect_close(flow_of(cipolletti(1.0), 0.2, options) / flow_of(cipolletti(1.0), 0.2),
                     check["expected"]["rect"][i], check["tolerance"]["relative"]);
    }
    const auto exponents = checks::entry("flow_structures", "weir-villemonte-exponents");
    const std::vector<double> ratios = exponents["inputs"]["ratio"];
    for (const auto& [shape, n] : exponents["inputs"]["n"].items())
        for (std::size_t i = 0; i < ratios.size(); ++i)
            expect_close(villemonte_factor(ratios[i], n), exponents["expected"]["factor"][shape][i],
                         exponents["tolerance"]["relative"]);
}

TEST(WeirChecks, ErrorOfTheHead) {
    const auto check = checks::entry("flow_structures", "weir-head-error");
    WeirOptions options;
    options.gauge.reading_u_m = check["inputs"]["head_error_m"];
    const double head_m = check["inputs"]["head_m"];
    for (const bool notch : {true, false}) {
        const auto result = thin_plate_weir(notch ? v_notch(90.0) : cipolletti(1.0), heads({head_m}), options);
        ASSERT_TRUE(result.ok());
        const auto& budget = result->flow.discharge.budget;
        const auto line = std::ranges::find(budget, "flow.head_reading", &BudgetLine::input);
        ASSERT_NE(line, budget.end());
        // the entry leaves out kh, 0.9 % of this head, and second-order terms
        expect_close(100.0 * line->contribution / result->flow.discharge.estimate.value,
                     check["expected"][notch ? "v_pct" : "rect_pct"], 0.01);
    }
}

TEST(ThinPlateWeir, ZeroOfTheGaugeAndOrderDoNotMatter) {
    const auto plain = thin_plate_weir(v_notch(90.0), heads({0.151, 0.149, 0.150}));
    WeirOptions shifted;
    shifted.gauge.zero_m = 7.25;
    const auto moved = thin_plate_weir(v_notch(90.0), heads({7.400, 7.401, 7.399}), shifted);
    ASSERT_TRUE(plain.ok() && moved.ok());
    EXPECT_EQ(plain->flow.method, FlowMethod::Weir);
    expect_close(moved->flow.discharge.estimate.value, plain->flow.discharge.estimate.value, 1e-9);
    expect_close(moved->flow.discharge.estimate.standard_uncertainty,
                 plain->flow.discharge.estimate.standard_uncertainty, 1e-5);
    EXPECT_NEAR(structures_fixtures::share_sum(plain->flow.discharge), 1.0, 1e-12);
    EXPECT_FALSE(has_code(plain->flow.findings, "flow.few_heads"));
}

TEST(ThinPlateWeir, FlowRisesWithHeadAndFallsWithTailwater) {
    for (const ThinPlateWeir& weir :
         {v_notch(53.13), rectangular(0.5, 1.0, 0.3), rectangular(1.0, 1.0, 0.3), cipolletti(1.0)}) {
        double before = 0.0;
        for (double head_m = 0.03; head_m < 0.4; head_m += 0.01) {
            const double now = flow_of(weir, head_m);
            EXPECT_GT(now, before);
            before = now;
        }
        before = flow_of(weir, 0.2);
        for (double tailwater_m = 0.01; tailwater_m < 0.19; tailwater_m += 0.02) {
            WeirOptions options;
            options.tailwater_m = tailwater_m;
            const double now = flow_of(weir, 0.2, options);
            EXPECT_LT(now, before);
            before = now;
        }
    }
}

TEST(ThinPlateWeir, StruckReadingsAreNotLookedAt) {
    auto readings = heads({0.150, kNaN});
    readings[1].struck = true;
    const auto result = thin_plate_weir(v_notch(90.0), readings);
    ASSERT_TRUE(result.ok());
    EXPECT_EQ(result->head_m, 0.150);
}

TEST(ThinPlateWeir, Limits) {
    const auto codes = [](const ThinPlateWeir& weir, double head_m, std::optional<double> tailwater_m = -0.3) {
        WeirOptions options;
        options.tailwater_m = tailwater_m;
        const auto result = thin_plate_weir(weir, heads({head_m, head_m, head_m}), options);
        EXPECT_TRUE(result.ok());
        return result.value_or({}).flow.findings;
    };
    EXPECT_TRUE(codes(v_notch(90.0), 0.2).empty());
    EXPECT_TRUE(has_code(codes(v_notch(22.0), 0.2), "flow.weir_angle_low"));
    EXPECT_TRUE(has_code(codes(v_notch(90.0), 0.05), "flow.weir_head_low"));
    EXPECT_TRUE(has_code(codes(v_notch(90.0), 0.39), "flow.weir_head_high"));
    EXPECT_TRUE(has_code(codes(v_notch(90.0), 0.25), "flow.weir_head_over_height"));
    EXPECT_TRUE(has_code(codes(v_notch(90.0), 0.2, 0.01), "flow.weir_submerged"));
    EXPECT_TRUE(has_code(codes(v_notch(90.0), 0.2, -0.05), "flow.weir_tailwater_near"));
    EXPECT_TRUE(has_code(codes(v_notch(90.0), 0.2, std::nullopt), "flow.weir_tailwater_unknown"));
    ThinPlateWeir near = v_notch(90.0);
    near.gauge_distance_m = 0.5;
    near.approach_width_m = 0.8;
    EXPECT_TRUE(has_code(codes(near, 0.2), "flow.weir_gauge_near"));
    EXPECT_TRUE(has_code(codes(near, 0.2), "flow.weir_approach_narrow"));
    EXPECT_TRUE(has_code(codes(near, 0.2), "flow.weir_head_over_width"));
    near.crest_height_m.reset();
    EXPECT_TRUE(has_code(codes(near, 0.2), "flow.weir_approach_unknown"));
    EXPECT_TRUE(codes(rectangular(0.5, 1.0, 0.3), 0.2).empty());
    EXPECT_TRUE(has_code(codes(rectangular(0.1, 1.0, 0.09), 0.02), "flow.weir_crest_short"));
    EXPECT_TRUE(has_code(codes(rectangular(0.1, 1.0, 0.09), 0.02), "flow.weir_crest_low"));
    EXPECT_TRUE(has_code(codes(rectangular(0.1, 1.0, 0.09), 0.02), "flow.weir_head_low"));
    EXPECT_TRUE(has_code(codes(rectangular(0.5, 1.0, 0.11), 0.23), "flow.weir_head_over_height"));
    EXPECT_TRUE(has_code(codes(cipolletti(0.5), 0.2), "flow.weir_head_over_length"));
}

TEST(ThinPlateWeir, UnsteadyWaterIsSaidAndEnlargesTheUncertainty) {
    const auto steady = thin_plate_weir(v_notch(90.0), heads({0.20, 0.20, 0.20}));
    const auto rising = thin_plate_weir(v_notch(90.0), heads({0.19, 0.20, 0.21}));
    ASSERT_TRUE(steady.ok() && rising.ok());
    EXPECT_TRUE(has_code(rising->flow.findings, "flow.heads_scatter"));
    EXPECT_GT(rising->flow.discharge.estimate.standard_uncertainty,
              3.0 * steady->flow.discharge.estimate.standard_uncertainty);
}

TEST(ThinPlateWeir, BadInput) {
    const auto refused = [](const ThinPlateWeir& weir, const std::vector<double>& head_m,
                            const WeirOptions& options = {}) {
        const auto result = thin_plate_weir(weir, heads(head_m), options);
        EXPECT_FALSE(result.ok());
        return result.ok() ? std::string() : result.error().code;
    };
    EXPECT_EQ(refused(v_notch(90.0), {}), "flow.no_heads");
    for (const double bad : {kNaN, kInfinity, -kInfinity, 1e9})
        EXPECT_EQ(refused(v_notch(90.0), {0.2, bad}), "flow.bad_head");
    EXPECT_EQ(refused(v_notch(90.0), {0.0}), "flow.head_not_positive");
    EXPECT_EQ(refused(v_notch(90.0), {-0.1}), "flow.head_not_positive");
    for (const double bad : {19.0, 101.0, kNaN, -90.0})
        EXPECT_EQ(refused(v_notch(bad), {0.2}), "flow.bad_option");
    EXPECT_EQ(refused({WeirShape::VNotch, {}, {}, {}, {}, {}}, {0.2}), "flow.weir_incomplete");
    EXPECT_EQ(refused({WeirShape::Cipolletti, {}, {}, {}, {}, {}}, {0.2}), "flow.weir_incomplete");
    EXPECT_EQ(refused({WeirShape::Rectangular, {}, 0.5, {}, 1.0, {}}, {0.2}), "flow.weir_incomplete");
    EXPECT_EQ(refused({WeirShape::Rectangular, {}, 0.5, 0.3, {}, {}}, {0.2}), "flow.weir_incomplete");
    EXPECT_EQ(refused(rectangular(0.5, 0.4, 0.3), {0.2}), "flow.weir_approach_too_narrow");
    EXPECT_EQ(refused(rectangular(0.5, kNaN, 0.3), {0.2}), "flow.bad_option");
    WeirOptions options;
    options.tailwater_m = 0.195;
    EXPECT_EQ(refused(v_notch(90.0), {0.2}, options), "flow.weir_drowned");
    options = {};
    options.gauge.zero_u_m = -0.001;
    EXPECT_EQ(refused(v_notch(90.0), {0.2}, options), "flow.bad_option");
    options = {};
    options.gravity_ms2 = 32.2;
    EXPECT_EQ(refused(v_notch(90.0), {0.2}, options), "flow.bad_option");
}

// Every error that the budget has a line for, drawn from it: readings and measures about the truth, the coefficient's
// truth about the one taken.
TEST(ThinPlateWeir, ReportedUncertaintyCoversTheTruth) {
    for (const WeirShape shape : {WeirShape::VNotch, WeirShape::Rectangular, WeirShape::Cipolletti}) {
        for (const double tailwater_m : {-0.3, 0.05}) {
            checks::expect_coverage(4301, [&](checks::Errors& error) {
                const double head_m = 0.15;
                WeirOptions options;
                ThinPlateWeir truth = shape == WeirShape::VNotch        ? v_notch(70.0)
                                      : shape == WeirShape::Rectangular ? rectangular(0.5, 1.1, 0.3)
                                                                        : cipolletti(0.6);
                options.tailwater_m = tailwater_m;
                const double free = flow_of(truth, head_m);
                const double coefficient = shape == WeirShape::VNotch        ? kVNotchCoefficient_u_rel
                                           : shape == WeirShape::Rectangular ? kRectangularCoefficient_u_rel
                                                                             : kCipollettiCoefficient_u_rel;
                double factor = tailwater_m > 0.0 ? flow_of(truth, head_m, options) / free : 1.0;
                factor -= error.normal(kSubmergence_u_part) * (1.0 - factor);
                const double zero_m = error.normal(options.gauge.zero_u_m);
                std::vector<double> readings;
                for (int i = 0; i < 3; ++i)
                    readings.push_back(head_m + zero_m + error.normal(options.gauge.reading_u_m));
                ThinPlateWeir seen = truth;
                if (seen.notch_angle_rad)
                    *seen.notch_angle_rad += error.normal(options.angle_u_rad);
                if (seen.crest_length_m)
                    *seen.crest_length_m += error.normal(options.length_u_m);
                *seen.crest_height_m += error.normal(options.approach_u_m);
                *seen.approach_width_m += error.normal(options.approach_u_m);
                if (tailwater_m > 0.0)
                    *options.tailwater_m += error.normal(options.tailwater_u_m);
                const auto result = thin_plate_weir(seen, heads(readings), options);
                EXPECT_TRUE(result.ok());
                return checks::Simulated{free * factor * (1.0 + error.normal(coefficient)),
                                         result.value_or({}).flow.discharge.estimate};
            });
        }
    }
}

} // namespace
} // namespace rillmark
