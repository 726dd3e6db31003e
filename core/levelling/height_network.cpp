// SPDX-License-Identifier: GPL-3.0-or-later
#include "levelling/height_network.h"

#include "levelling/network_graph.h"
#include "levelling/normal_equations.h"
#include "levelling/sight_judgement.h"
#include "levelling/sight_observations.h"
#include "uncertainty/chi_squared.h"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <utility>

namespace rillmark {

namespace {

constexpr double kConfidence = 0.95;

/// Below this redundancy an observation counts as checked by nothing (our choice, no source).
constexpr double kLeastRedundancy = 1e-6;

/// Rounding of a redundancy, relative to variance of the heights x weight: it matters where a point hangs on the datum
/// by a far poorer observation than the one in hand.
constexpr double kRoundingOfRedundancy = 1e-12;

/// Budget lines with a smaller share are left out.
constexpr double kLeastShare = 1e-12;

double square(double x) {
    return x * x;
}

std::size_t as_index(int i) {
    return static_cast<std::size_t>(i);
}

std::vector<NetworkEdge> edges_of(const NetworkGraph& graph) {
    const auto unknown = [&](int node) {
        return node == NetworkEdge::kGiven ? NetworkEdge::kGiven : graph.unknown[as_index(node)];
    };
    std::vector<NetworkEdge> edges;
    edges.reserve(graph.links.size() + graph.shared.size());
    for (const NetworkLink& l : graph.links)
        edges.push_back({unknown(l.from), unknown(l.to), 1.0 / (l.standard_uncertainty_m * l.standard_uncertainty_m),
                         std::span(graph.terms).subspan(l.first_term, l.terms)});
    return edges;
}

/// What is known of each shared error beforehand: 0 with a standard uncertainty of 1.
std::vector<NetworkTerm> prior_terms_of(const NetworkGraph& graph) {
    std::vector<NetworkTerm> terms;
    for (const SharedUnknown& one : graph.shared)
        terms.push_back({one.unknown, 1.0});
    return terms;
}

double value_at(const Eigen::VectorXd& values, int unknown) {
    return unknown == NetworkEdge::kGiven ? 0.0 : values[unknown];
}

/// The part of an observation's row of A in a vector of the unknowns.
double along(const NetworkEdge& edge, const Eigen::VectorXd& values) {
    double sum = value_at(values, edge.to) - value_at(values, edge.from);
    for (const NetworkTerm& term : edge.terms)
        sum += term.coefficient * values[term.unknown];
    return sum;
}

} // namespace

/// What an adjustment leaves behind; adjust() fills it, AdjustedNetwork reads it.
class NetworkSolution {
public:
    NetworkSolution(NetworkGraph graph, const std::vector<HeightDifference>& differences,
                    const std::vector<KnownHeight>& known)
        : m_graph(std::move(graph)), m_prior_terms(prior_terms_of(m_graph)), m_edges(all_edges()),
          m_normal(m_graph.unknowns, m_edges) {
        if (!m_normal.ok())
            return;
        m_sources.reserve(m_graph.links.size());
        for (const HeightDifference& d : differences)
            m_sources.push_back({d.id, d.source, d.subject});
        for (const KnownHeight& k : known)
            if (!k.fixed)
                m_sources.push_back({k.id, k.source, k.point});
        for (const SharedUnknown& one : m_graph.shared)
            m_sources.push_back({0, one.source, one.key});
        solve();
        list_heights();
        examine_observations();
        test();
        find_fault();
    }

    [[nodiscard]] bool ok() const { return m_normal.ok(); }

    [[nodiscard]] Expected<std::pair<int, int>> joined(const std::string& from, const std::string& to) const {
        const auto first = m_graph.nodes.find(from);
        const auto second = m_graph.nodes.find(to);
        if (first == m_graph.nodes.end() || second == m_graph.nodes.end())
            return refusal("levels.point_unknown", first == m_graph.nodes.end() ? from : to);
        if (m_graph.group[as_index(first->second)] != m_graph.group[as_index(second->second)])
            return refusal("levels.points_not_joined", from, {{"other", to, Quantity::Number}});
        return std::pair(first->second, second->second);
    }

    /// N^-1 times the unit step from one node to another: how the difference follows the observations.
    [[nodiscard]] Eigen::VectorXd response(std::pair<int, int> nodes) const {
        Eigen::VectorXd step = Eigen::VectorXd::Zero(m_graph.unknowns);
        if (const int from = m_graph.unknown[as_index(nodes.first)]; from != NetworkEdge::kGiven)
            step[from] -= 1.0;
        if (const int to = m_graph.unknown[as_index(nodes.second)]; to != NetworkEdge::kGiven)
            step[to] += 1.0;
        return m_normal.solve(step);
    }

