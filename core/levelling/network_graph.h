// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "levelling/height_network.h"
#include "levelling/normal_equations.h"

#include <string>
#include <unordered_map>
#include <vector>

namespace rillmark {

/// An observation between two nodes; kGiven as `from` is the zero of the datum.
struct NetworkLink {
    int from = NetworkEdge::kGiven;
    int to = NetworkEdge::kGiven;
    double rise_m = 0.0;
    double standard_uncertainty_m = 0.0;
    std::size_t first_term = 0; // in NetworkGraph::terms
    std::size_t terms = 0;
};

/// An error that observations share, as one more unknown in units of its own standard uncertainty.
struct SharedUnknown {
    std::string key;
    std::string source;
    int unknown = 0; // its place in the normal equations
};

/// The points of a height network by number, what joins them, and where the adjustment starts from.
struct NetworkGraph {
    std::vector<std::string> names; // in the order in which they were first named
    std::unordered_map<std::string, int> nodes;
    std::vector<NetworkLink> links; // the differences in their order, then the heights known but not fixed
    std::vector<bool> given;        // per node: fixed, or the zero of its group
    std::vector<double> start_m;    // per node: its height if given, else one along some path from a given node
    std::vector<int> group;         // per node: 0 when joined to the datum, else 1, 2, ...
    std::vector<int> unknown;       // per node: its place in the normal equations, or kGiven
    std::vector<NetworkTerm> terms; // of all links, one after the other
    std::vector<SharedUnknown> shared;
    int groups = 1;
    int unknowns = 0; // heights first, then the shared errors
};

/// Numbers the network. Refuses as adjust() does.
[[nodiscard]] Expected<NetworkGraph> build_graph(const std::vector<HeightDifference>& differences,
                                                 const std::vector<KnownHeight>& known, const AdjustOptions& options);

} // namespace rillmark
