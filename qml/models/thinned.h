// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QList>
#include <QPointF>

#include <algorithm>
#include <cstddef>
#include <optional>

/// The points of a long trace that its plot needs: of each stretch the lowest and the highest, so that no peak is lost.
/// `point(i)` gives the point i, or nothing where it is missing.
template <class Point>
[[nodiscard]] QList<QPointF> thinned(std::size_t begin, std::size_t end, std::size_t most, Point point) {
    const std::size_t stretch = std::max<std::size_t>(1, 2 * (end - begin) / std::max<std::size_t>(most, 2));
    QList<QPointF> points;
    for (std::size_t from = begin; from < end; from += stretch) {
        std::optional<QPointF> low;
        std::optional<QPointF> high;
        for (std::size_t i = from; i < std::min(from + stretch, end); ++i) {
            const std::optional<QPointF> one = point(i);
            if (one && (!low || one->y() < low->y()))
                low = one;
            if (one && (!high || one->y() > high->y()))
                high = one;
        }
        if (!low)
            continue;
        points.append(low->x() <= high->x() ? *low : *high);
        if (low->x() != high->x())
            points.append(low->x() < high->x() ? *high : *low);
    }
    return points;
}
