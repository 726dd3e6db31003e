// SPDX-License-Identifier: GPL-3.0-or-later
#include "levelling/height_network.h"

#include "checks/checks.h"
#include "networks.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <limits>

using namespace rillmark;
using namespace rillmark::networks;

namespace {

const double kNan = std::numeric_limits<double>::quiet_NaN();
const double kInf = std::numeric_limits<double>::infinity();

std::vector<HeightDifference> observed(const nlohmann::json& rows, const std::vector<double>& u_m) {
    std::vector<HeightDifference> all;
    for (std::size_t i = 0; i < rows.size(); ++i)
        all.push_back(difference(static_cast<std::int64_t>(i) + 1, rows[i][0], rows[i][1], rows[i][2], u_m[i]));
    return all;
}

std::string refused(const std::vector<HeightDifference>& differences, const std::vector<KnownHeight>& known = {},
                    const AdjustOptions& options = {}) {
    const auto network = adjust(differences, known, options);
    return network ? "" : network.error().code;
}

bool has(const Findings& findings, const std::string& code) {
    return std::any_of(findings.begin(), findings.end(), [&](const Finding& f) { return f.code == code; });
}

/// A square with both diagonals, 2 mm each, without contradiction.
std::vector<HeightDifference> square() {
    return {difference(1, "A", "B", 1.0, 0.002),  difference(2, "B", "C", 2.0, 0.002),
            difference(3, "C", "D", -4.0, 0.002), difference(4, "D", "A", 1.0, 0.002),
            difference(5, "A", "C", 3.0, 0.002),  difference(6, "B", "D", -2.0, 0.002)};
}

} // namespace

TEST(HeightNetwork, Ghilani12_1) {
    const auto check = checks::entry("levelling", "lsq-ghilani-12-1");
    const auto& expected = check.at("expected");
    const auto network = adjust(observed(check.at("inputs").at("obs_from_to_dh_m"), check.at("inputs").at("sigma_m")),
                                {fixed("A", check.at("inputs").at("fixed").at("A"))});
    ASSERT_TRUE(network);
    const std::vector<double> apriori_mm = expected.at("sigma_height_mm_computed_apriori");
    const std::vector<double> with_s0_mm = expected.at("sigma_height_mm_computed_with_s0");
    ASSERT_TRUE(network->global_test());
    const GlobalTest& test = *network->global_test();
    const char* points[] = {"B", "C", "D"};
    for (std::size_t i = 0; i < 3; ++i) {
        const Estimate height = network->height(points[i]).value();
        EXPECT_NEAR(height.value, expected.at("adjusted_m").at(points[i]), check.at("tolerance").at("height_m"));
        // printed to 0.01 mm
        EXPECT_NEAR(height.standard_uncertainty * 1000.0, apriori_mm[i], 0.0051);
        EXPECT_NEAR(height.standard_uncertainty * test.s0() * 1000.0, with_s0_mm[i], 0.0051);
    }
    EXPECT_NEAR(test.value, expected.at("vWv_printed"), check.at("tolerance").at("vWv"));
    EXPECT_NEAR(test.value, expected.at("vWv_computed"), 5e-6);
    EXPECT_EQ(test.degrees_of_freedom, expected.at("redundancy"));
    EXPECT_NEAR(test.s0(), expected.at("s0_computed"), 5e-5);
    EXPECT_TRUE(test.passes());
    const std::vector<double> residuals_mm = expected.at("residuals_mm_computed");
    for (std::size_t i = 0; i < residuals_mm.size(); ++i)
        EXPECT_NEAR(network->observations()[i].residual_m * 1000.0, residuals_mm[i], 0.0051);
    EXPECT_TRUE(network->findings().empty());
}

