// SPDX-License-Identifier: GPL-3.0-or-later
#include "plan_strokes.h"

#include <cmath>
#include <numbers>

using rillmark::LocalPoint;

namespace {

/// Vertices of a line that lie closer than this to the one drawn before are left out.
constexpr double kLeastStep_px = 1.5;
constexpr int kRingSides = 32;

} // namespace

QPointF PlanStrokes::pixel(const LocalPoint& point) const {
    return {(point.east_m - m_anchor.east_m) * m_scale, (m_anchor.north_m - point.north_m) * m_scale};
}

void PlanStrokes::triangle(const QPointF& a, const QPointF& b, const QPointF& c, const QColor& colour) {
    for (const QPointF& p : {a, b, c}) {
        QSGGeometry::ColoredPoint2D vertex;
        vertex.set(static_cast<float>(p.x()), static_cast<float>(p.y()), static_cast<uchar>(colour.red()),
                   static_cast<uchar>(colour.green()), static_cast<uchar>(colour.blue()), 255);
        m_triangles.push_back(vertex);
    }
}

void PlanStrokes::segment(const QPointF& from, const QPointF& to, double width_px, const QColor& colour) {
    const QPointF along = to - from;
    const double length = std::hypot(along.x(), along.y());
    if (length <= 0.0)
        return;
    const QPointF half = along / length * (width_px / 2.0);
    const QPointF across(-half.y(), half.x());
    // ends reach half a width further, so that bends leave no gap
    const QPointF a = from - half;
    const QPointF b = to + half;
    triangle(a + across, a - across, b + across, colour);
    triangle(b + across, a - across, b - across, colour);
}

void PlanStrokes::polyline(const std::vector<LocalPoint>& points, bool closed, double width_px, const QColor& colour) {
    if (points.empty())
        return;
    QPointF last = pixel(points.front());
    for (std::size_t i = 1; i < points.size(); ++i) {
        const QPointF next = pixel(points[i]);
        if (std::hypot(next.x() - last.x(), next.y() - last.y()) < kLeastStep_px && i + 1 < points.size())
            continue;
        segment(last, next, width_px, colour);
        last = next;
    }
    if (closed)
        segment(last, pixel(points.front()), width_px, colour);
}

void PlanStrokes::mark(const LocalPoint& at, PlanScene::Mark mark, double size_px, const QColor& colour) {
    const QPointF c = pixel(at);
    const double r = size_px / 2.0;
    const QPointF up(0.0, -r);
    const QPointF right(r, 0.0);
    switch (mark) {
    case PlanScene::Mark::Square:
        triangle(c + up - right, c - up - right, c + up + right, colour);
        triangle(c + up + right, c - up - right, c - up + right, colour);
        return;
    case PlanScene::Mark::Triangle: triangle(c + up, c - up - right, c - up + right, colour); return;
    case PlanScene::Mark::Diamond:
        triangle(c + up, c - right, c + right, colour);
        triangle(c - up, c + right, c - right, colour);
        return;
    }
}

void PlanStrokes::ring(const LocalPoint& at, double radius_px, double width_px, const QColor& colour) {
    const QPointF c = pixel(at);
    QPointF last = c + QPointF(radius_px, 0.0);
    for (int side = 1; side <= kRingSides; ++side) {
        const double angle = 2.0 * std::numbers::pi * side / kRingSides;
        const QPointF next = c + radius_px * QPointF(std::cos(angle), std::sin(angle));
        segment(last, next, width_px, colour);
        last = next;
    }
}
