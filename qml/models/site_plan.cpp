// SPDX-License-Identifier: GPL-3.0-or-later
#include "site_plan.h"

#include "position/station_kind.h"
#include "site/site_estimate.h"

#include <QCoreApplication>

#include <map>
#include <tuple>

using namespace rillmark;

namespace {

PlanScene::Mark mark_of(StationKind kind) {
    switch (kind) {
    case StationKind::Intake:
    case StationKind::Powerhouse:
    case StationKind::Tailwater:
    case StationKind::House: return PlanScene::Mark::Square;
    case StationKind::Benchmark:
    case StationKind::HighPoint:
    case StationKind::Hazard: return PlanScene::Mark::Triangle;
    default: return PlanScene::Mark::Diamond;
    }
}

PlanScene::Ink ink_of(StationKind kind) {
    switch (kind) {
    case StationKind::Intake:
    case StationKind::Tailwater:
    case StationKind::FloodMark: return PlanScene::Ink::Water;
    case StationKind::Powerhouse:
    case StationKind::House: return PlanScene::Ink::Action;
    case StationKind::Hazard: return PlanScene::Ink::Danger;
    default: return PlanScene::Ink::Ink;
    }
}

/// Where the pipe does not fall: told by the name as well as by the colour.
void mark_grade(const Survey& survey, const SiteHeights& heights, PlanScene& scene) {
    const AlternativeRow* alternative = survey.alternative();
    for (const GradeStation& spot :
         grade_stations(survey, heights, alternative != nullptr ? *alternative : AlternativeRow{}))
        for (PlanScene::Station& station : scene.stations)
            if (station.id == spot.station) {
                station.ink = PlanScene::Ink::Warning;
                station.name += spot.kind == SpotKind::High
                                    ? QCoreApplication::translate("SitePlan", " (high spot: traps air)")
                                    : QCoreApplication::translate("SitePlan", " (low spot: traps silt)");
            }
}

} // namespace

PlanScene site_plan(const Survey& survey, const SiteHeights& heights, const LocalFrame& frame,
                    const std::vector<LocalPoint>& track) {
    PlanScene scene;
    std::map<Id, LocalPoint> place;
    for (const Booked<StationRow>& station : survey.stations) {
        if (station.struck || !station.row.latitude_deg || !station.row.longitude_deg)
            continue;
        const StationKind kind = station_kind_from_id(station.row.kind);
        const LocalPoint at = frame.to_local({*station.row.latitude_deg, *station.row.longitude_deg});
        place.emplace(station.row.id, at);
        scene.stations.push_back({station.row.id, at, QString::fromStdString(station.row.name), mark_of(kind), ink_of(kind), 0.0});
    }
    mark_grade(survey, heights, scene);
    const std::tuple<StationLine, PlanScene::Ink, double, bool> kinds[] = {
        {StationLine::Boundary, PlanScene::Ink::Quiet, 2.0, true},
        {StationLine::Pipe, PlanScene::Ink::Water, 4.0, false},
        {StationLine::Cable, PlanScene::Ink::Warning, 3.0, false}};
    for (const auto& [which, ink, width, closed] : kinds) {
        PlanScene::Line line{{}, ink, width, closed};
        for (const Id id : site_line(survey, heights, which).stations)
            if (const auto at = place.find(id); at != place.end())
                line.points.push_back(at->second);
        if (line.points.size() > 1)
            scene.lines.push_back(std::move(line));
    }
    scene.track = track;
    return scene;
}