    [[nodiscard]] Estimate difference(std::pair<int, int> nodes, const Eigen::VectorXd& response) const {
        const double variance = value_at(response, m_graph.unknown[as_index(nodes.second)]) -
                                value_at(response, m_graph.unknown[as_index(nodes.first)]);
        return {m_heights_m[as_index(nodes.second)] - m_heights_m[as_index(nodes.first)],
                std::sqrt(std::max(variance, 0.0))};
    }

    [[nodiscard]] DifferenceBudget budget(std::pair<int, int> nodes) const {
        const Eigen::VectorXd q = response(nodes);
        DifferenceBudget result;
        result.difference = difference(nodes, q);
        std::vector<double> contributions_m(m_edges.size());
        double variance = 0.0;
        for (std::size_t i = 0; i < m_edges.size(); ++i) {
            // Sensitivity weight x (a' q), times the standard uncertainty, which is 1 / sqrt(weight).
            contributions_m[i] = std::abs(along(m_edges[i], q)) * std::sqrt(m_edges[i].weight);
            variance += contributions_m[i] * contributions_m[i];
        }
        std::vector<std::size_t> order;
        for (std::size_t i = 0; i < m_edges.size(); ++i)
            if (contributions_m[i] * contributions_m[i] > kLeastShare * variance)
                order.push_back(i);
        std::stable_sort(order.begin(), order.end(),
                         [&](std::size_t a, std::size_t b) { return contributions_m[a] > contributions_m[b]; });
        for (const std::size_t i : order) {
            result.budget.push_back({m_sources[i].source, m_sources[i].subject, contributions_m[i],
                                     contributions_m[i] * contributions_m[i] / variance});
            result.ids.push_back(m_sources[i].id);
        }
        return result;
    }

    [[nodiscard]] std::vector<PointHeight> falls_below(int reference) const {
        const int unknown = m_graph.unknown[as_index(reference)];
        Eigen::VectorXd unit = Eigen::VectorXd::Zero(m_graph.unknowns);
        if (unknown != NetworkEdge::kGiven)
            unit[unknown] = 1.0;
        const Eigen::VectorXd covariance = m_normal.solve(unit);
        std::vector<PointHeight> falls;
        for (int node = 0; node < static_cast<int>(m_heights_m.size()); ++node) {
            const std::string& name = m_graph.names[as_index(node)];
            if (m_graph.group[as_index(node)] != m_graph.group[as_index(reference)] || is_instrument_node(name))
                continue;
            double variance = 0.0;
            if (node != reference)
                variance = variance_of(node) + value_at(covariance, unknown) -
                           2.0 * value_at(covariance, m_graph.unknown[as_index(node)]);
            falls.push_back(
                {name,
                 {m_heights_m[as_index(reference)] - m_heights_m[as_index(node)], std::sqrt(std::max(variance, 0.0))}});
        }
        return falls;
    }

    [[nodiscard]] std::vector<double> uncertainty_with(std::pair<int, int> nodes, const std::vector<PlannedDifference>& planned) const {
        const Eigen::VectorXd q = response(nodes);
        const double variance_m2 = square(difference(nodes, q).standard_uncertainty);
        std::vector<double> with_each_m;
        with_each_m.reserve(planned.size());
        for (const PlannedDifference& one : planned) {
            double left_m2 = variance_m2;
            if (const Expected<std::pair<int, int>> ends = joined(one.from, one.to)) {
                const NetworkEdge edge{m_graph.unknown[as_index(ends->first)], m_graph.unknown[as_index(ends->second)]};
                const double between_m2 = square(difference(*ends, response(*ends)).standard_uncertainty);
                left_m2 -= square(along(edge, q)) / (square(one.standard_uncertainty_m) + between_m2);
            }
            with_each_m.push_back(std::sqrt(std::max(left_m2, 0.0)));
        }
        return with_each_m;
    }

    [[nodiscard]] std::optional<int> joined_to_datum(const std::string& point) const {
        const auto found = m_graph.nodes.find(point);
        if (found == m_graph.nodes.end() || m_graph.group[as_index(found->second)] != 0)
            return std::nullopt;
        return found->second;
    }

    [[nodiscard]] Estimate height_of(int node) const {
        return {m_heights_m[as_index(node)], std::sqrt(variance_of(node))};
    }

    std::vector<PointHeight> heights;
    std::vector<AdjustedObservation> observations;
    std::vector<SharedEstimate> shared;
    std::optional<GlobalTest> global_test;
    std::vector<std::vector<std::string>> unconnected;
    Findings findings;

private:
    struct Source {
        std::int64_t id;
        std::string source;
        std::string subject;
    };

    [[nodiscard]] double variance_of(int node) const {
        const int unknown = m_graph.unknown[as_index(node)];
        return unknown == NetworkEdge::kGiven ? 0.0 : std::max(m_normal.variances()[as_index(unknown)], 0.0);
    }

