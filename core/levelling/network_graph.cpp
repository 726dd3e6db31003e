// SPDX-License-Identifier: GPL-3.0-or-later
#include "levelling/network_graph.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

namespace rillmark {

namespace {

constexpr int kUnreached = -1;

class Builder {
public:
    explicit Builder(std::size_t links) { m_graph.links.reserve(links); }

    Expected<void> add(const HeightDifference& d) {
        if (d.from.empty() || d.to.empty())
            return refusal("levels.point_unnamed", d.subject);
        if (d.from == d.to)
            return refusal("levels.same_point", d.from);
        return link({node(d.from), node(d.to), d.rise_m, d.standard_uncertainty_m}, d.to, d.shared);
    }

    Expected<void> add(const KnownHeight& k) {
        if (k.point.empty())
            return refusal("levels.point_unnamed");
        const int at = node(k.point);
        if (!k.fixed)
            return link({NetworkEdge::kGiven, at, k.height.value, k.height.standard_uncertainty}, k.point, k.shared);
        if (!(std::abs(k.height.value) <= kLargestRise_m))
            return refusal("levels.rise_impossible", k.point, {{"rise", k.height.value, Quantity::Length}});
        const auto i = static_cast<std::size_t>(at);
        if (m_graph.given[i] && m_graph.start_m[i] != k.height.value)
            return refusal(
                "levels.known_heights_differ", k.point,
                {{"first", m_graph.start_m[i], Quantity::Length}, {"second", k.height.value, Quantity::Length}});
        give(at, k.height.value);
        return {};
    }

    [[nodiscard]] Expected<void> check_ratio() const {
        if (m_graph.links.empty() || m_largest_m <= kLargestUncertaintyRatio * m_smallest_m)
            return {};
        return refusal("levels.uncertainties_too_far_apart", m_largest_at,
                       {{"smallest", m_smallest_m, Quantity::Length},
                        {"largest", m_largest_m, Quantity::Length},
                        {"smallest_at", m_smallest_at, Quantity::Number}});
    }

    Expected<void> give_datum(const std::string& point) {
        const auto found = m_graph.nodes.find(point);
        if (found == m_graph.nodes.end())
            return refusal("levels.point_unknown", point);
        give(found->second, 0.0);
        return {};
    }

    NetworkGraph finish() && {
        collect_neighbours();
        m_graph.group.assign(m_graph.names.size(), kUnreached);
        for (std::size_t i = 0; i < m_graph.names.size(); ++i)
            if (m_graph.given[i])
                reach(static_cast<int>(i), 0, m_graph.start_m[i]);
        for (const NetworkLink& l : m_graph.links)
            if (l.from == NetworkEdge::kGiven && m_graph.group[static_cast<std::size_t>(l.to)] == kUnreached)
                reach(l.to, 0, l.rise_m);
        spread();
        for (std::size_t i = 0; i < m_graph.names.size(); ++i) {
            if (m_graph.group[i] != kUnreached)
                continue;
            give(static_cast<int>(i), 0.0);
            reach(static_cast<int>(i), m_graph.groups++, 0.0);
            spread();
        }
        m_graph.unknown.resize(m_graph.names.size());
        for (std::size_t i = 0; i < m_graph.names.size(); ++i)
            m_graph.unknown[i] = m_graph.given[i] ? NetworkEdge::kGiven : m_graph.unknowns++;
        for (NetworkTerm& term : m_graph.terms)
            term.unknown += m_graph.unknowns;
        for (SharedUnknown& one : m_graph.shared)
            one.unknown = m_graph.unknowns++;
        return std::move(m_graph);
    }

private:
    /// The number of the error among the shared ones; its place behind the heights is known at the end only.
    int shared_unknown(const SharedEffect& effect) {
        const auto [found, added] = m_shared.try_emplace(effect.key, static_cast<int>(m_graph.shared.size()));
        if (added)
            m_graph.shared.push_back({effect.key, effect.source, 0});
        return found->second;
    }

    int node(const std::string& name) {
        const auto [found, added] = m_graph.nodes.try_emplace(name, static_cast<int>(m_graph.names.size()));
        if (added) {
            m_graph.names.push_back(name);
            m_graph.given.push_back(false);
            m_graph.start_m.push_back(0.0);
        }
        return found->second;
    }

    void give(int at, double height_m) {
        m_graph.given[static_cast<std::size_t>(at)] = true;
        m_graph.start_m[static_cast<std::size_t>(at)] = height_m;
    }

