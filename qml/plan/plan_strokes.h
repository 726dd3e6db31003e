// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "plan_scene.h"

#include <QColor>
#include <QPointF>
#include <QSGGeometry>

#include <vector>

/// Triangles of a plan at one scale, in pixels from the anchor, north up.
class PlanStrokes {
public:
    /// @param pixels_per_metre  > 0
    PlanStrokes(double pixels_per_metre, rillmark::LocalPoint anchor) : m_scale(pixels_per_metre), m_anchor(anchor) {}

    void polyline(const std::vector<rillmark::LocalPoint>& points, bool closed, double width_px, const QColor& colour);
    void mark(const rillmark::LocalPoint& at, PlanScene::Mark mark, double size_px, const QColor& colour);
    void ring(const rillmark::LocalPoint& at, double radius_px, double width_px, const QColor& colour);

    [[nodiscard]] QPointF pixel(const rillmark::LocalPoint& point) const;
    [[nodiscard]] const std::vector<QSGGeometry::ColoredPoint2D>& triangles() const { return m_triangles; }

private:
    void segment(const QPointF& from, const QPointF& to, double width_px, const QColor& colour);
    void triangle(const QPointF& a, const QPointF& b, const QPointF& c, const QColor& colour);

    double m_scale;
    rillmark::LocalPoint m_anchor;
    std::vector<QSGGeometry::ColoredPoint2D> m_triangles;
};
