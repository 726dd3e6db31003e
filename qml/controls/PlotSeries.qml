// SPDX-License-Identifier: GPL-3.0-or-later
import QtQuick
import QtCharts

/// A line of a plot whose points come as one list.
LineSeries {
    id: root
    function replacePoints(points: var) {
        clear()
        for (const p of points)
            append(p.x, p.y)
    }
}
