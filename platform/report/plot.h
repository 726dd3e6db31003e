// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "report/typography.h"
#include "units/format_quantity.h"

#include <QPolygonF>

namespace rillmark::report {

struct Range {
    double low = 0.0;
    double high = 0.0;
    void take(double value);
    /// Wider by a part of itself on both sides, and never of no width.
    [[nodiscard]] Range padded(double part) const;
    [[nodiscard]] double span() const { return high - low; }
    /// A range of one value, to take() the others.
    static Range at(double value) { return {value, value}; }
};

/// 1, 2 or 5 times a power of ten, the largest that leaves at least `least` steps in the span.
[[nodiscard]] double nice_step(double span, int least);
/// A number of an axis, with the decimals that its step needs.
[[nodiscard]] QString tick_text(double value, double step, const NumberFormat& format);

/// Axes in the user's unit about an area of the page.
class Axes {
public:
    Axes(const QRectF& box, Range across, Range up, const NumberFormat& format);
    /// Grid, figures and the names of the axes.
    void draw(QPainter& painter, const QString& across, const QString& up) const;
    [[nodiscard]] QPointF at(double x, double y) const;
    [[nodiscard]] QPolygonF line(const std::vector<QPointF>& points) const;
    [[nodiscard]] const QRectF& area() const { return m_area; }

private:
    QRectF m_box;
    QRectF m_area;
    Range m_across;
    Range m_up;
    NumberFormat m_format;
};

void draw_line_through(QPainter& painter, const QPolygonF& points, QRgb ink, double width,
                       Qt::PenStyle style = Qt::SolidLine);

/// A line of what the inks of a plot mean.
struct KeyEntry {
    QString text;
    QRgb ink = ink::kInk;
    Qt::PenStyle style = Qt::SolidLine;
    double width = 1.2;
};
void draw_key(QPainter& painter, const QPointF& left_top, const std::vector<KeyEntry>& entries);

/// The unit in which a quantity is read and drawn.
[[nodiscard]] Unit plot_unit(Quantity quantity, const DisplayOptions& options);
[[nodiscard]] QString symbol_of(const Unit& unit);

} // namespace rillmark::report
