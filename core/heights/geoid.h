// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "expected.h"
#include "position/local_frame.h"

#include <cstddef>
#include <span>

namespace rillmark {

/// What bilinear interpolation in the 15-minute grid adds, standard uncertainty: about 6 cm (computed for the places of
/// twenty receiver logs; two examples of GeographicLib's manual agree within 1 cm; more where the geoid is steep).
inline constexpr double kGeoidInterpolation_u_m = 0.06;
/// EGM96 against the true geoid, standard uncertainty on land: 0.5 to 1 m (from memory, unconfirmed; mountains with few
/// gravity data are worse). It changes by little within one site, so a head hardly feels it.
inline constexpr double kGeoidModel_u_m = 0.5;

/// Height of the geoid above the ellipsoid of WGS 84, from a grid of 15 minutes of arc.
class GeoidGrid {
public:
    /// The grid in the form of assets/geoid/README.md. The bytes are not copied: they must outlive it.
    /// Refuses another size, and poles that differ along their row (`levels.geoid_grid_damaged`).
    [[nodiscard]] static Expected<GeoidGrid> from_bytes(std::span<const std::byte> bytes);

    /// N = h - H, bilinear; any longitude (180 E and 180 W are one), poles included. The point must have passed
    /// check_point(); others give NaN. Accuracy against the model: kGeoidInterpolation_u_m; rounding of the grid 5 mm.
    [[nodiscard]] double separation_m(const GeoPoint& point) const;

private:
    explicit GeoidGrid(std::span<const std::byte> bytes) : m_bytes(bytes) {}
    [[nodiscard]] double node_m(std::size_t row, std::size_t column) const;
    std::span<const std::byte> m_bytes;
};

/// EGM96 (F. G. Lemoine et al., The Development of the Joint NASA GSFC and NIMA Geopotential Model EGM96,
/// NASA/TP-1998-206861), as built into the program.
[[nodiscard]] const GeoidGrid& egm96();

} // namespace rillmark
