// SPDX-License-Identifier: GPL-3.0-or-later
// A height network of 10,000 observations over 3,000 stations against a bare solver of the same normal equations, and one
// more reading in a network of field size to the new head.
#include "levelling/height_network.h"

#include <Eigen/SparseCholesky>
#include <benchmark/benchmark.h>

#include <map>
#include <random>
#include <string>
#include <vector>

namespace {

using namespace rillmark;

/// A line down a valley: every point is joined to the last one, and the other readings go to points some way back.
std::vector<HeightDifference> valley(int stations, int observations) {
    std::mt19937 random(20260301);
    std::normal_distribution<double> normal;
    std::uniform_int_distribution<int> reach(1, 12);
    std::uniform_int_distribution<int> any(0, stations - 1);
    std::vector<HeightDifference> all;
    const auto observe = [&](int from, int to) {
        const double u_m = 0.003;
        all.push_back({static_cast<std::int64_t>(all.size()) + 1, "P" + std::to_string(from), "P" + std::to_string(to),
                       -0.7 * (to - from) + u_m * normal(random), u_m, "levels.staff_reading", "P"});
    };
    for (int i = 1; i < stations; ++i)
        observe(i - 1, i);
    while (static_cast<int>(all.size()) < observations) {
        const int to = any(random);
        const int from = to - reach(random);
        if (from >= 0)
            observe(from, to);
    }
    return all;
}

void adjusted_network(benchmark::State& state) {
    const std::vector<HeightDifference> all = valley(3000, 10000);
    for (auto _ : state) {
        const Expected<AdjustedNetwork> network = adjust(all, {{"P0", {100.0, 0.0}, true}});
        if (!network || network->heights().size() != 3000)
            state.SkipWithError("not adjusted");
        benchmark::DoNotOptimize(network);
    }
}
BENCHMARK(adjusted_network)->Unit(benchmark::kMillisecond);

/// Factorises the same normal matrix and solves a unit column for every height: what covariances of all heights cost
/// without more thought.
void bare_solver(benchmark::State& state) {
    const std::vector<HeightDifference> all = valley(3000, 10000);
    std::map<std::string, int> index;
    for (const HeightDifference& d : all)
        for (const std::string& point : {d.from, d.to})
            if (point != "P0")
                index.try_emplace(point, static_cast<int>(index.size()));
    const int n = static_cast<int>(index.size());
    for (auto _ : state) {
        std::vector<Eigen::Triplet<double>> entries;
        for (const HeightDifference& d : all) {
            const double weight = 1.0 / (d.standard_uncertainty_m * d.standard_uncertainty_m);
            const int from = d.from == "P0" ? -1 : index.at(d.from);
            const int to = d.to == "P0" ? -1 : index.at(d.to);
            if (from >= 0)
                entries.emplace_back(from, from, weight);
            if (to >= 0)
                entries.emplace_back(to, to, weight);
            if (from >= 0 && to >= 0)
                entries.emplace_back(std::max(from, to), std::min(from, to), -weight);
        }
        Eigen::SparseMatrix<double> normal(n, n);
        normal.setFromTriplets(entries.begin(), entries.end());
        const Eigen::SimplicialLDLT<Eigen::SparseMatrix<double>> solver(normal);
        Eigen::VectorXd unit = Eigen::VectorXd::Zero(n);
        double sum = 0.0;
        for (int i = 0; i < n; ++i) {
            unit[i] = 1.0;
            sum += solver.solve(unit)[i];
            unit[i] = 0.0;
        }
        benchmark::DoNotOptimize(sum);
    }
}
BENCHMARK(bare_solver)->Unit(benchmark::kMillisecond);

void one_more_reading_to_the_head(benchmark::State& state) {
    std::vector<HeightDifference> all = valley(300, 1000);
    all.push_back({1001, "P3", "P290", -200.9, 0.02, "levels.staff_reading", "P290"});
    for (auto _ : state) {
        const Expected<AdjustedNetwork> network = adjust(all);
        const Expected<DifferenceBudget> head = network->difference_budget("P299", "P0");
        if (!head)
            state.SkipWithError("no head");
        benchmark::DoNotOptimize(head);
    }
}
BENCHMARK(one_more_reading_to_the_head)->Unit(benchmark::kMillisecond);

} // namespace

BENCHMARK_MAIN();
