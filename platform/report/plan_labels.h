// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QPolygonF>
#include <QRectF>

#include <optional>
#include <vector>

namespace rillmark::report {

/// A name in its place.
struct PlanLabel {
    QPointF base; // where its base line begins
    QRectF box;
    bool on_line = false;
};

/// Finds room for the names of a plan, so that none lies on another name or mark, and where it can be helped none on a
/// line.
class PlanLabels {
public:
    explicit PlanLabels(const QRectF& frame) : m_frame(frame) {}
    /// A mark that names stay away from.
    void keep_clear(const QPointF& mark);
    /// A line that names lie on only where there is no other room.
    void keep_off(const QPolygonF& line);
    /// Nothing where every place beside the mark is taken.
    [[nodiscard]] std::optional<PlanLabel> place(const QPointF& mark, double width, double size);

private:
    QRectF m_frame;
    std::vector<QRectF> m_taken;
    std::vector<QLineF> m_lines;
};

} // namespace rillmark::report
