// SPDX-License-Identifier: GPL-3.0-or-later
#include "heights/geoid.h"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <limits>

namespace rillmark {

namespace {

// assets/geoid/README.md
constexpr std::size_t kRows = 721;
constexpr std::size_t kColumns = 1440;
constexpr std::size_t kBytesPerNode = 2;
constexpr double kNodesPerDegree = 4.0;
constexpr double kUnit_m = 0.01;

} // namespace

Expected<GeoidGrid> GeoidGrid::from_bytes(std::span<const std::byte> bytes) {
    if (bytes.size() != kRows * kColumns * kBytesPerNode)
        return refusal("levels.geoid_grid_damaged");
    const GeoidGrid grid(bytes);
    for (const std::size_t pole : {std::size_t{0}, kRows - 1})
        for (std::size_t column = 1; column < kColumns; ++column)
            if (grid.node_m(pole, column) != grid.node_m(pole, 0))
                return refusal("levels.geoid_grid_damaged");
    return grid;
}

double GeoidGrid::node_m(std::size_t row, std::size_t column) const {
    const std::size_t at = (row * kColumns + column) * kBytesPerNode;
    const auto low = std::to_integer<std::uint16_t>(m_bytes[at]);
    const auto high = std::to_integer<std::uint16_t>(m_bytes[at + 1]);
    return kUnit_m * static_cast<std::int16_t>(static_cast<std::uint16_t>(high << 8U | low));
}

double GeoidGrid::separation_m(const GeoPoint& point) const {
    if (!std::isfinite(point.longitude_deg) || !(std::abs(point.latitude_deg) <= 90.0))
        return std::numeric_limits<double>::quiet_NaN();
    const double y = (point.latitude_deg + 90.0) * kNodesPerDegree;
    const double turns = std::floor((point.longitude_deg + 180.0) / 360.0);
    const double x = (point.longitude_deg + 180.0 - 360.0 * turns) * kNodesPerDegree;
    const std::size_t south =
        std::min(static_cast<std::size_t>(y), kRows - 2); // the north pole belongs to the last cell
    const std::size_t west = std::min(static_cast<std::size_t>(x), kColumns - 1); // rounding may reach a whole turn
    const std::size_t east = (west + 1) % kColumns;
    const double up = y - static_cast<double>(south);
    const double right = x - static_cast<double>(west);
    const double below = std::lerp(node_m(south, west), node_m(south, east), right);
    const double above = std::lerp(node_m(south + 1, west), node_m(south + 1, east), right);
    return std::lerp(below, above, up);
}

} // namespace rillmark