TEST(HeightNetwork, TwoPointsFromFourBenchMarks) {
    const auto check = checks::entry("levelling", "lsq-two-points");
    const auto& in = check.at("inputs");
    const auto& expected = check.at("expected");
    std::vector<double> u_m;
    for (const double variance_cm2 : in.at("variance_cm2").get<std::vector<double>>())
        u_m.push_back(std::sqrt(variance_cm2) / 100.0);
    std::vector<KnownHeight> known;
    for (const auto& [point, height] : in.at("fixed_m").items())
        known.push_back(fixed(point, height));
    const auto network = adjust(observed(in.at("obs_from_to_dh_m"), u_m), known);
    ASSERT_TRUE(network);
    const double tolerance = check.at("tolerance").at("abs_m");
    const double s0 = network->global_test().value().s0();
    EXPECT_NEAR(s0, expected.at("s0_computed"), 1e-4);
    for (const std::size_t i : {0U, 1U}) {
        const char* point = i == 0 ? "P1" : "P2";
        const Estimate height = network->height(point).value();
        EXPECT_NEAR(height.value, expected.at("adjusted_m_computed").at(point), tolerance);
        EXPECT_NEAR(height.standard_uncertainty, expected.at("sigma_apriori_m")[i], tolerance);
        EXPECT_NEAR(height.standard_uncertainty * s0, expected.at("sigma_scaled_m")[i], tolerance);
    }
    EXPECT_FALSE(network->global_test()->passes()); // the exam's data contradict themselves
    EXPECT_TRUE(has(network->findings(), "levels.network_test_failed"));
}

TEST(HeightNetwork, GrossErrorFailsTheTestAndIsFound) {
    std::vector<HeightDifference> differences = square();
    differences[4].rise_m += 0.1;
    const auto network = adjust(differences);
    ASSERT_TRUE(network);
    EXPECT_FALSE(network->global_test()->passes());
    const auto& observations = network->observations();
    const auto worst = std::max_element(observations.begin(), observations.end(), [](const auto& a, const auto& b) {
        return std::abs(a.normalised_residual.value()) < std::abs(b.normalised_residual.value());
    });
    EXPECT_EQ(worst->id, 5);
    EXPECT_TRUE(worst->outlier);
    const auto finding = std::find_if(network->findings().begin(), network->findings().end(),
                                      [](const Finding& f) { return f.code == "levels.observation_outlier"; });
    ASSERT_NE(finding, network->findings().end());
    EXPECT_EQ(finding->where, "A-C");
    EXPECT_EQ(std::get<std::int64_t>(finding->args.at(0).value), 5);
}

TEST(HeightNetwork, NothingRedundantMeansNothingChecked) {
    const auto network = adjust({difference(1, "A", "B", -3.0, 0.002), difference(2, "B", "C", -4.0, 0.003)});
    ASSERT_TRUE(network);
    EXPECT_FALSE(network->global_test());
    for (const AdjustedObservation& o : network->observations()) {
        EXPECT_NEAR(o.redundancy, 0.0, 1e-9);
        EXPECT_FALSE(o.normalised_residual);
        EXPECT_FALSE(o.outlier);
    }
    const Estimate head = network->difference("C", "A").value();
    EXPECT_NEAR(head.value, 7.0, 1e-12);
    EXPECT_NEAR(head.standard_uncertainty, std::hypot(0.002, 0.003), 1e-12);
}

TEST(HeightNetwork, DatumIsTheFirstPointOrTheOneNamed) {
    const auto first = adjust(square());
    const auto named = adjust(square(), {}, {.datum_point = "C"});
    ASSERT_TRUE(first && named);
    EXPECT_EQ(first->height("A")->value, 0.0);
    EXPECT_EQ(first->height("A")->standard_uncertainty, 0.0);
    EXPECT_EQ(named->height("C")->value, 0.0);
    EXPECT_EQ(first->heights().front().point, "A");
    for (const PointHeight& h : first->heights()) {
        EXPECT_NEAR(h.height.value - named->height(h.point)->value, 3.0, kAdjustmentError_m);
        EXPECT_NEAR(first->difference(h.point, "D")->standard_uncertainty,
                    named->difference(h.point, "D")->standard_uncertainty, 1e-12);
    }
}

TEST(HeightNetwork, KnownHeightWithUncertaintyCarriesTheDatum) {
    const std::vector<HeightDifference> line{difference(1, "A", "B", -30.0, 0.004)};
    const auto network = adjust(line, {{"A", {400.0, 3.0}, false}, {"B", {372.0, 4.0}, false}});
    ASSERT_TRUE(network);
    // By hand: A from B is 402 +/- 4; weighted mean of 400 (1/9) and 402 (1/16) is 400.72, u = 2.4.
    EXPECT_NEAR(network->height("A")->value, 400.72, 1e-5);
    EXPECT_NEAR(network->height("A")->standard_uncertainty, 2.4, 1e-5);
    EXPECT_NEAR(network->difference("B", "A")->value, 30.0, 1e-5);
    EXPECT_NEAR(network->difference("B", "A")->standard_uncertainty, 0.004, 1e-8);
    ASSERT_EQ(network->observations().size(), 3U);
    EXPECT_EQ(network->observations()[1].id, 0);
    EXPECT_EQ(network->observations()[1].subject, "A");
}