    [[nodiscard]] std::vector<NetworkEdge> all_edges() const {
        std::vector<NetworkEdge> edges = edges_of(m_graph);
        for (const NetworkTerm& term : m_prior_terms)
            edges.push_back({NetworkEdge::kGiven, NetworkEdge::kGiven, 1.0, std::span(&term, 1)});
        return edges;
    }

    /// Adjusted - observed; of a shared error, what it came to in its own standard uncertainty.
    [[nodiscard]] double residual(std::size_t edge) const {
        if (edge >= m_graph.links.size())
            return m_shared[edge - m_graph.links.size()];
        const NetworkLink& l = m_graph.links[edge];
        const double from_m = l.from == NetworkEdge::kGiven ? 0.0 : m_heights_m[as_index(l.from)];
        double adjusted_m = m_heights_m[as_index(l.to)] - from_m;
        for (const NetworkTerm& term : m_edges[edge].terms)
            adjusted_m += term.coefficient * m_shared[as_index(term.unknown - first_shared())];
        return adjusted_m - l.rise_m;
    }

    [[nodiscard]] int first_shared() const { return m_graph.unknowns - static_cast<int>(m_graph.shared.size()); }

    void solve() {
        m_heights_m = m_graph.start_m;
        m_shared.assign(m_graph.shared.size(), 0.0);
        // The second round takes out the rounding of the first, which starts from heights that may be metres off.
        for (int round = 0; round < 2; ++round) {
            Eigen::VectorXd right = Eigen::VectorXd::Zero(m_graph.unknowns);
            for (std::size_t i = 0; i < m_edges.size(); ++i) {
                const double pull = m_edges[i].weight * residual(i);
                if (m_edges[i].from != NetworkEdge::kGiven)
                    right[m_edges[i].from] += pull;
                if (m_edges[i].to != NetworkEdge::kGiven)
                    right[m_edges[i].to] -= pull;
                for (const NetworkTerm& term : m_edges[i].terms)
                    right[term.unknown] -= term.coefficient * pull;
            }
            const Eigen::VectorXd change = m_normal.solve(right);
            for (std::size_t i = 0; i < m_heights_m.size(); ++i)
                m_heights_m[i] += value_at(change, m_graph.unknown[i]);
            for (std::size_t i = 0; i < m_shared.size(); ++i)
                m_shared[i] += change[m_graph.shared[i].unknown];
        }
    }

    void list_heights() {
        unconnected.resize(as_index(m_graph.groups - 1));
        for (std::size_t i = 0; i < m_graph.names.size(); ++i) {
            if (is_instrument_node(m_graph.names[i]))
                continue;
            if (m_graph.group[i] == 0)
                heights.push_back({m_graph.names[i], height_of(static_cast<int>(i))});
            else
                unconnected[as_index(m_graph.group[i] - 1)].push_back(m_graph.names[i]);
        }
        for (const std::vector<std::string>& group : unconnected)
            findings.push_back(warning("levels.network_unconnected", group.empty() ? std::string() : group.front(),
                                       {{"count", static_cast<std::int64_t>(group.size()), Quantity::Number}}));
    }

    void examine_observations() {
        observations.reserve(m_graph.links.size());
        for (std::size_t i = 0; i < m_graph.links.size(); ++i) {
            const NetworkLink& l = m_graph.links[i];
            AdjustedObservation o{m_sources[i].id, m_sources[i].source, m_sources[i].subject, residual(i), 0.0, {}, {}, false};
            const double weight = m_edges[i].weight;
            o.redundancy = std::clamp(1.0 - weight * m_normal.edge_variances()[i], 0.0, 1.0);
            const double from_variance = l.from == NetworkEdge::kGiven ? 0.0 : variance_of(l.from);
            const double rounding = kRoundingOfRedundancy * weight * std::max(variance_of(l.to), from_variance);
            if (o.redundancy > std::max(kLeastRedundancy, rounding)) {
                o.normalised_residual = o.residual_m / (l.standard_uncertainty_m * std::sqrt(o.redundancy));
                o.smallest_found_m = kNonCentrality * l.standard_uncertainty_m / std::sqrt(o.redundancy);
                o.outlier = std::abs(*o.normalised_residual) > kOutlierLimit;
            }
            observations.push_back(std::move(o));
        }
        for (std::size_t i = 0; i < m_shared.size(); ++i) {
            const SharedUnknown& one = m_graph.shared[i];
            const double variance = m_normal.variances()[as_index(one.unknown)];
            shared.push_back({one.key, one.source, {m_shared[i], std::sqrt(std::max(variance, 0.0))}});
        }
    }

