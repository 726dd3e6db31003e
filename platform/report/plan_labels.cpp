// SPDX-License-Identifier: GPL-3.0-or-later
#include "report/plan_labels.h"

#include <QLineF>

#include <algorithm>

namespace rillmark::report {

namespace {

constexpr double kMark = 2.6; // half of a mark
constexpr double kAway = 5.0; // from the middle of the mark to the name

bool crosses(const QLineF& line, const QRectF& box) {
    if (box.contains(line.p1()) || box.contains(line.p2()))
        return true;
    const QLineF sides[] = {{box.topLeft(), box.topRight()},
                            {box.topRight(), box.bottomRight()},
                            {box.bottomRight(), box.bottomLeft()},
                            {box.bottomLeft(), box.topLeft()}};
    return std::ranges::any_of(
        sides, [&line](const QLineF& side) { return line.intersects(side, nullptr) == QLineF::BoundedIntersection; });
}

} // namespace

void PlanLabels::keep_clear(const QPointF& mark) {
    m_taken.emplace_back(mark.x() - kMark, mark.y() - kMark, 2.0 * kMark, 2.0 * kMark);
}

void PlanLabels::keep_off(const QPolygonF& line) {
    for (qsizetype i = 0; i + 1 < line.size(); ++i)
        m_lines.emplace_back(line[i], line[i + 1]);
}

std::optional<PlanLabel> PlanLabels::place(const QPointF& mark, double width, double size) {
    const double tall = 0.95 * size;
    // right and left first, then the corners, then above and below
    const QPointF places[] = {{kAway, -0.5 * tall},
                              {-kAway - width, -0.5 * tall},
                              {kAway - 1.0, -tall - 2.0},
                              {kAway - 1.0, 2.0},
                              {-kAway + 1.0 - width, -tall - 2.0},
                              {-kAway + 1.0 - width, 2.0},
                              {-0.5 * width, -tall - kAway},
                              {-0.5 * width, kAway}};
    for (const bool off_lines : {true, false})
        for (const QPointF& from : places) {
            const QRectF box(mark + from, QSizeF(width, tall));
            const bool taken = !m_frame.contains(box) ||
                               std::ranges::any_of(m_taken, [&box](const QRectF& one) { return one.intersects(box); });
            if (taken ||
                (off_lines && std::ranges::any_of(m_lines, [&box](const QLineF& one) { return crosses(one, box); })))
                continue;
            m_taken.push_back(box);
            return PlanLabel{{box.left(), box.top() + 0.78 * size}, box, !off_lines};
        }
    return {};
}

} // namespace rillmark::report
