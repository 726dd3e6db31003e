// SPDX-License-Identifier: GPL-3.0-or-later
#include "levelling/normal_equations.h"

#include <algorithm>

namespace rillmark {

namespace {

using Matrix = Eigen::SparseMatrix<double>;

/// The observation's row of A: its unknowns with their coefficients.
void row_of(const NetworkEdge& edge, std::vector<NetworkTerm>& row) {
    row.assign(edge.terms.begin(), edge.terms.end());
    if (edge.from != NetworkEdge::kGiven)
        row.push_back({edge.from, -1.0});
    if (edge.to != NetworkEdge::kGiven)
        row.push_back({edge.to, 1.0});
}

Matrix normal_matrix(int unknowns, const std::vector<NetworkEdge>& edges) {
    std::vector<Eigen::Triplet<double>> entries;
    entries.reserve(edges.size() * 3);
    std::vector<NetworkTerm> row;
    for (const NetworkEdge& e : edges) {
        row_of(e, row);
        for (std::size_t a = 0; a < row.size(); ++a)
            for (std::size_t b = 0; b <= a; ++b)
                entries.emplace_back(std::max(row[a].unknown, row[b].unknown), std::min(row[a].unknown, row[b].unknown),
                                     e.weight * row[a].coefficient * row[b].coefficient);
    }
    Matrix lower(unknowns, unknowns);
    lower.setFromTriplets(entries.begin(), entries.end());
    return lower;
}

} // namespace

NormalEquations::NormalEquations(int unknowns, const std::vector<NetworkEdge>& edges) : m_unknowns(unknowns) {
    if (m_unknowns == 0) {
        m_edge_variances.assign(edges.size(), 0.0);
        return;
    }
    m_factor.compute(normal_matrix(unknowns, edges));
    if (ok())
        invert_on_pattern(edges);
}

Eigen::VectorXd NormalEquations::solve(const Eigen::VectorXd& right) const {
    return m_unknowns == 0 ? Eigen::VectorXd() : Eigen::VectorXd(m_factor.solve(right));
}

/// The entries of N^-1 on the pattern of the factor L D L', from the last column back to the first: with z the inverse,
/// z_ij = -sum_k L_kj z_ki and z_jj = 1/D_j - sum_k L_kj z_kj, k over the pattern of column j (K. Takahashi, J. Fagan,
/// M. S. Chin, Formation of a sparse bus impedance matrix, 1973; from memory). The pattern holds the diagonal and every
/// edge, which is all that variances and redundancies need, at about the cost of the factorisation itself.
void NormalEquations::invert_on_pattern(const std::vector<NetworkEdge>& edges) {
    const auto& lower = m_factor.matrixL().nestedExpression(); // strictly below the diagonal; rows ascend
    const Eigen::VectorXd& pivots = m_factor.vectorD();
    const int* start = lower.outerIndexPtr();
    const int* row = lower.innerIndexPtr();
    const double* factor = lower.valuePtr();

    const auto count = static_cast<std::size_t>(m_unknowns);
    std::vector<double> diagonal(count, 0.0);
    std::vector<double> inverse(static_cast<std::size_t>(lower.nonZeros()), 0.0); // beside `factor`
    // The column in hand of L and of -z, spread out by row. `column` is zero outside the pattern, so that entries there
    // add nothing; `sum` is only read inside it.
    std::vector<double> column(count, 0.0);
    std::vector<double> sum(count, 0.0);
    for (int j = m_unknowns - 1; j >= 0; --j) {
        for (int a = start[j]; a < start[j + 1]; ++a) {
            column[static_cast<std::size_t>(row[a])] = factor[a];
            sum[static_cast<std::size_t>(row[a])] = 0.0;
        }
        for (int b = start[j]; b < start[j + 1]; ++b) {
            const auto k = static_cast<std::size_t>(row[b]);
            double own = factor[b] * diagonal[k];
            for (int e = start[k]; e < start[k + 1]; ++e) {
                const auto i = static_cast<std::size_t>(row[e]);
                const double z = inverse[static_cast<std::size_t>(e)];
                own += column[i] * z;
                sum[i] += factor[b] * z;
            }
            sum[k] += own;
        }
        double own = 1.0 / pivots[j];
        for (int a = start[j]; a < start[j + 1]; ++a) {
            const auto k = static_cast<std::size_t>(row[a]);
            inverse[static_cast<std::size_t>(a)] = -sum[k];
            own += factor[a] * sum[k];
            column[k] = 0.0;
        }
        diagonal[static_cast<std::size_t>(j)] = own;
    }

    const auto& permuted = m_factor.permutationP().indices(); // permuted[original] = place in the factor
    m_variances.resize(count);
    for (int i = 0; i < m_unknowns; ++i)
        m_variances[static_cast<std::size_t>(i)] = diagonal[static_cast<std::size_t>(permuted[i])];
    const auto covariance = [&](int first, int second) {
        if (first == second)
            return m_variances[static_cast<std::size_t>(first)];
        const int j = std::min(permuted[first], permuted[second]);
        const int* found = std::lower_bound(row + start[j], row + start[j + 1], std::max(permuted[first], permuted[second]));
        return inverse[static_cast<std::size_t>(found - row)];
    };
    m_edge_variances.reserve(edges.size());
    std::vector<NetworkTerm> terms;
    for (const NetworkEdge& e : edges) {
        row_of(e, terms);
        double sum_of_products = 0.0;
        for (std::size_t a = 0; a < terms.size(); ++a)
            for (std::size_t b = 0; b <= a; ++b)
                sum_of_products += (a == b ? 1.0 : 2.0) * terms[a].coefficient * terms[b].coefficient *
                                   covariance(terms[a].unknown, terms[b].unknown);
        m_edge_variances.push_back(sum_of_products);
    }
}

} // namespace rillmark
