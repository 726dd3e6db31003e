// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "levelling/height_network.h"

#include <cmath>
#include <map>
#include <random>
#include <string>
#include <vector>

namespace rillmark::networks {

inline HeightDifference difference(std::int64_t id, const std::string& from, const std::string& to, double rise_m,
                                   double u_m) {
    return {id, from, to, rise_m, u_m, "levels.staff_reading", from + "-" + to};
}

inline KnownHeight fixed(const std::string& point, double height_m) {
    return {point, {height_m, 0.0}, true};
}

struct RandomNetwork {
    std::vector<HeightDifference> differences;
    std::vector<KnownHeight> known; // the first is fixed
};

/// A joined network: every point hangs on an earlier one, and `extra` more differences close loops.
inline RandomNetwork random_network(std::mt19937& random, int points, int extra) {
    std::uniform_real_distribution<double> height(300.0, 420.0);
    std::uniform_real_distribution<double> log_u(std::log(0.001), std::log(0.5));
    std::normal_distribution<double> normal;
    std::vector<double> heights_m;
    for (int i = 0; i < points; ++i)
        heights_m.push_back(height(random));
    RandomNetwork network;
    const auto observe = [&](int from, int to) {
        const double u_m = std::exp(log_u(random));
        const double rise_m = heights_m[static_cast<std::size_t>(to)] - heights_m[static_cast<std::size_t>(from)];
        network.differences.push_back(difference(static_cast<std::int64_t>(network.differences.size()) + 1,
                                                 "P" + std::to_string(from), "P" + std::to_string(to),
                                                 rise_m + u_m * normal(random), u_m));
    };
    for (int i = 1; i < points; ++i)
        observe(std::uniform_int_distribution<int>(0, i - 1)(random), i);
    std::uniform_int_distribution<int> any(0, points - 1);
    for (int i = 0; i < extra; ++i) {
        const int from = any(random);
        const int to = any(random);
        if (from != to)
            observe(from, to);
    }
    network.known.push_back(fixed("P0", heights_m[0]));
    network.known.push_back({"P" + std::to_string(points - 1), {heights_m.back() + 0.1, 0.2}, false});
    return network;
}

/// The textbook way, independent of the code under test: dense normal equations in long double, Gauss-Jordan inverse.
struct DenseSolution {
    std::map<std::string, std::size_t> index; // unknown points
    std::string fixed_point;
    long double fixed_m = 0.0L;
    std::vector<long double> heights_m;
    std::vector<std::vector<long double>> cofactor;

    [[nodiscard]] long double height(const std::string& point) const {
        return point == fixed_point ? fixed_m : heights_m[index.at(point)];
    }
    [[nodiscard]] long double covariance(const std::string& a, const std::string& b) const {
        return a == fixed_point || b == fixed_point ? 0.0L : cofactor[index.at(a)][index.at(b)];
    }
    [[nodiscard]] double deviation(const std::string& from, const std::string& to) const {
        const long double variance = covariance(from, from) + covariance(to, to) - 2.0L * covariance(from, to);
        return static_cast<double>(std::sqrt(std::max(variance, 0.0L)));
    }
};

inline std::vector<std::vector<long double>> inverse(std::vector<std::vector<long double>> m) {
    const std::size_t n = m.size();
    std::vector<std::vector<long double>> result(n, std::vector<long double>(n, 0.0L));
    for (std::size_t i = 0; i < n; ++i)
        result[i][i] = 1.0L;
    for (std::size_t c = 0; c < n; ++c) { // positive definite: no pivoting needed
        const long double pivot = m[c][c];
        for (std::size_t j = 0; j < n; ++j) {
            m[c][j] /= pivot;
            result[c][j] /= pivot;
        }
        for (std::size_t r = 0; r < n; ++r) {
            const long double factor = m[r][c];
            if (r == c || factor == 0.0L)
                continue;
            for (std::size_t j = 0; j < n; ++j) {
                m[r][j] -= factor * m[c][j];
                result[r][j] -= factor * result[c][j];
            }
        }
    }
    return result;
}

inline DenseSolution solve_dense(const RandomNetwork& network) {
    DenseSolution s;
    s.fixed_point = network.known[0].point;
    s.fixed_m = network.known[0].height.value;
    const auto add_point = [&](const std::string& point) {
        if (point != s.fixed_point)
            s.index.try_emplace(point, s.index.size());
    };
    for (const HeightDifference& d : network.differences) {
        add_point(d.from);
        add_point(d.to);
    }
    const std::size_t n = s.index.size();
    std::vector<std::vector<long double>> normal(n, std::vector<long double>(n, 0.0L));
    std::vector<long double> right(n, 0.0L);
    const auto observe = [&](std::vector<std::pair<std::string, long double>> row, long double value, long double u) {
        const long double weight = 1.0L / (u * u);
        for (const auto& [point, sign] : row)
            if (point == s.fixed_point)
                value -= sign * s.fixed_m;
        for (const auto& [a, sign_a] : row) {
            if (a == s.fixed_point)
                continue;
            right[s.index.at(a)] += weight * sign_a * value;
            for (const auto& [b, sign_b] : row)
                if (b != s.fixed_point)
                    normal[s.index.at(a)][s.index.at(b)] += weight * sign_a * sign_b;
        }
    };
    for (const HeightDifference& d : network.differences)
        observe({{d.from, -1.0L}, {d.to, 1.0L}}, d.rise_m, d.standard_uncertainty_m);
    for (const KnownHeight& k : network.known)
        if (!k.fixed)
            observe({{k.point, 1.0L}}, k.height.value, k.height.standard_uncertainty);
    s.cofactor = inverse(normal);
    s.heights_m.assign(n, 0.0L);
    for (std::size_t i = 0; i < n; ++i)
        for (std::size_t j = 0; j < n; ++j)
            s.heights_m[i] += s.cofactor[i][j] * right[j];
    return s;
}

} // namespace rillmark::networks