    void test() {
        const auto unknowns = as_index(m_graph.unknowns);
        if (m_edges.size() <= unknowns)
            return;
        GlobalTest result;
        result.degrees_of_freedom = m_edges.size() - unknowns;
        for (std::size_t i = 0; i < m_edges.size(); ++i)
            result.value += m_edges[i].weight * square(residual(i));
        result.limit = chi_squared_quantile(kConfidence, result.degrees_of_freedom);
        global_test = result;
        if (!result.passes())
            findings.push_back(warning("levels.network_test_failed", "",
                                       {{"value", result.value, Quantity::Number},
                                        {"limit", result.limit, Quantity::Number},
                                        {"s0", result.s0(), Quantity::Number}}));
    }

    /// One finding, for the worst: a gross error spreads over its neighbours, so one is mended at a time.
    void find_fault() {
        const AdjustedObservation* worst = nullptr;
        std::int64_t count = 0;
        for (const AdjustedObservation& o : observations) {
            if (!o.outlier)
                continue;
            ++count;
            if (!worst || std::abs(*o.normalised_residual) > std::abs(*worst->normalised_residual))
                worst = &o;
        }
        if (worst)
            findings.push_back(warning("levels.observation_outlier", worst->subject,
                                       {{"id", worst->id, Quantity::Number},
                                        {"residual", worst->residual_m, Quantity::Length},
                                        {"ratio", std::abs(*worst->normalised_residual), Quantity::Number},
                                        {"limit", kOutlierLimit, Quantity::Number},
                                        {"count", count, Quantity::Number}}));
    }

    NetworkGraph m_graph;
    std::vector<NetworkTerm> m_prior_terms; // of each shared error
    std::vector<NetworkEdge> m_edges;       // the links, then what is known of each shared error
    NormalEquations m_normal;
    std::vector<Source> m_sources;   // of each link
    std::vector<double> m_heights_m; // of each node
    std::vector<double> m_shared;    // of each shared error, in its own standard uncertainty
};

double GlobalTest::s0() const {
    return degrees_of_freedom == 0 ? 0.0 : std::sqrt(value / static_cast<double>(degrees_of_freedom));
}

AdjustedNetwork::AdjustedNetwork(std::shared_ptr<const NetworkSolution> solution) : m_solution(std::move(solution)) {}

const std::vector<PointHeight>& AdjustedNetwork::heights() const {
    return m_solution->heights;
}

std::optional<Estimate> AdjustedNetwork::height(const std::string& point) const {
    const std::optional<int> node = m_solution->joined_to_datum(point);
    return node ? std::optional(m_solution->height_of(*node)) : std::nullopt;
}

const std::vector<AdjustedObservation>& AdjustedNetwork::observations() const {
    return m_solution->observations;
}

const std::vector<SharedEstimate>& AdjustedNetwork::shared() const {
    return m_solution->shared;
}

const std::optional<GlobalTest>& AdjustedNetwork::global_test() const {
    return m_solution->global_test;
}

const std::vector<std::vector<std::string>>& AdjustedNetwork::unconnected() const {
    return m_solution->unconnected;
}

const Findings& AdjustedNetwork::findings() const {
    return m_solution->findings;
}

Expected<Estimate> AdjustedNetwork::difference(const std::string& from, const std::string& to) const {
    const auto nodes = m_solution->joined(from, to);
    if (!nodes)
        return nodes.error();
    return m_solution->difference(*nodes, m_solution->response(*nodes));
}

Expected<DifferenceBudget> AdjustedNetwork::difference_budget(const std::string& from, const std::string& to) const {
    const auto nodes = m_solution->joined(from, to);
    if (!nodes)
        return nodes.error();
    return m_solution->budget(*nodes);
}

Expected<std::vector<double>> AdjustedNetwork::uncertainty_with(const std::string& from, const std::string& to,
                                                                const std::vector<PlannedDifference>& planned) const {
    const auto nodes = m_solution->joined(from, to);
    if (!nodes)
        return nodes.error();
    return m_solution->uncertainty_with(*nodes, planned);
}

Expected<std::vector<PointHeight>> AdjustedNetwork::falls_below(const std::string& point) const {
    const auto nodes = m_solution->joined(point, point);
    if (!nodes)
        return nodes.error();
    return m_solution->falls_below(nodes->first);
}

Expected<AdjustedNetwork> adjust(const std::vector<HeightDifference>& differences,
                                 const std::vector<KnownHeight>& known, const AdjustOptions& options) {
    Expected<NetworkGraph> graph = build_graph(differences, known, options);
    if (!graph)
        return graph.error();
    auto solution = std::make_shared<const NetworkSolution>(std::move(graph).value(), differences, known);
    if (!solution->ok())
        return refusal("levels.network_unsolvable");
    return AdjustedNetwork(std::move(solution));
}

} // namespace rillmark
