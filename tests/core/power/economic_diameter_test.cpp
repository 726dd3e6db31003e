// SPDX-License-Identifier: GPL-3.0-or-later
#include "power/economic_diameter.h"

#include "power_checks.h"

namespace rillmark {
namespace {

using power_checks::expect;

nlohmann::json entry(const std::string& id) {
    return checks::entry("turbine", id);
}
double in(const nlohmann::json& check, const char* key) {
    return check.at("inputs").at(key);
}
constexpr double kYear_s = 8760.0 * 3600.0;

EconomicSite site() {
    return {100.0, 500.0, 0.0, {power_checks::kNearlyNoViscosity_m2s, 9.81}, 1000.0, 0.6, 0.1 / 3.6e6, 20.0, 0.05};
}
/// Sizes from 20 to 1500 mm, 1 mm apart, of one relative roughness and a price that goes with the cube of the bore.
std::vector<PricedSize> cubic_sizes() {
    std::vector<PricedSize> sizes;
    for (int mm = 20; mm <= 1500; ++mm) {
        const double bore_m = mm / 1000.0;
        sizes.push_back({std::to_string(mm), bore_m, 0.001 * bore_m, 5000.0 * bore_m * bore_m * bore_m, 0.0});
    }
    return sizes;
}

TEST(EconomicDiameter, GrowsWithTheEighthRootOfThePrice) {
    const auto check = entry("EN-09");
    EconomicSite cheap = site();
    const FlowTime all_year[] = {{0.3, kYear_s}};
    const std::vector<PricedSize> sizes = cubic_sizes();
    const auto best_m = [&](const EconomicSite& s) {
        const EconomicDiameter found = economic_diameter(sizes, s, all_year).value();
        return found.rows[found.cheapest].size.bore_m;
    };
    const double before_m = best_m(cheap);
    // cost a D^3 + b D^-5 is least at D^8 = 5 b / (3 a)
    const double factor = pipe_loss({500.0, 0.5, 0.0005, 0.0}, cheap.water, 0.3).value().factor.darcy;
    const double loss_D5 = 8.0 * factor * 500.0 * 0.3 * 0.3 / (9.81 * std::pow(3.14159265358979, 2));
    const double worth = (1.0 - std::pow(1.05, -20.0)) / 0.05;
    const double b = 1000.0 * 9.81 * 0.3 * loss_D5 * 0.6 * kYear_s * cheap.energy_price_per_J * worth;
    EXPECT_NEAR(before_m, std::pow(5.0 * b / (3.0 * 5000.0 * 500.0), 0.125), 0.0011);
    cheap.energy_price_per_J *= in(check, "price_factor");
    EXPECT_NEAR(best_m(cheap) / before_m, check["expected"]["D_new_mm"].get<double>() / in(check, "D_mm"), 0.004);
}

TEST(EconomicDiameter, FirstGuesses) {
    const auto sarkaria = entry("EN-07");
    expect(sarkaria, "D_m", sarkaria_bore_m(in(sarkaria, "Q_m3s"), in(sarkaria, "H_net_m"), in(sarkaria, "g_ms2")).value());
    const auto four = entry("EN-08"); // formula and example from memory
    expect(four, "D_m",
           four_percent_bore_m({in(four, "Q_m3s"), in(four, "n"), in(four, "L_m"), in(four, "H_m")}).value());
}

TEST(EconomicDiameter, FreeEnergyTakesTheCheapestPipeThatCarries) {
    EconomicSite free = site();
    free.energy_price_per_J = 0.0;
    const FlowTime all_year[] = {{0.3, kYear_s}};
    const EconomicDiameter found = economic_diameter(cubic_sizes(), free, all_year).value();
    EXPECT_TRUE(found.at_an_end);
    EXPECT_FALSE(found.rows[found.cheapest - 1].carries);
    EXPECT_TRUE(found.rows[found.cheapest].carries);
}

TEST(EconomicDiameter, InterestMakesLossesWeighLess) {
    const PricedSize one[] = {{"300", 0.3, 0.0003, 50.0, 20.0}};
    const FlowTime all_year[] = {{0.1, kYear_s}};
    EconomicSite s = site();
    s.interest = 0.0;
    const PricedRow still = economic_diameter(one, s, all_year).value().rows[0];
    EXPECT_NEAR(still.loss_cost, still.lost_J * s.energy_price_per_J * 20.0, 1e-9 * still.loss_cost);
    EXPECT_NEAR(still.build_cost, 500.0 * 70.0, 1e-9);
    s.interest = 1e-9;
    EXPECT_NEAR(economic_diameter(one, s, all_year).value().rows[0].loss_cost, still.loss_cost, 1e-6 * still.loss_cost);
    s.interest = 0.1;
    EXPECT_LT(economic_diameter(one, s, all_year).value().rows[0].loss_cost, 0.5 * still.loss_cost);
}

TEST(EconomicDiameter, RefusesNonsense) {
    const std::vector<PricedSize> sizes = cubic_sizes();
    const FlowTime all_year[] = {{0.3, kYear_s}};
    EXPECT_EQ(economic_diameter({}, site(), all_year).error().code, "power.no_sizes");
    EXPECT_EQ(economic_diameter(sizes, site(), {}).error().code, "power.no_flows");
    EXPECT_EQ(economic_diameter(std::span(sizes).first(3), site(), all_year).error().code, "power.no_size_carries");
    const FlowTime too_long[] = {{0.3, kYear_s}, {0.1, kYear_s}};
    EXPECT_EQ(economic_diameter(sizes, site(), too_long).error().code, "power.more_than_a_year");
    for (const double bad : {std::nan(""), -1.0}) {
        EconomicSite s = site();
        s.energy_price_per_J = bad;
        EXPECT_FALSE(economic_diameter(sizes, s, all_year));
        s = site();
        s.years = bad;
        EXPECT_FALSE(economic_diameter(sizes, s, all_year));
        const FlowTime wrong[] = {{bad, kYear_s}};
        EXPECT_FALSE(economic_diameter(sizes, site(), wrong));
        const PricedSize price[] = {{"x", 0.3, 0.0003, bad, 0.0}};
        EXPECT_FALSE(economic_diameter(price, site(), all_year));
        const PricedSize bore[] = {{"x", bad, 0.0003, 1.0, 0.0}};
        EXPECT_FALSE(economic_diameter(bore, site(), all_year));
        EXPECT_FALSE(sarkaria_bore_m(bad, 60.0, 9.81));
    }
    EconomicSite s = site();
    s.efficiency = 1.5;
    EXPECT_EQ(economic_diameter(sizes, s, all_year).error().code, "power.ratio_above_one");
}

} // namespace
} // namespace rillmark
