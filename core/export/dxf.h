// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "export/plan_frame.h"

#include <ostream>

namespace rillmark {

/// Writes the plan as an ASCII DXF drawing of release 12 (AC1009), in metres in the frame. The writer is our own, since no
/// well-kept library for it is packaged; source of the structure: DXF Reference of release 12, from memory, unconfirmed
/// but for what reads it back.
///
/// Layers: STATION_<KIND> with a point and TEXT_<KIND> with the name (and the height with its +/-) of each station;
/// LINE_PIPE, LINE_CABLE, LINE_BOUNDARY (closed) and TRACK with polylines; NOTE with what the frame is. Points lie at their
/// height above the datum of the height network where it is known, at 0 where it is not (their text then names no height);
/// lines and texts lie at 0. Coordinates have four decimals.
/// Refuses a place that the frame does not reach (as PlanFrame::to_plan). Nothing is written then.
[[nodiscard]] Expected<void> write_dxf_plan(std::ostream& out, const ExportSite& site, const PlanFrame& frame);

/// Writes the long profile alike: chainage to the right and height upwards, both in metres and to one scale, a line
/// through the stations (PROFILE), a point at each (PROFILE_STATION) and its name, chainage and height (PROFILE_TEXT).
/// Refuses a site without two stations in its profile (`exchange.no_profile`).
[[nodiscard]] Expected<void> write_dxf_profile(std::ostream& out, const ExportSite& site);

} // namespace rillmark
