// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "export/export_site.h"

#include <string>

namespace rillmark {

/// The plane in metres in which a site is drawn: UTM on WGS 84 in one zone for the whole site, or the site's own plane
/// about its first point with a position (LocalFrame).
class PlanFrame {
public:
    /// East and north of the site's first point. Refuses a site without a position (`exchange.no_positions`).
    [[nodiscard]] static Expected<PlanFrame> local(const ExportSite& site);
    /// UTM in the standard zone and on the hemisphere of the site's first point; a point beyond the equator keeps that
    /// hemisphere's northing, so that nothing jumps. Refuses as local() and as utm().
    [[nodiscard]] static Expected<PlanFrame> utm(const ExportSite& site);

    /// Refuses as utm() a point that the zone does not reach, and as check_point().
    [[nodiscard]] Expected<LocalPoint> to_plan(const GeoPoint& point) const;
    /// "UTM 11N WGS 84", or "local" with the origin in degrees.
    [[nodiscard]] const std::string& name() const { return m_name; }

private:
    PlanFrame(LocalFrame local, std::string name) : m_local(std::move(local)), m_name(std::move(name)) {}
    LocalFrame m_local;
    std::optional<int> m_zone; // UTM where there is one
    bool m_north = true;
    std::string m_name;
};

} // namespace rillmark
