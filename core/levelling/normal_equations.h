// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <Eigen/SparseCholesky>
#include <Eigen/SparseCore>

#include <cstddef>
#include <span>
#include <vector>

namespace rillmark {

/// What a shared error adds to an observation: coefficient x the unknown.
struct NetworkTerm {
    int unknown = 0;
    double coefficient = 0.0;
};

/// An observation between two unknown heights, or between one and a given height (kGiven), with the shared errors in it.
/// An edge from and to kGiven with one term is what is known of that shared error beforehand.
struct NetworkEdge {
    static constexpr int kGiven = -1;
    int from = kGiven;
    int to = kGiven;
    double weight = 0.0; // 1 / u^2
    std::span<const NetworkTerm> terms = {};
};

/// The normal equations N = A' P A of a height network, factorised once. Every group of unknown heights must hang on a
/// given height, and every shared error on an edge of its own, else ok() is false.
class NormalEquations {
public:
    NormalEquations(int unknowns, const std::vector<NetworkEdge>& edges);

    [[nodiscard]] bool ok() const { return m_unknowns == 0 || m_factor.info() == Eigen::Success; }
    /// N^-1 times the right-hand side.
    [[nodiscard]] Eigen::VectorXd solve(const Eigen::VectorXd& right) const;
    /// Diagonal of N^-1: the variances of the unknowns.
    [[nodiscard]] const std::vector<double>& variances() const { return m_variances; }
    /// Variance of the adjusted difference of each edge.
    [[nodiscard]] const std::vector<double>& edge_variances() const { return m_edge_variances; }

private:
    void invert_on_pattern(const std::vector<NetworkEdge>& edges);

    using Matrix = Eigen::SparseMatrix<double>;
    int m_unknowns;
    Eigen::SimplicialLDLT<Matrix> m_factor;
    std::vector<double> m_variances;
    std::vector<double> m_edge_variances;
};

} // namespace rillmark
