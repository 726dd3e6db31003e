// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "plan_scene.h"
#include "position/local_frame.h"
#include "site/heights.h"
#include "site/survey.h"

#include <vector>

/// The plan of a site about an origin: stations that are not struck out, the boundary, the pipe, the cable, the track.
[[nodiscard]] PlanScene site_plan(const rillmark::Survey& survey, const rillmark::SiteHeights& heights,
                                  const rillmark::LocalFrame& frame,
                                  const std::vector<rillmark::LocalPoint>& track);
