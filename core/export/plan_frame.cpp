// SPDX-License-Identifier: GPL-3.0-or-later
#include "export/plan_frame.h"

#include "export/export_text.h"

namespace rillmark {

namespace {

// False northing of the southern hemisphere (DMA TM 8358.2, The Universal Grids, 1989).
constexpr double kFalseNorthing_m = 10'000'000.0;

std::optional<GeoPoint> first_point(const ExportSite& site) {
    for (const ExportStation& station : site.stations)
        if (station.position)
            return station.position;
    if (!site.track.empty())
        return site.track.front().front().point;
    return {};
}

} // namespace

Expected<PlanFrame> PlanFrame::local(const ExportSite& site) {
    const std::optional<GeoPoint> origin = first_point(site);
    if (!origin)
        return refusal("exchange.no_positions");
    Expected<LocalFrame> frame = LocalFrame::make(*origin);
    if (!frame)
        return frame.error();
    constexpr int kDecimals = 9;
    return PlanFrame(std::move(frame).value(), "local about " + decimal_text(origin->latitude_deg, kDecimals) + " " +
                                                   decimal_text(origin->longitude_deg, kDecimals));
}

Expected<PlanFrame> PlanFrame::utm(const ExportSite& site) {
    Expected<PlanFrame> frame = local(site);
    if (!frame)
        return frame;
    const Expected<UtmPosition> grid = rillmark::utm(frame->m_local.origin());
    if (!grid)
        return grid.error();
    frame->m_zone = grid->zone;
    frame->m_north = grid->north;
    frame->m_name = "UTM " + std::to_string(grid->zone) + (grid->north ? "N" : "S") + " WGS 84";
    return frame;
}

Expected<LocalPoint> PlanFrame::to_plan(const GeoPoint& point) const {
    if (const Expected<void> checked = check_point(point); !checked)
        return checked.error();
    if (!m_zone)
        return m_local.to_local(point);
    const Expected<UtmPosition> grid = rillmark::utm(point, m_zone);
    if (!grid)
        return grid.error();
    const double other_side_m = grid->north == m_north ? 0.0 : grid->north ? kFalseNorthing_m : -kFalseNorthing_m;
    return LocalPoint{grid->easting_m, grid->northing_m + other_side_m};
}

} // namespace rillmark
