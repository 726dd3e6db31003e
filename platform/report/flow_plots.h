// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "report/plot.h"
#include "site/flow_tests.h"

namespace rillmark::report {

inline constexpr double kGaugingHeight = 215.0;
inline constexpr double kWaveHeight = 165.0;
inline constexpr double kFillsHeight = 120.0;

/// The section as gauged: velocities above, the bed with its panels below.
void draw_gauging(QPainter& painter, const QRectF& box, const VelocityAreaResult& gauging,
                  const DisplayOptions& display);
/// The wave of salt at one probe, with where it is taken from, and its background.
void draw_wave(QPainter& painter, const QRectF& box, const SlugTrace& trace);
/// The flow of each fill, with the result and its ±.
void draw_fills(QPainter& painter, const QRectF& box, const std::vector<ContainerFill>& fills, const Estimate& result,
                const DisplayOptions& display);

} // namespace rillmark::report
