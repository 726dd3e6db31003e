// SPDX-License-Identifier: GPL-3.0-or-later
#include "uncertainty/propagate.h"

#include "checks/checks.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <random>

namespace rillmark {
namespace {

constexpr double kNan = std::numeric_limits<double>::quiet_NaN();
constexpr double kInfinity = std::numeric_limits<double>::infinity();
constexpr double kWaterWeight = 1000.0 * 9.81; // N/m3, as the computed entries have it

/// Two agree within the relative tolerance that the entry gives for `key` ("all": for every one).
void expect_as_published(double ours, const nlohmann::json& check, const std::string& key, double unit = 1.0) {
    const double published = check.at("expected").at(key).get<double>() * unit;
    const nlohmann::json& tolerances = check.at("tolerance");
    const nlohmann::json& tolerance = tolerances.contains(key) ? tolerances.at(key) : tolerances.at("all");
    const double allowed = tolerance.contains("rel") ? tolerance.at("rel").get<double>() * std::abs(published)
                                                     : tolerance.at("abs").get<double>() * unit;
    EXPECT_NEAR(ours, published, allowed) << check.at("id") << " " << key;
}

double contribution(const Budgeted& result, const std::string& input) {
    for (const BudgetLine& line : result.budget)
        if (line.input == input)
            return line.contribution;
    ADD_FAILURE() << "no budget line " << input;
    return kNan;
}

double sum_of_shares(const Budgeted& result) {
    double sum = 0.0;
    for (const BudgetLine& line : result.budget)
        sum += line.share;
    return sum;
}

std::string refusal_code(const std::vector<ModelInput>& inputs, const Model& model,
                         const std::vector<Correlation>& correlations = {}) {
    const Expected<Budgeted> result = propagate(inputs, model, correlations);
    return result ? "accepted" : result.error().code;
}

double product(std::span<const double> x) {
    return x[0] * x[1];
}

TEST(Propagate, ProductOfPowersAsInGuidePart5) {
    const nlohmann::json check = checks::entry("uncertainty", "UN-01");
    const nlohmann::json& in = check.at("inputs");
    const double flow = in.at("Q_m3s");
    const double head = in.at("H_net_m");
    const double efficiency = in.at("eta");
    const std::vector<ModelInput> inputs{
        {"flow", "", {flow, flow * in.at("u_rel_Q").get<double>()}},
        {"head", "", {head, head * in.at("u_rel_H").get<double>()}},
        {"efficiency", "", {efficiency, efficiency * in.at("u_rel_eta").get<double>()}}};
    const Expected<Budgeted> power =
        propagate(inputs, [](std::span<const double> x) { return kWaterWeight * x[0] * x[1] * x[2]; });
    ASSERT_TRUE(power);
    const Estimate& p = power->estimate;
    expect_as_published(p.value, check, "P_kW", 1000.0);
    expect_as_published(p.standard_uncertainty, check, "u_P_kW", 1000.0);
    expect_as_published(p.standard_uncertainty / p.value, check, "u_rel_P");
    expect_as_published(p.expanded(), check, "U_k2_kW", 1000.0);
    EXPECT_NEAR(sum_of_shares(*power), 1.0, 1e-12);
    EXPECT_EQ(power->budget.back().input, "head") << "the smallest share comes last";
}

TEST(Propagate, CorrelatedInputsAsInGuideExampleH2) {
    const nlohmann::json check = checks::entry("uncertainty", "UN-02");
    const nlohmann::json& in = check.at("inputs");
    const std::vector<ModelInput> inputs{
        {"voltage", "", {in.at("V_V"), in.at("u_V")}},
        {"current", "", {in.at("I_mA").get<double>() / 1000.0, in.at("u_I_mA").get<double>() / 1000.0}},
        {"phase", "", {in.at("phi_rad"), in.at("u_phi")}}};
    const std::vector<Correlation> correlations{
        {0, 1, in.at("r_V_I")}, {0, 2, in.at("r_V_phi")}, {1, 2, in.at("r_I_phi")}};
    const auto resistance = propagate(
        inputs, [](std::span<const double> x) { return x[0] / x[1] * std::cos(x[2]); }, correlations);
    const auto reactance = propagate(
        inputs, [](std::span<const double> x) { return x[0] / x[1] * std::sin(x[2]); }, correlations);
    const auto impedance = propagate(
        inputs, [](std::span<const double> x) { return x[0] / x[1]; }, correlations);
    ASSERT_TRUE(resistance && reactance && impedance);
    expect_as_published(resistance->estimate.value, check, "R_ohm");
    expect_as_published(resistance->estimate.standard_uncertainty, check, "u_R");
    expect_as_published(reactance->estimate.value, check, "X_ohm");
    expect_as_published(reactance->estimate.standard_uncertainty, check, "u_X");
    expect_as_published(impedance->estimate.value, check, "Z_ohm");
    expect_as_published(impedance->estimate.standard_uncertainty, check, "u_Z");
    EXPECT_NEAR(sum_of_shares(*resistance), 1.0, 1e-12);
}

TEST(Propagate, AgreesWithMonteCarlo) {
    const nlohmann::json check = checks::entry("uncertainty", "UN-03");
    const nlohmann::json in = checks::entry("uncertainty", "UN-01").at("inputs");
    const auto seed = check.at("inputs").at("seed").get<unsigned>();
    const int trials = check.at("inputs").at("trials");
    SCOPED_TRACE("seed " + std::to_string(seed));
    std::mt19937_64 random(seed);
    std::normal_distribution<double> normal;
    const auto draw = [&](const char* value, const char* relative) {
        return in.at(value).get<double>() * (1.0 + in.at(relative).get<double>() * normal(random));
    };
    double sum = 0.0;
    double sum_of_squares = 0.0;
    for (int i = 0; i < trials; ++i) {
        const double power =
            kWaterWeight * draw("Q_m3s", "u_rel_Q") * draw("H_net_m", "u_rel_H") * draw("eta", "u_rel_eta");
        sum += power;
        sum_of_squares += power * power;
    }
    const double mean = sum / trials;
    expect_as_published(std::sqrt(sum_of_squares / trials - mean * mean), check, "u_P_kW", 1000.0);
}

TEST(Propagate, FlowSharedByPowerAndPipeLoss) {
    const nlohmann::json check = checks::entry("uncertainty", "UN-04");
    const nlohmann::json& in = check.at("inputs");
    const double flow = in.at("Q_m3s");
    const double loss_factor = in.at("h_loss_m").get<double>() / (flow * flow);
    const std::vector<ModelInput> inputs{{"fall", "", {in.at("dz_m"), in.at("u_dz_m")}},
                                         {"flow", "", {flow, in.at("u_Q_m3s")}},
                                         {"efficiency", "", {in.at("eta"), in.at("u_eta")}}};
    const auto power = propagate(inputs, [&](std::span<const double> x) {
        return kWaterWeight * x[1] * (x[0] - loss_factor * x[1] * x[1]) * x[2];
    });
    ASSERT_TRUE(power);
    expect_as_published(power->estimate.value, check, "P_kW", 1000.0);
    expect_as_published(power->estimate.standard_uncertainty, check, "u_P_kW", 1000.0);
}

TEST(Propagate, EndGaugeAsInGuideExampleH1) {
    const nlohmann::json check = checks::entry("uncertainty", "UN-05");
    const nlohmann::json& in = check.at("inputs");
    const auto rectangular = [&](const char* key) { return in.at(key).get<double>() / std::sqrt(3.0); };
    const double u_cycle = in.at("arcsine_Delta").get<double>() / std::sqrt(2.0); // U-shaped distribution
    const std::vector<ModelInput> inputs{{"l_s", "", {in.at("l_s_nm"), in.at("u_l_s_nm")}},
                                         {"d0", "", {in.at("d0_nm"), in.at("u_d0_nm")}},
                                         {"d1", "", {0.0, in.at("u_d1_nm")}},
                                         {"d2", "", {0.0, in.at("u_d2_nm")}},
                                         {"alpha_s", "", {in.at("alpha_s"), rectangular("halfwidth_alpha_s")}},
                                         {"d_alpha", "", {0.0, rectangular("halfwidth_d_alpha")}},
                                         {"d_theta", "", {0.0, rectangular("halfwidth_d_theta")}},
                                         {"theta_bar", "", {in.at("theta_bar"), in.at("u_theta_bar")}},
                                         {"cycle", "", {0.0, u_cycle}}};
    const auto length = propagate(inputs, [](std::span<const double> x) {
        return x[0] + x[1] + x[2] + x[3] - x[0] * (x[5] * (x[7] + x[8]) + x[4] * x[6]);
    });
    ASSERT_TRUE(length);
    expect_as_published(length->estimate.value, check, "l_nm");
    expect_as_published(length->estimate.standard_uncertainty, check, "u_l_nm");
    expect_as_published(contribution(*length, "d_theta"), check, "component_d_theta");
    expect_as_published(contribution(*length, "d_alpha"), check, "component_d_alpha");
    EXPECT_NEAR(contribution(*length, "l_s"), check.at("expected").at("component_l_s").get<double>(), 1e-6);
    EXPECT_EQ(length->budget.front().input, "l_s");
}

TEST(Propagate, FullyCorrelatedDifferenceCancels) {
    const std::vector<ModelInput> inputs{{"a", "first", {12.5, 0.3}}, {"b", "second", {4.5, 0.3}}};
    const auto difference = [](std::span<const double> x) { return x[0] - x[1]; };
    const auto shared = propagate(inputs, difference, {{0, 1, 1.0}});
    const auto apart = propagate(inputs, difference);
    ASSERT_TRUE(shared && apart);
    // The variance cancels to the rounding of a double, some 1e-16 of 2 x 0.3^2; its root is below 1e-8.
    EXPECT_NEAR(shared->estimate.standard_uncertainty, 0.0, 1e-8);
    EXPECT_NEAR(apart->estimate.standard_uncertainty, 0.3 * std::sqrt(2.0), 1e-12);
    EXPECT_EQ(apart->budget.front().subject, "first");
}

TEST(Propagate, LinearModelIsExactForRandomCoefficients) {
    constexpr unsigned kSeed = 20240611;
    SCOPED_TRACE("seed " + std::to_string(kSeed));
    std::mt19937_64 random(kSeed);
    std::uniform_real_distribution<double> coefficient(-50.0, 50.0);
    std::uniform_real_distribution<double> uncertainty(1e-4, 2.0);
    for (int trial = 0; trial < 200; ++trial) {
        const std::vector<double> a{coefficient(random), coefficient(random), coefficient(random)};
        std::vector<ModelInput> inputs;
        double variance = 0.0;
        for (const double k : a) {
            inputs.push_back({"x", "", {coefficient(random), uncertainty(random)}});
            variance += std::pow(k * inputs.back().estimate.standard_uncertainty, 2);
        }
        const auto sum =
            propagate(inputs, [&](std::span<const double> x) { return a[0] * x[0] + a[1] * x[1] + a[2] * x[2]; });
        ASSERT_TRUE(sum);
        EXPECT_NEAR(sum->estimate.standard_uncertainty, std::sqrt(variance), 1e-8 * std::sqrt(variance));
    }
}

TEST(Propagate, UncertaintyFarBelowTheValueIsNotLostToRounding) {
    const auto same = propagate({{"x", "", {5.0e7, 1e-9}}}, [](std::span<const double> x) { return 3.0 * x[0]; });
    ASSERT_TRUE(same);
    EXPECT_NEAR(same->estimate.standard_uncertainty, 3e-9, 3e-15);
}

TEST(Propagate, ExactInputAtTheEdgeOfTheDomain) {
    const auto root = [](std::span<const double> x) { return std::sqrt(x[0]) + x[1]; };
    const auto result = propagate({{"depth", "", {0.0, 0.0}}, {"offset", "", {2.0, 0.1}}}, root);
    ASSERT_TRUE(result);
    EXPECT_DOUBLE_EQ(result->estimate.value, 2.0);
    EXPECT_NEAR(result->estimate.standard_uncertainty, 0.1, 1e-12);
}

TEST(Propagate, AllExactHasNoUncertaintyAndNoShares) {
    const auto result = propagate({{"a", "", {2.0, 0.0}}, {"b", "", {3.0, 0.0}}}, product);
    ASSERT_TRUE(result);
    EXPECT_EQ(result->estimate.value, 6.0);
    EXPECT_EQ(result->estimate.standard_uncertainty, 0.0);
    EXPECT_EQ(sum_of_shares(*result), 0.0);
}

TEST(Propagate, RefusesBadInputs) {
    const ModelInput good{"good", "", {1.0, 0.1}};
    for (const double bad : {kNan, kInfinity, -kInfinity}) {
        EXPECT_EQ(refusal_code({good, {"bad", "", {bad, 0.1}}}, product), "uncertainty.not_finite");
        EXPECT_EQ(refusal_code({good, {"bad", "", {1.0, bad}}}, product), "uncertainty.not_finite");
    }
    EXPECT_EQ(refusal_code({good, {"bad", "", {1.0, -0.1}}}, product), "uncertainty.negative");
    EXPECT_EQ(refusal_code({good}, [](std::span<const double>) { return kNan; }), "uncertainty.not_finite");
    EXPECT_EQ(refusal_code({good}, [](std::span<const double> x) { return std::sqrt(x[0] - 1.0); }),
              "uncertainty.not_finite");
    EXPECT_EQ(propagate({{"bad", "", {1.0, -0.1}}}, product).error().where, "bad");
}

TEST(Propagate, RefusesBadCorrelations) {
    const ModelInput x{"x", "", {1.0, 0.1}};
    const auto sum = [](std::span<const double> v) { return v[0] + v[1] + v[2]; };
    const auto code = [&](const std::vector<Correlation>& correlations) {
        return refusal_code({x, x, x}, sum, correlations);
    };
    EXPECT_EQ(code({{0, 1, 1.01}}), "uncertainty.bad_correlation");
    EXPECT_EQ(code({{0, 1, kNan}}), "uncertainty.bad_correlation");
    EXPECT_EQ(code({{0, 3, 0.5}}), "uncertainty.bad_correlation");
    EXPECT_EQ(code({{1, 1, 0.5}}), "uncertainty.bad_correlation");
    EXPECT_EQ(code({{0, 1, 0.5}, {1, 0, 0.5}}), "uncertainty.bad_correlation") << "a pair given twice";
    EXPECT_EQ(code({{0, 1, -1.0}, {0, 2, -1.0}, {1, 2, -1.0}}), "uncertainty.bad_correlation") << "impossible together";
    EXPECT_EQ(code({{0, 1, 0.5}, {0, 2, 0.5}, {1, 2, 0.5}}), "accepted");
}

TEST(WeightedMean, ConsistentEstimatesKeepTheirUncertainty) {
    const auto mean = weighted_mean({{10.0, 0.1}, {10.05, 0.2}}); // weights 100 and 25
    ASSERT_TRUE(mean);
    EXPECT_NEAR(mean->estimate.value, 10.01, 1e-12);
    EXPECT_NEAR(mean->estimate.standard_uncertainty, 1.0 / std::sqrt(125.0), 1e-12);
    EXPECT_EQ(mean->birge_ratio, 1.0);
    EXPECT_NEAR(mean->weights[0], 0.8, 1e-12);
    EXPECT_NEAR(mean->weights[1], 0.2, 1e-12);
}

TEST(WeightedMean, ScatterBeyondTheUncertaintiesEnlargesIt) {
    // By hand: mean 10.08; chi2 = 0.8^2 + 1.6^2 = 3.2; Birge ratio sqrt(3.2 / 1); u = sqrt(3.2 / 125) = 0.16.
    const auto mean = weighted_mean({{10.0, 0.1}, {10.4, 0.2}});
    ASSERT_TRUE(mean);
    EXPECT_NEAR(mean->estimate.value, 10.08, 1e-12);
    EXPECT_NEAR(mean->birge_ratio, std::sqrt(3.2), 1e-12);
    EXPECT_NEAR(mean->estimate.standard_uncertainty, 0.16, 1e-12);
}

TEST(WeightedMean, OneEstimateComesBackUnchanged) {
    const auto mean = weighted_mean({{0.085, 0.004}});
    ASSERT_TRUE(mean);
    EXPECT_DOUBLE_EQ(mean->estimate.value, 0.085);
    EXPECT_DOUBLE_EQ(mean->estimate.standard_uncertainty, 0.004);
    EXPECT_EQ(mean->birge_ratio, 1.0);
}

TEST(WeightedMean, TinyUncertaintiesDoNotOverflow) {
    const auto mean = weighted_mean({{1.0, 1e-200}, {1.0, 2e-200}});
    ASSERT_TRUE(mean);
    EXPECT_NEAR(mean->estimate.value, 1.0, 1e-15);
    EXPECT_NEAR(mean->weights[0], 0.8, 1e-12);
}

TEST(WeightedMean, RefusesWhatCannotBeWeighed) {
    EXPECT_EQ(weighted_mean({}).error().code, "uncertainty.nothing_to_average");
    for (const double bad : {0.0, -0.1, kNan, kInfinity})
        EXPECT_EQ(weighted_mean({{1.0, 0.1}, {1.0, bad}}).error().code, "uncertainty.no_weight");
    EXPECT_EQ(weighted_mean({{kNan, 0.1}}).error().code, "uncertainty.no_weight");
    EXPECT_EQ(weighted_mean({{1e300, 1e-300}, {-1e300, 1e-300}}).error().code, "uncertainty.not_finite");
}

} // namespace
} // namespace rillmark
