// SPDX-License-Identifier: GPL-3.0-or-later
// The chain over several sections, intake and drive; its draws, the next step and the year.
#include "core/power/power_checks.h"

#include "power/chain_draws.h"
#include "power/chain_year.h"
#include "power/pressure_profile.h"
#include "power/tables.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <random>

namespace rillmark {
namespace {

using namespace power_checks;

ChainInput site_chain() {
    ChainInput input;
    input.gross_head_m = Estimate{30.0, 0.15};
    input.flow_m3s = Estimate{0.03, 0.0015};
    input.latitude_deg = 46.0;
    input.altitude_m = 400.0;
    input.pipes = {ChainPipe{{{350.0, 2.0}, {2.0, 0.4}}, {0.19, 0.001}, {1e-5, 5e-6}, 6e5, "A"}};
    input.cable = ChainCable{Current::SinglePhase, {200.0, 2.0}, {0.4e-3, 0.01e-3}, 0.0, 240.0, 0.95};
    return input;
}

bool has(const Findings& findings, const std::string& code) {
    return std::any_of(findings.begin(), findings.end(), [&](const Finding& f) { return f.code == code; });
}

double watts(const ChainInput& input) {
    return water_to_wire(input).house_W->estimate.value;
}

/// The lightest PVC class of 12 in that the table has, and the heaviest of the pressure pipes.
std::pair<PipeSize, PipeSize> light_and_heavy() {
    const PowerTables tables = read_power_tables().value();
    std::vector<PipeSize> sizes;
    for (const PipeSize& size : tables.pipes)
        if (size.id.starts_with("pvc-sdr") && std::abs(size.outside_m - inches(12.75)) < 1e-4)
            sizes.push_back(size);
    const auto by_rating = [](const PipeSize& a, const PipeSize& b) {
        return a.pressure_rating_Pa < b.pressure_rating_Pa;
    };
    return {*std::min_element(sizes.begin(), sizes.end(), by_rating),
            *std::max_element(sizes.begin(), sizes.end(), by_rating)};
}

TEST(Chain, FactOfTheTradeFromEndToEnd) {
    // Common practice, no source: 36 ft of head, 3 ft3/s, 1230 ft of 12 in plastic pipe, light class above and heavy
    // class below, a reaction turbine with its draft tube (so the head runs to the tailwater): 9.1 kW gross, about 4.1
    // ft lost in a bore of 12 in, and the lighter class serves the upper part.
    ChainInput input;
    input.gross_head_m = Estimate{feet(36.0), feet(0.2)};
    input.flow_m3s = Estimate{cfs(3.0), cfs(0.15)};
    const double half_m = feet(1230.0) / 2.0;
    const Estimate length{half_m, 0.02 * half_m};
    const ChainPipe twelve_inches{{length, {0.0, 0.0}}, {inches(12.0), 0.0}, {0.0015e-3, 0.0}, {}, "12 in"};
    input.pipes = {twelve_inches, twelve_inches};
    input.cable = ChainCable{Current::ThreePhase, {150.0, 3.0}, {0.2e-3, 0.005e-3}, 0.0, 400.0, 0.9};
    const ChainResult result = water_to_wire(input);
    EXPECT_NEAR(result.gross_W->value, 9100.0, 50.0);
    EXPECT_NEAR(result.friction_loss_m->value / feet(1.0), 4.1, 0.1);
    ASSERT_TRUE(result.house_W);
    EXPECT_GT(result.house_W->estimate.value, 4000.0);
    EXPECT_LT(result.house_W->estimate.value, 0.7 * result.net_W->value);

    // The pressures, with the real classes, for a line that falls evenly and a valve that closes in 30 s.
    const auto [light, heavy] = light_and_heavy();
    ASSERT_LT(light.pressure_rating_Pa, heavy.pressure_rating_Pa);
    PressureInput pressure;
    pressure.points = {{0.0, feet(36.0), 0.0}, {half_m, feet(18.0), 0.0}, {2.0 * half_m, 0.0, 0.0}};
    pressure.intake_level_m = feet(36.0);
    pressure.sections = {{0.0, light.bore_m, light.wall_m, light.roughness_m, pipe_material(light.material).value(),
                          light.pressure_rating_Pa},
                         {half_m, heavy.bore_m, heavy.wall_m, heavy.roughness_m, pipe_material(heavy.material).value(),
                          heavy.pressure_rating_Pa}};
    pressure.flow_m3s = *input.flow_m3s;
    pressure.closing_s = 30.0;
    const PressureProfile profile = pressure_profile(pressure).value();
    EXPECT_FALSE(profile.sections[0].passed_from_m);
    EXPECT_FALSE(profile.sections[1].passed_from_m);
    EXPECT_FALSE(has(profile.findings, "power.section_over_class"));
    // A class that holds half of the pressure at the valve would have to end on the way.
    const std::optional<double> ends_m = class_ends_at_m(profile, 0.5 * profile.points.back().highest_Pa);
    ASSERT_TRUE(ends_m);
    EXPECT_GT(*ends_m, 0.3 * half_m);
    EXPECT_LT(*ends_m, 1.2 * half_m);
}

TEST(Chain, APipeInPiecesIsThePipeWithItsUncertainty) {
    const ChainInput whole = site_chain();
    ChainInput pieces = site_chain();
    ChainPipe piece = pieces.pipes.front();
    pieces.pipes.clear();
    for (const double part : {0.2, 0.5, 0.3}) {
        ChainPipe one = piece;
        one.route.length_m = {part * piece.route.length_m.value, part * piece.route.length_m.standard_uncertainty};
        one.route.minor_k = {part * piece.route.minor_k.value, part * piece.route.minor_k.standard_uncertainty};
        pieces.pipes.push_back(one);
    }
    const ChainResult a = water_to_wire(whole);
    const ChainResult b = water_to_wire(pieces);
    EXPECT_NEAR(a.house_W->estimate.value, b.house_W->estimate.value, 1e-9 * a.house_W->estimate.value);
    EXPECT_NEAR(a.house_W->estimate.standard_uncertainty, b.house_W->estimate.standard_uncertainty,
                1e-9 * a.house_W->estimate.standard_uncertainty);
    EXPECT_EQ(a.house_W->budget.size(), b.house_W->budget.size());
    EXPECT_NEAR(*a.pipe_capacity_m3s, *b.pipe_capacity_m3s, 1e-11);
    // Two makes of the same size are two bores.
    pieces.pipes[1].label = "B";
    EXPECT_EQ(water_to_wire(pieces).house_W->budget.size(), a.house_W->budget.size() + 2);
    EXPECT_LT(water_to_wire(pieces).friction_loss_m->standard_uncertainty, b.friction_loss_m->standard_uncertainty);
}

TEST(Chain, ABoreOfTheTablesIsDrawnBetweenItsLimits) {
    ChainInput input = site_chain();
    // the bore alone is uncertain, so the draws show its shape
    input.gross_head_m->standard_uncertainty = input.flow_m3s->standard_uncertainty = 0.0;
    input.water_temperature_C.standard_uncertainty = 0.0;
    input.pipes[0].route = {{350.0, 0.0}, {2.0, 0.0}};
    input.pipes[0].bore_m = {0.12, 0.002};
    input.pipes[0].roughness_m.standard_uncertainty = 0.0;
    input.turbine_efficiency.standard_uncertainty = input.generator_efficiency.standard_uncertainty = 0.0;
    input.cable.reset();
    const auto width = [&](DriveShape drive) {
        std::mt19937_64 engine(5);
        const DrawnEstimate drawn = draw_watts(input, engine, {}, drive).value();
        return (drawn.high - drawn.low) / drawn.estimate.standard_uncertainty;
    };
    EXPECT_LT(width(DriveShape::Normal), 3.6); // 2 sqrt(3) times 0.9545 is 3.3, and the friction formula is normal
    // the drive alone: of a range, or with a +/- of its own
    input.pipes[0].bore_m = {0.19, 0.0};
    input.drive_efficiency = Estimate{0.96, 0.03};
    EXPECT_LT(width(DriveShape::Range), 3.6);
    EXPECT_NEAR(width(DriveShape::Normal), 4.0, 0.1);
}

TEST(Chain, PipesSideBySideShareTheFlow) {
    ChainInput two = site_chain();
    two.parallel_pipes = 2;
    ChainInput half = site_chain();
    half.flow_m3s = Estimate{0.015, 0.00075};
    const ChainResult a = water_to_wire(two);
    const ChainResult b = water_to_wire(half);
    EXPECT_NEAR(a.friction_loss_m->value, b.friction_loss_m->value, 1e-12);
    EXPECT_NEAR(a.net_W->value, 2.0 * b.net_W->value, 1e-9 * a.net_W->value);
    EXPECT_NEAR(*a.pipe_capacity_m3s, 2.0 * *b.pipe_capacity_m3s, 1e-12);
    two.parallel_pipes = 0;
    const ChainResult none = water_to_wire(two);
    EXPECT_TRUE(has(none.findings, "power.bad_parallel_pipes"));
    EXPECT_TRUE(none.gross_W && !none.net_head_m);
}

TEST(Chain, IntakeAndDriveAreLinks) {
    ChainInput input = site_chain();
    const double before = watts(input);
    input.intake_loss_m = Estimate{0.3, 0.05};
    const ChainResult with_rack = water_to_wire(input);
    EXPECT_NEAR(with_rack.intake_loss_m->value, 0.3, 1e-12);
    EXPECT_NEAR(with_rack.net_head_m->value, water_to_wire(site_chain()).net_head_m->value - 0.3, 1e-12);
    EXPECT_LT(with_rack.house_W->estimate.value, before);
    input.drive_efficiency = Estimate{0.96, 0.01};
    const ChainResult r = water_to_wire(input);
    EXPECT_NEAR(r.drive_W->value, 0.96 * r.shaft_W->value, 1e-9);
    EXPECT_NEAR(r.generator_W->value, 0.85 * r.drive_W->value, 1e-9);
    EXPECT_EQ(r.house_W->budget.size(), 14U);
    const auto share = [&](const char* code) {
        const auto line = std::find_if(r.house_W->budget.begin(), r.house_W->budget.end(),
                                       [code](const BudgetLine& one) { return one.input == code; });
        return line == r.house_W->budget.end() ? -1.0 : line->share;
    };
    EXPECT_GT(share("power.drive_efficiency"), 0.0);
    EXPECT_GT(share("power.intake_loss"), 0.0);
    for (const double bad : {std::nan(""), -0.5, 1.5}) {
        ChainInput broken = input;
        broken.drive_efficiency = Estimate{bad, 0.0};
        EXPECT_FALSE(water_to_wire(broken).house_W) << bad;
        EXPECT_FALSE(water_to_wire(broken).findings.empty()) << bad;
    }
    input.intake_loss_m = Estimate{-1.0, 0.0};
    EXPECT_TRUE(has(water_to_wire(input).findings, "power.negative"));
    input.intake_loss_m = Estimate{50.0, 1.0}; // more than the head
    const ChainResult drowned = water_to_wire(input);
    EXPECT_TRUE(has(drowned.findings, "power.no_net_head"));
    EXPECT_FALSE(drowned.house_W);
}

TEST(Chain, TheGreatestPowerIsShownWithWhatItCosts) {
    const ChainResult r = water_to_wire(site_chain());
    ASSERT_TRUE(r.greatest);
    EXPECT_NEAR(r.greatest->loss_m, 10.0, 1e-6); // a third of the head
    EXPECT_GT(r.greatest->flow_m3s, 0.03);
    EXPECT_NEAR(r.greatest->net_W - r.greatest->more_W, r.net_W->value, 1e-6);
    EXPECT_LT(r.greatest->more_W / r.net_W->value, r.greatest->more_flow_m3s / 0.03);
}

TEST(Chain, ASectionThatIsRefusedIsNamedAndNothingIsHalfComputed) {
    ChainInput input = site_chain();
    input.pipes.push_back(input.pipes.front());
    input.pipes[1].label = "lower end";
    input.pipes[1].route.length_m = {0.0, 0.0};
    const ChainResult r = water_to_wire(input);
    ASSERT_TRUE(has(r.findings, "power.not_positive"));
    const auto finding = std::find_if(r.findings.begin(), r.findings.end(),
                                      [](const Finding& f) { return f.code == "power.not_positive"; });
    EXPECT_EQ(std::get<std::string>(finding->args.back().value), "lower end");
    EXPECT_TRUE(r.gross_W && !r.friction_loss_m && !r.net_head_m && !r.house_W);
}

TEST(ChainDraws, AgreeWithFirstOrderWhereTheChainIsNearlyStraight) {
    std::mt19937_64 engine(7);
    const ChainInput input = site_chain();
    const DrawnEstimate drawn = draw_watts(input, engine).value();
    const Estimate first = water_to_wire(input).house_W->estimate;
    EXPECT_NEAR(drawn.estimate.value, first.value, 0.1 * first.standard_uncertainty);
    EXPECT_NEAR(drawn.estimate.standard_uncertainty, first.standard_uncertainty, 0.02 * first.standard_uncertainty);
    EXPECT_FALSE(first_order_differs(first, drawn));
}

TEST(ChainDraws, DifferNearTheGreatestPower) {
    // There the watts do not change with the flow to first order, but they do.
    ChainInput input = site_chain();
    const double best_m3s = water_to_wire(input).greatest->flow_m3s;
    input.flow_m3s = Estimate{best_m3s, 0.25 * best_m3s};
    std::mt19937_64 engine(7);
    const DrawnEstimate drawn = draw_watts(input, engine).value();
    const ChainResult first = water_to_wire(input);
    ASSERT_TRUE(first.house_W);
    EXPECT_TRUE(first_order_differs(first.house_W->estimate, drawn));
    EXPECT_LT(drawn.estimate.value, first.house_W->estimate.value);
    EXPECT_GE(drawn.low, 0.0);
    EXPECT_EQ(draw_watts({}, engine).error().code, "power.no_watts");
}

TEST(NextStep, IsTheLargestShareThatSomebodyCanNarrow) {
    const ChainInput input = site_chain();
    const Budgeted house = *water_to_wire(input).house_W;
    const std::optional<NextStep> step = next_step(house);
    ASSERT_TRUE(step);
    EXPECT_EQ(step->input, "power.turbine_efficiency");
    EXPECT_NEAR(step->now_W, house.estimate.expanded(), 1e-12);
    // What it promises is what the chain then gives.
    ChainInput better = input;
    better.turbine_efficiency.standard_uncertainty *= 0.5;
    EXPECT_NEAR(step->halved_W, water_to_wire(better).house_W->estimate.expanded(), 0.002 * step->now_W);
    better.turbine_efficiency.standard_uncertainty = 0.0;
    EXPECT_NEAR(step->known_W, water_to_wire(better).house_W->estimate.expanded(), 0.002 * step->now_W);
    EXPECT_EQ(next_step_note(*step).code, "power.do_next_turbine_efficiency");
    EXPECT_EQ(next_step(*water_to_wire(better).house_W)->input, "power.flow");
    EXPECT_FALSE(next_step({{100.0, 5.0}, {{"power.friction_formula", {}, 5.0, 1.0}}}));
    EXPECT_FALSE(next_step({{100.0, 0.0}, {{"power.flow", {}, 0.0, 0.0}}}));
}

TEST(ChainYear, AConstantFlowGivesPowerTimesHours) {
    const ChainInput input = site_chain();
    EnergyPlant plant = chain_plant(input, {}).value();
    plant.leave.fixed_m3s = 0.01;
    const std::vector<DurationPoint> steady = {{0.0, 0.04}, {1.0, 0.04}};
    const EnergyYear year = energy_of_duration(steady, plant).value();
    EXPECT_NEAR(year.energy_J.estimate.value, watts(input) * kEnergyYear_s, 1e-6 * watts(input) * kEnergyYear_s);
    EXPECT_NEAR(year.capacity_factor.value, 1.0, 1e-9);
    EXPECT_EQ(chain_plant({}, {}).error().code, "power.no_watts");
}

TEST(ChainYear, PartFlowLosesHeadByTheSquareAndStandsBelowTheLeastFlow) {
    const ChainInput input = site_chain();
    const TurbineKind francis = read_turbine_tables().value().kind("francis").value();
    const EnergyPlant plant = chain_plant(input, francis).value();
    const ChainResult full = water_to_wire(input);
    EXPECT_NEAR(plant.net_head_m(0.03), full.net_head_m->value, 1e-9);
    EXPECT_GT(plant.net_head_m(0.015), full.net_head_m->value + 0.6 * (30.0 - full.net_head_m->value));
    EXPECT_NEAR(plant.turbine_efficiency(1.0), kDefaultTurbineEfficiency.value, 1e-12);
    EXPECT_EQ(power_at_flow_W(plant, 0.3 * 0.03).value(), 0.0);
    EXPECT_GT(power_at_flow_W(plant, 0.8 * 0.03).value(), 0.0);
    const std::vector<double> flows = design_flows_around(0.03);
    const std::vector<DurationPoint> curve = {{0.0, 0.2}, {0.1, 0.08}, {0.3, 0.04}, {0.6, 0.02}, {1.0, 0.008}};
    const DesignCurve design = design_curve(curve, plant, flows).value();
    ASSERT_EQ(design.points.size(), kDesignFlows);
    ASSERT_TRUE(design.knee);
    EXPECT_LT(*design.knee, kDesignFlows - 1);
}

TEST(ChainYear, PondOfATextbook) {
    const nlohmann::json check = checks::entry("plant", "PW-06");
    const auto in = [&](const char* key) { return check.at("inputs").at(key).get<double>(); };
    // The water of the pond through the plant in an hour, at the book's round weight of water.
    EnergyPlant plant;
    plant.design_flow_m3s = in("V_m3") / 3600.0;
    plant.net_head_m = [&](double) { return in("H_m") * in("eta_penstock"); };
    plant.turbine_efficiency = [&](double) { return in("eta_turbine"); };
    plant.other_efficiency = in("eta_gen");
    plant.density_kgm3 = 1000.0;
    plant.gravity_ms2 = 9.81;
    expect(check, "E_kWh", power_at_flow_W(plant, plant.design_flow_m3s).value() / 1000.0);
}

} // namespace
} // namespace rillmark
