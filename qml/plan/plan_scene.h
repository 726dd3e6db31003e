// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "position/local_frame.h"
#include "project/records.h"

#include <QColor>
#include <QString>

#include <optional>
#include <vector>

/// What the plan draws, in metres east and north of the site's origin.
struct PlanScene {
    enum class Mark { Square, Triangle, Diamond };
    enum class Ink { Ink, Quiet, Action, Water, Warning, Danger };

    struct Station {
        rillmark::Id id = 0;
        rillmark::LocalPoint at;
        QString name;
        Mark mark = Mark::Square;
        Ink ink = Ink::Ink;
        double u_m = 0.0; // horizontal standard uncertainty
    };
    struct Line {
        std::vector<rillmark::LocalPoint> points;
        Ink ink = Ink::Ink;
        double width_px = 3.0;
        bool closed = false;
    };

    std::vector<Station> stations;
    std::vector<Line> lines;
    std::vector<rillmark::LocalPoint> track;
};
