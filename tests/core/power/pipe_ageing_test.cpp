// SPDX-License-Identifier: GPL-3.0-or-later
// The walls' values are from memory, so these tests hold the form and the arithmetic, not the figures.
#include "power/pipe_ageing.h"

#include "power/chain_budget.h"
#include "power/pipe_strength.h"

#include <gtest/gtest.h>

#include <cmath>

namespace rillmark {
namespace {

ChainInput steel_chain() {
    ChainInput input;
    input.gross_head_m = Estimate{30.0, 0.15};
    input.flow_m3s = Estimate{0.03, 0.0015};
    input.pipes = {ChainPipe{{{350.0, 2.0}, {2.0, 0.4}}, {0.19, 0.001}, {4.5e-5, 2e-5}, 6e5, "A"}};
    return input;
}
const std::string kSteel[] = {"steel"};

TEST(PipeAgeing, RoughnessGrowsEvenlyToTheAgedValue) {
    // memory: welded steel 0.045 mm new, 0.2 mm aged
    const double years[] = {0.0, 15.0, 30.0};
    const std::vector<AgedChain> ages = over_ages(steel_chain(), kSteel, years).value();
    EXPECT_NEAR(ages[0].roughness_m, 4.5e-5, 1e-12);
    EXPECT_NEAR(ages[1].roughness_m, 0.5 * (4.5e-5 + 2e-4), 1e-9);
    EXPECT_NEAR(ages[2].roughness_m, 2e-4, 1e-9);
    EXPECT_NEAR(ages[0].result.friction_loss_m->value, water_to_wire(steel_chain()).friction_loss_m->value, 1e-12);
    for (std::size_t i = 1; i < ages.size(); ++i) {
        EXPECT_GT(ages[i].result.friction_loss_m->value, ages[i - 1].result.friction_loss_m->value);
        EXPECT_LT(ages[i].result.generator_W->value, ages[i - 1].result.generator_W->value);
        EXPECT_GT(ages[i].result.friction_loss_m->standard_uncertainty,
                  ages[i - 1].result.friction_loss_m->standard_uncertainty);
    }
}

TEST(PipeAgeing, EveryMaterialOfTheStrengthsIsKnown) {
    for (const PipeMaterial& material : pipe_materials()) {
        const WallAgeing wall = wall_ageing(material.id).value();
        EXPECT_GT(wall.growth_m_per_year, 0.0);
        EXPECT_GE(wall.hazen_williams_c, 140.0);
    }
}

TEST(PipeAgeing, RefusesNonsense) {
    const std::string clay[] = {"clay"};
    const double ten[] = {10.0};
    EXPECT_EQ(over_ages(steel_chain(), clay, ten).error().code, "power.unknown_material");
    EXPECT_EQ(over_ages(steel_chain(), {}, ten).error().code, "power.missing_pipe");
    EXPECT_EQ(over_ages(ChainInput{}, {}, ten).error().code, "power.missing_pipe");
    for (const double bad : {-1.0, 101.0, std::nan(""), HUGE_VAL}) {
        const double years[] = {bad};
        EXPECT_EQ(over_ages(steel_chain(), kSteel, years).error().code, "power.age_out_of_range") << bad;
    }
}

TEST(ChainBudget, EveryLinkHasTheUncertaintyThatTheChainGivesIt) {
    ChainInput input = steel_chain();
    input.intake_loss_m = Estimate{0.2, 0.02};
    input.drive_efficiency = Estimate{0.96, 0.01};
    input.cable = ChainCable{Current::SinglePhase, {200.0, 2.0}, {0.4e-3, 0.01e-3}, 0.0, 240.0, 0.95};
    const ChainResult chain = water_to_wire(input);
    const std::pair<double Links::*, std::optional<Estimate>> links[] = {
        {&Links::intake_m, chain.intake_loss_m},    {&Links::friction_m, chain.friction_loss_m},
        {&Links::net_head_m, chain.net_head_m},     {&Links::shaft_W, chain.shaft_W},
        {&Links::drive_W, chain.drive_W},           {&Links::generator_W, chain.generator_W},
        {&Links::cable_loss_W, chain.cable_loss_W}, {&Links::house_W, chain.house_W->estimate}};
    for (const auto& [link, figure] : links) {
        const Budgeted budget = link_budget(input, link).value();
        EXPECT_NEAR(budget.estimate.value, figure->value, 1e-9 * figure->value);
        EXPECT_NEAR(budget.estimate.standard_uncertainty, figure->standard_uncertainty,
                    1e-9 * figure->standard_uncertainty);
        double shares = 0.0;
        for (const BudgetLine& line : budget.budget)
            shares += line.share;
        EXPECT_NEAR(shares, 1.0, 1e-9);
    }
}

TEST(ChainBudget, AMissingLinkIsRefused) {
    ChainInput input = steel_chain();
    EXPECT_EQ(link_budget(input, &Links::house_W).error().code, "power.link_unknown"); // no cable
    input.pipes.clear();
    EXPECT_EQ(link_budget(input, &Links::friction_m).error().code, "power.link_unknown");
    EXPECT_EQ(link_budget(ChainInput{}, &Links::gross_W).error().code, "power.link_unknown");
    input.flow_m3s = Estimate{std::nan(""), 0.0};
    EXPECT_EQ(link_budget(input, &Links::gross_W).error().code, "power.link_unknown");
}

} // namespace
} // namespace rillmark