TEST(HeightNetwork, HeightsOfAReceiverAloneMakeANetwork) {
    const auto network = adjust({}, {{"A", {400.0, 3.0}, false}, {"B", {372.0, 4.0}, false}});
    ASSERT_TRUE(network);
    EXPECT_NEAR(network->difference("B", "A")->value, 28.0, 1e-12);
    EXPECT_NEAR(network->difference("B", "A")->standard_uncertainty, 5.0, 1e-12);
}

TEST(HeightNetwork, PoorDatumDoesNotSpoilFineDifferences) {
    // 300 levelled points (2 mm) that hang on one receiver height of 10 m, against the same with a fixed datum.
    std::vector<HeightDifference> line;
    for (int i = 0; i < 300; ++i)
        line.push_back(difference(i + 1, "P" + std::to_string(i), "P" + std::to_string(i + 1), -0.5, 0.002));
    line.push_back(difference(301, "P0", "P300", -150.003, 0.010));
    const auto poor = adjust(line, {{"P150", {325.0, 10.0}, false}});
    const auto fine = adjust(line, {fixed("P150", 325.0)});
    ASSERT_TRUE(poor && fine);
    const auto poor_falls = poor->falls_below("P0").value();
    const auto fine_falls = fine->falls_below("P0").value();
    ASSERT_EQ(poor_falls.size(), 301U);
    ASSERT_EQ(fine_falls.size(), 301U);
    for (std::size_t i = 1; i < fine_falls.size(); ++i) {
        EXPECT_NEAR(poor_falls[i].height.value, fine_falls[i].height.value, kAdjustmentError_m);
        EXPECT_NEAR(poor_falls[i].height.standard_uncertainty / fine_falls[i].height.standard_uncertainty, 1.0, 1e-5);
    }
    for (std::size_t i = 0; i < line.size(); ++i)
        EXPECT_NEAR(poor->observations()[i].redundancy, fine->observations()[i].redundancy, 1e-6);
    EXPECT_FALSE(poor->observations().back().normalised_residual); // the receiver height is checked by nothing
}

TEST(HeightNetwork, UnconnectedPointsAreNamedAndTheRestStands) {
    std::vector<HeightDifference> differences = square();
    differences.push_back(difference(7, "X", "Y", 5.0, 0.003));
    const auto network = adjust(differences, {fixed("A", 100.0)});
    ASSERT_TRUE(network);
    ASSERT_EQ(network->unconnected().size(), 1U);
    EXPECT_EQ(network->unconnected()[0], (std::vector<std::string>{"X", "Y"}));
    EXPECT_TRUE(has(network->findings(), "levels.network_unconnected"));
    EXPECT_EQ(network->heights().size(), 4U);
    EXPECT_FALSE(network->height("X"));
    EXPECT_NEAR(network->height("C")->value, 103.0, kAdjustmentError_m);
    EXPECT_NEAR(network->difference("X", "Y")->value, 5.0, 1e-12);
    EXPECT_NEAR(network->difference("X", "Y")->standard_uncertainty, 0.003, 1e-12);
    EXPECT_EQ(network->difference("X", "A").error().code, "levels.points_not_joined");
    EXPECT_EQ(network->difference("X", "nowhere").error().code, "levels.point_unknown");
    EXPECT_EQ(network->difference_budget("nowhere", "A").error().code, "levels.point_unknown");
    EXPECT_EQ(network->falls_below("nowhere").error().code, "levels.point_unknown");
    EXPECT_EQ(network->falls_below("A")->size(), 4U);
    ASSERT_EQ(network->falls_below("Y")->size(), 2U);
    EXPECT_NEAR(network->falls_below("Y")->front().height.value, 5.0, 1e-12);
}

TEST(HeightNetwork, BudgetNamesTheReadingToRepeat) {
    const std::vector<HeightDifference> line{difference(11, "A", "B", -3.0, 0.002),
                                             difference(12, "B", "C", -4.0, 0.006),
                                             difference(13, "C", "D", -1.0, 0.001)};
    const auto network = adjust(line);
    ASSERT_TRUE(network);
    const auto budget = network->difference_budget("C", "A");
    ASSERT_TRUE(budget);
    ASSERT_EQ(budget->ids, (std::vector<std::int64_t>{12, 11})); // C-D has no part in it
    EXPECT_NEAR(budget->budget[0].contribution, 0.006, 1e-12);
    EXPECT_NEAR(budget->budget[0].share, 0.9, 1e-9);
    EXPECT_EQ(budget->budget[0].input, "levels.staff_reading");
    EXPECT_EQ(budget->budget[0].subject, "B-C");
    EXPECT_TRUE(network->difference_budget("A", "A")->budget.empty());
    EXPECT_EQ(network->difference("A", "A")->standard_uncertainty, 0.0);
}

