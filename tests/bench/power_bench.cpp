// SPDX-License-Identifier: GPL-3.0-or-later
// The chain from water to wire, the table over pipe sizes, the draws against a bare loop, Colebrook against Newton.
#include "power/chain_draws.h"
#include "power/friction.h"
#include "power/tables.h"
#include "water/water.h"

#include <benchmark/benchmark.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <random>

namespace {

using namespace rillmark;

ChainInput chain_of(int sections) {
    ChainInput input;
    input.gross_head_m = Estimate{30.0, 0.15};
    input.flow_m3s = Estimate{0.03, 0.0015};
    for (int i = 0; i < sections; ++i) {
        const double length_m = 350.0 / sections;
        // every one of its own size, which is the dearest case
        input.pipes.push_back({{{length_m, 0.02 * length_m}, {2.0 / sections, 0.4 / sections}},
                               {0.19 + 0.0001 * i, 0.001},
                               {1e-5, 5e-6},
                               6e5,
                               std::to_string(i)});
    }
    input.cable = ChainCable{Current::SinglePhase, {200.0, 2.0}, {0.4e-3, 0.01e-3}, 0.0, 240.0, 0.95};
    return input;
}

void chain_with_budget(benchmark::State& state) {
    const ChainInput input = chain_of(static_cast<int>(state.range(0)));
    for (auto _ : state)
        benchmark::DoNotOptimize(water_to_wire(input));
}
BENCHMARK(chain_with_budget)->Arg(1)->Arg(50)->Unit(benchmark::kMillisecond);

void table_over_forty_sizes(benchmark::State& state) {
    const PowerTables tables = read_power_tables().value();
    const ChainInput input = chain_of(1);
    const std::span<const PipeSize> sizes(tables.pipes.data(), 40);
    for (auto _ : state)
        benchmark::DoNotOptimize(over_pipe_sizes(input, input.pipes.front().route, sizes));
}
BENCHMARK(table_over_forty_sizes)->Unit(benchmark::kMillisecond);

void hundred_thousand_draws(benchmark::State& state) {
    const ChainInput input = chain_of(1);
    std::mt19937_64 engine(1);
    for (auto _ : state)
        benchmark::DoNotOptimize(draw_watts(input, engine));
}
BENCHMARK(hundred_thousand_draws)->Unit(benchmark::kMillisecond);

/// Newton on the textbook form from Haaland's value until the change is below `accuracy` of x.
double newton_colebrook(double reynolds, double relative, double accuracy) {
    const double rough = relative / 3.7;
    const double smooth = 2.51 / reynolds;
    double x = -1.8 * std::log10(std::pow(rough, 1.11) + 6.9 / reynolds);
    for (int step = 0; step < 20; ++step) {
        const double inside = rough + smooth * x;
        const double change = (x + 2.0 * std::log10(inside)) / (1.0 + 2.0 / std::numbers::ln10 * smooth / inside);
        x -= change;
        if (std::abs(change) < accuracy * x)
            break;
    }
    return 1.0 / (x * x);
}

/// The same formulas written out in one loop, with the standard library's draws.
void bare_loop(benchmark::State& state) {
    std::mt19937_64 engine(1);
    std::normal_distribution<double> normal;
    for (auto _ : state) {
        std::vector<double> watts(kUsualDraws);
        for (double& one : watts) {
            const auto draw = [&](double value, double u) { return value + u * normal(engine); };
            const double head = draw(30.0, 0.15);
            const double flow = draw(0.03, 0.0015);
            const double temperature = std::clamp(draw(10.0, 4.0), kWaterTemperatureMin_C, kWaterTemperatureMax_C);
            const double length = draw(350.0, 7.0);
            const double bore = draw(0.19, 0.001);
            const double roughness = std::max(draw(1e-5, 5e-6), 0.0);
            const double formula = draw(1.0, 0.02);
            const double k = draw(2.0, 0.4);
            const double turbine = draw(0.7, 0.05);
            const double generator = draw(0.85, 0.025);
            const double cable_length = draw(200.0, 2.0);
            const double cable_r = draw(0.4e-3, 0.01e-3);
            const double density = water_density_kgm3(temperature).value();
            const double viscosity = water_kinematic_viscosity_m2s(temperature).value();
            const double speed = flow / (std::numbers::pi / 4.0 * bore * bore);
            const double f = newton_colebrook(speed * bore / viscosity, roughness / bore, 1e-13);
            const double loss = (formula * f * length / bore + k) * speed * speed / (2.0 * 9.807);
            const double sent = density * 9.807 * flow * (head - loss) * turbine * generator;
            const double current = sent / (240.0 * 0.95);
            one = sent - 2.0 * current * current * cable_length * cable_r;
        }
        std::sort(watts.begin(), watts.end());
        benchmark::DoNotOptimize(watts);
    }
}
BENCHMARK(bare_loop)->Unit(benchmark::kMillisecond);

constexpr int kCases = 1024;

std::vector<std::pair<double, double>> friction_cases() {
    std::mt19937_64 engine(3);
    std::uniform_real_distribution<double> part(0.0, 1.0);
    std::vector<std::pair<double, double>> cases;
    for (int i = 0; i < kCases; ++i)
        cases.emplace_back(std::pow(10.0, 3.7 + 4.3 * part(engine)), std::pow(10.0, -6.0 + 4.0 * part(engine)));
    return cases;
}

void colebrook_ours(benchmark::State& state) {
    const auto cases = friction_cases();
    for (auto _ : state)
        for (const auto& [reynolds, relative] : cases)
            benchmark::DoNotOptimize(darcy_friction(reynolds, relative));
    state.SetItemsProcessed(state.iterations() * kCases);
}
BENCHMARK(colebrook_ours);

void colebrook_newton(benchmark::State& state) {
    const auto cases = friction_cases();
    for (auto _ : state)
        for (const auto& [reynolds, relative] : cases)
            benchmark::DoNotOptimize(newton_colebrook(reynolds, relative, 1e-13));
    state.SetItemsProcessed(state.iterations() * kCases);
}
BENCHMARK(colebrook_newton);

} // namespace

BENCHMARK_MAIN();