    Expected<void> link(NetworkLink l, const std::string& where, const std::vector<SharedEffect>& shared) {
        if (!(std::abs(l.rise_m) <= kLargestRise_m))
            return refusal("levels.rise_impossible", where, {{"rise", l.rise_m, Quantity::Length}});
        const double u_m = l.standard_uncertainty_m;
        if (!std::isfinite(u_m) || u_m <= 0.0)
            return refusal("levels.uncertainty_impossible", where, {{"uncertainty", u_m, Quantity::Length}});
        if (u_m < m_smallest_m) {
            m_smallest_m = u_m;
            m_smallest_at = where;
        }
        if (u_m > m_largest_m) {
            m_largest_m = u_m;
            m_largest_at = where;
        }
        l.first_term = m_graph.terms.size();
        for (const SharedEffect& effect : shared) {
            if (!(std::abs(effect.effect_m) <= kLargestRise_m) || effect.key.empty())
                return refusal("levels.uncertainty_impossible", where, {{"uncertainty", effect.effect_m, Quantity::Length}});
            if (effect.effect_m != 0.0)
                m_graph.terms.push_back({shared_unknown(effect), effect.effect_m});
        }
        l.terms = m_graph.terms.size() - l.first_term;
        m_graph.links.push_back(l);
        return {};
    }

    /// Links of each node, one after the other: those of node i are m_neighbours[m_start[i]] .. [m_start[i + 1]].
    void collect_neighbours() {
        m_start.assign(m_graph.names.size() + 1, 0);
        const auto each_end = [&](auto&& visit) {
            for (std::size_t i = 0; i < m_graph.links.size(); ++i) {
                if (m_graph.links[i].from == NetworkEdge::kGiven)
                    continue;
                visit(static_cast<std::size_t>(m_graph.links[i].from), i);
                visit(static_cast<std::size_t>(m_graph.links[i].to), i);
            }
        };
        each_end([&](std::size_t at, std::size_t) { ++m_start[at + 1]; });
        for (std::size_t i = 1; i < m_start.size(); ++i)
            m_start[i] += m_start[i - 1];
        m_neighbours.resize(m_start.back());
        std::vector<std::size_t> next(m_start.begin(), m_start.end() - 1);
        each_end([&](std::size_t at, std::size_t l) { m_neighbours[next[at]++] = l; });
    }

    void reach(int at, int group, double height_m) {
        const auto i = static_cast<std::size_t>(at);
        if (m_graph.group[i] != kUnreached)
            return;
        m_graph.group[i] = group;
        if (!m_graph.given[i])
            m_graph.start_m[i] = height_m;
        m_queue.push_back(at);
    }

    void spread() {
        for (; m_done < m_queue.size(); ++m_done) {
            const int at = m_queue[m_done];
            const auto i = static_cast<std::size_t>(at);
            for (std::size_t n = m_start[i]; n < m_start[i + 1]; ++n) {
                const NetworkLink& l = m_graph.links[m_neighbours[n]];
                if (l.from == at)
                    reach(l.to, m_graph.group[i], m_graph.start_m[i] + l.rise_m);
                else
                    reach(l.from, m_graph.group[i], m_graph.start_m[i] - l.rise_m);
            }
        }
    }

    NetworkGraph m_graph;
    std::unordered_map<std::string, int> m_shared;
    std::vector<std::size_t> m_start;
    std::vector<std::size_t> m_neighbours;
    std::vector<int> m_queue;
    std::size_t m_done = 0;
    double m_smallest_m = std::numeric_limits<double>::infinity();
    double m_largest_m = 0.0;
    std::string m_smallest_at;
    std::string m_largest_at;
};

} // namespace

Expected<NetworkGraph> build_graph(const std::vector<HeightDifference>& differences,
                                   const std::vector<KnownHeight>& known, const AdjustOptions& options) {
    if (differences.empty() && known.empty())
        return refusal("levels.network_empty");
    Builder builder(differences.size() + known.size());
    for (const HeightDifference& d : differences)
        if (const Expected<void> added = builder.add(d); !added)
            return added.error();
    for (const KnownHeight& k : known)
        if (const Expected<void> added = builder.add(k); !added)
            return added.error();
    if (const Expected<void> alike = builder.check_ratio(); !alike)
        return alike.error();
    if (known.empty())
        if (const Expected<void> datum = builder.give_datum(options.datum_point.value_or(differences.front().from));
            !datum)
            return datum.error();
    return std::move(builder).finish();
}

} // namespace rillmark