TEST(HeightNetwork, TwoFixedPointsCheckTheLineBetweenThem) {
    const auto network = adjust({difference(1, "A", "B", 1.010, 0.003)}, {fixed("A", 10.0), fixed("B", 11.0)});
    ASSERT_TRUE(network);
    EXPECT_NEAR(network->observations()[0].residual_m, -0.010, 1e-12);
    EXPECT_NEAR(network->observations()[0].redundancy, 1.0, 1e-12);
    EXPECT_TRUE(network->observations()[0].outlier);
    EXPECT_EQ(network->global_test()->degrees_of_freedom, 1U);
    EXPECT_EQ(network->difference("A", "B")->standard_uncertainty, 0.0);
}

TEST(HeightNetwork, DuplicateObservationsCountTwice) {
    const auto network = adjust({difference(1, "A", "B", 1.0, 0.002), difference(1, "A", "B", 1.002, 0.002)});
    ASSERT_TRUE(network);
    EXPECT_NEAR(network->height("B")->value, 1.001, 1e-12);
    EXPECT_NEAR(network->height("B")->standard_uncertainty, 0.002 / std::sqrt(2.0), 1e-12);
    EXPECT_NEAR(network->observations()[0].redundancy, 0.5, 1e-9);
}

TEST(HeightNetwork, Refusals) {
    EXPECT_EQ(refused({}), "levels.network_empty");
    for (const double rise : {kNan, kInf, -kInf, 1e300, 10000.1}) {
        EXPECT_EQ(refused({difference(1, "A", "B", rise, 0.01)}), "levels.rise_impossible") << rise;
        EXPECT_EQ(refused({}, {fixed("A", rise)}), "levels.rise_impossible") << rise;
    }
    for (const double u : {0.0, -0.001, kNan, kInf, -kInf}) {
        EXPECT_EQ(refused({difference(1, "A", "B", 1.0, u)}), "levels.uncertainty_impossible") << u;
        EXPECT_EQ(refused({}, {{"A", {1.0, u}, false}}), "levels.uncertainty_impossible") << u;
    }
    EXPECT_EQ(refused({difference(1, "A", "B", 1.0, 1e-5), difference(2, "B", "C", 1.0, 11.0)}),
              "levels.uncertainties_too_far_apart");
    EXPECT_EQ(refused({difference(1, "A", "B", 1.0, 1e-5), difference(2, "B", "C", 1.0, 9.9)}), "");
    EXPECT_EQ(refused({difference(1, "A", "A", 0.0, 0.01)}), "levels.same_point");
    EXPECT_EQ(refused({difference(1, "", "A", 0.0, 0.01)}), "levels.point_unnamed");
    EXPECT_EQ(refused({difference(1, "A", "", 0.0, 0.01)}), "levels.point_unnamed");
    EXPECT_EQ(refused({}, {fixed("", 1.0)}), "levels.point_unnamed");
    EXPECT_EQ(refused(square(), {fixed("A", 1.0), fixed("A", 2.0)}), "levels.known_heights_differ");
    EXPECT_EQ(refused(square(), {fixed("A", 1.0), fixed("A", 1.0)}), "");
    EXPECT_EQ(refused(square(), {}, {.datum_point = "nowhere"}), "levels.point_unknown");
}

TEST(HeightNetwork, WorstRatioOfUncertaintiesIsStillSolved) {
    const auto network = adjust(
        {difference(1, "A", "B", 1.0, 1e-5), difference(2, "B", "C", 1.0, 10.0), difference(3, "A", "C", 2.5, 10.0)});
    ASSERT_TRUE(network);
    EXPECT_NEAR(network->difference("A", "B")->value, 1.0, kAdjustmentError_m);
    EXPECT_NEAR(network->difference("A", "B")->standard_uncertainty, 1e-5, 1e-10);
    EXPECT_NEAR(network->difference("A", "C")->value, 2.25, 1e-6);
    EXPECT_NEAR(network->difference("A", "C")->standard_uncertainty, 10.0 / std::sqrt(2.0), 1e-6);
}
