// SPDX-License-Identifier: GPL-3.0-or-later
// Pipes in series, and the bore for a loss.
#include "core/power/power_checks.h"

#include "power/pipe_flow.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <numbers>
#include <random>
#include <vector>

namespace rillmark {
namespace {

using namespace power_checks;

nlohmann::json plant_entry(const std::string& id) {
    return checks::entry("plant", id);
}

double in(const nlohmann::json& check, const char* key) {
    return check.at("inputs").at(key).get<double>();
}

constexpr PipeWater kWater{1.3e-6, 9.81};

std::vector<PipeRun> three_pipes() {
    return {{100.0, 0.3, 1e-5, 1.5}, {200.0, 0.25, 1e-5, 0.2}, {50.0, 0.2, 5e-5, 0.7}};
}

TEST(PipeSeries, TwoSizesOfATextbookWithItsFittings) {
    // Crane gives fittings as lengths over bores times a fixed factor, and the valve's seat in the 2 in pipe.
    const nlohmann::json check = plant_entry("FR-12");
    const double f3 = in(check, "fT_3in");
    const double f2 = in(check, "fT_2in");
    const double contraction = 0.5 * (1.0 - std::pow(2.067 / 3.068, 2.0)); // Crane, on the smaller pipe
    const double gravity_ms2 = 9.80665;
    const double viscosity_m2s = in(check, "mu_cP") * 1e-3 / (in(check, "rho_lbft3") * 16.0184634);
    const std::vector<PipeRun> series = {
        {feet(in(check, "L1_ft")), inches(3.068), inches(in(check, "roughness_in")),
         in(check, "K_entrance") + (in(check, "mitre_bend_LD") + in(check, "gate_valve_LD")) * f3},
        {feet(in(check, "L2_ft")), inches(2.067), inches(in(check, "roughness_in")), contraction + 1.0}};
    EXPECT_LT(f3, f2);
    const Expected<double> flow =
        discharge_for_loss_m3s(series, {viscosity_m2s, gravity_ms2}, feet(in(check, "head_ft")));
    ASSERT_TRUE(flow);
    expect(check, "Q_gpm", *flow / gpm(1.0));
}

TEST(PipeSeries, EquivalentLengthOfATextbook) {
    const nlohmann::json check = plant_entry("FR-18");
    // one factor for all: the same relative roughness, fully rough
    const double relative = roughness_of_constant_factor(0.02);
    const PipeWater water{kNearlyNoViscosity_m2s, 9.81};
    std::vector<PipeRun> series;
    for (std::size_t i = 0; i < 3; ++i) {
        const double bore_m = check["inputs"]["D_m"][i];
        series.push_back({check["inputs"]["L_m"][i], bore_m, relative * bore_m, 0.0});
    }
    const double bore_m = in(check, "D_equiv_m");
    const double loss_m = series_loss(series, water, 0.1)->friction_m;
    const double one_metre_m = pipe_loss({1.0, bore_m, relative * bore_m, 0.0}, water, 0.1)->friction_m;
    expect(check, "L_equiv_m", loss_m / one_metre_m);
}

TEST(PipeSeries, BoreOfTwoPipesOfATextbook) {
    const nlohmann::json check = plant_entry("TU-06");
    const double head_ft = in(check, "H_gross_ft") - in(check, "h_loss_ft");
    const double flow_cfs = in(check, "P_hp") * 550.0 / (in(check, "gamma_lbft3") * head_ft * in(check, "eta"));
    expect(check, "Q_ft3s", flow_cfs);
    // The book prints Fanning's factor: Darcy's is four times that. A constant one means a roughness that grows with
    // the bore, so the search is for a bore whose own relative roughness is that.
    const double darcy = 4.0 * in(check, "fanning_f");
    const PipeWater water{kNearlyNoViscosity_m2s, feet(in(check, "g_fts2"))};
    PipeRun pipe{feet(in(check, "L_ft")), 0.0, 0.0, 0.0};
    double bore_m = 0.5;
    for (int i = 0; i < 60; ++i) {
        pipe.roughness_m = roughness_of_constant_factor(darcy) * bore_m;
        bore_m =
            bore_for_loss_m(pipe, water, cfs(flow_cfs / in(check, "n_pipes")), feet(in(check, "h_loss_ft"))).value();
    }
    expect(check, "D_ft", bore_m / feet(1.0));
}

TEST(PipeSeries, PiecesOfOnePipeAreThatPipe) {
    const PipeRun whole{350.0, 0.25, 1e-5, 3.0};
    const std::vector<PipeRun> pieces = {{100.0, 0.25, 1e-5, 1.0}, {50.0, 0.25, 1e-5, 0.0}, {200.0, 0.25, 1e-5, 2.0}};
    const PipeLoss one = pipe_loss(whole, kWater, 0.06).value();
    const PipeLoss many = series_loss(pieces, kWater, 0.06).value();
    EXPECT_NEAR(many.friction_m, one.friction_m, 1e-12 * one.friction_m);
    EXPECT_NEAR(many.minor_m, one.minor_m, 1e-12 * one.minor_m);
    EXPECT_EQ(many.speed_ms, one.speed_ms);
    EXPECT_NEAR(discharge_for_loss_m3s(pieces, kWater, 4.0).value(), discharge_for_loss_m3s(whole, kWater, 4.0).value(),
                1e-12);
}

TEST(PipeSeries, FlowForALossThenLossForThatFlowComesBack) {
    constexpr unsigned kSeed = 20261125;
    std::mt19937 random(kSeed);
    std::uniform_real_distribution<double> exponent(-3.0, 3.0);
    for (int i = 0; i < 400; ++i) {
        std::vector<PipeRun> series = three_pipes();
        for (PipeRun& pipe : series)
            pipe.length_m *= std::pow(10.0, 0.5 * exponent(random));
        const double loss_m = std::pow(10.0, exponent(random));
        const Expected<double> flow = discharge_for_loss_m3s(series, kWater, loss_m);
        ASSERT_TRUE(flow) << "seed " << kSeed << " " << i;
        const PipeLoss back = series_loss(series, kWater, *flow).value();
        if (back.factor.regime == Regime::Turbulent) { // elsewhere the loss may jump
            EXPECT_NEAR(back.total_m(), loss_m, 1e-11 * loss_m) << "seed " << kSeed << " " << i;
        }
    }
}

TEST(PipeSeries, BoreForALossThenLossOfThatBoreComesBack) {
    constexpr unsigned kSeed = 36;
    std::mt19937 random(kSeed);
    std::uniform_real_distribution<double> part(0.0, 1.0);
    for (int i = 0; i < 400; ++i) {
        PipeRun pipe{10.0 + 2000.0 * part(random), 0.0, 1e-5, 5.0 * part(random)};
        const double flow_m3s = std::pow(10.0, -3.0 + 4.0 * part(random));
        const double loss_m = 0.2 + 50.0 * part(random);
        const Expected<double> bore_m = bore_for_loss_m(pipe, kWater, flow_m3s, loss_m);
        ASSERT_TRUE(bore_m) << "seed " << kSeed << " " << i;
        pipe.bore_m = *bore_m;
        EXPECT_NEAR(pipe_loss(pipe, kWater, flow_m3s)->total_m(), loss_m, 1e-10 * loss_m)
            << "seed " << kSeed << " " << i;
    }
}

TEST(PipeSeries, TheGreatestPowerIsNearAThirdOfTheHead) {
    const std::vector<PipeRun> series = three_pipes();
    const double head_m = 30.0;
    const double best_m3s = greatest_power_discharge_m3s(series, kWater, head_m).value();
    const auto power = [&](double flow_m3s) {
        return flow_m3s * (head_m - series_loss(series, kWater, flow_m3s)->total_m());
    };
    double most = 0.0;
    for (double flow_m3s = 0.2 * best_m3s; flow_m3s < 1.7 * best_m3s; flow_m3s += 0.001 * best_m3s)
        most = std::max(most, power(flow_m3s));
    EXPECT_GE(power(best_m3s), 0.995 * most); // the part that the header allows
    // Why not to go there: half of that flow gives well over half of that power.
    EXPECT_GT(power(0.5 * best_m3s), 0.65 * most);
}

TEST(PipeSeries, RefusesWhatCannotBe) {
    EXPECT_EQ(series_loss({}, kWater, 0.1).error().code, "power.no_section");
    EXPECT_EQ(discharge_for_loss_m3s(std::span<const PipeRun>(), kWater, 1.0).error().code, "power.no_section");
    const PipeRun pipe{100.0, 0.0, 1e-5, 0.0};
    constexpr double kNan = std::numeric_limits<double>::quiet_NaN();
    constexpr double kInfinity = std::numeric_limits<double>::infinity();
    for (const double bad : {kNan, kInfinity, -1.0, 0.0}) {
        EXPECT_FALSE(bore_for_loss_m(pipe, kWater, bad, 1.0)) << bad;
        EXPECT_FALSE(bore_for_loss_m(pipe, kWater, 0.1, bad)) << bad;
        EXPECT_FALSE(bore_for_loss_m({bad, 0.0, 1e-5, 0.0}, kWater, 0.1, 1.0)) << bad;
        std::vector<PipeRun> series = three_pipes();
        series[1].length_m = bad;
        EXPECT_FALSE(series_loss(series, kWater, 0.1)) << bad;
        EXPECT_FALSE(discharge_for_loss_m3s(series, kWater, 1.0)) << bad;
    }
    EXPECT_EQ(bore_for_loss_m(pipe, kWater, 1e-12, 1e6).error().code, "power.no_solution");
    EXPECT_EQ(bore_for_loss_m({100.0, 0.0, 1.0, 0.0}, kWater, 0.1, 500.0).error().code, "power.no_solution");
}

} // namespace
} // namespace rillmark
