// SPDX-License-Identifier: GPL-3.0-or-later
#include "report/plot.h"

#include <algorithm>
#include <cmath>

namespace rillmark::report {

namespace {

constexpr double kLeft = 34.0;   // for the figures of the upright axis
constexpr double kBottom = 24.0; // and of the level one
constexpr double kTop = 4.0;
constexpr double kRight = 6.0;
constexpr double kPointsAStep = 46.0; // about, between two figures of an axis

int least_steps(double length) {
    return std::max(2, static_cast<int>(length / (2.0 * kPointsAStep)));
}

} // namespace

void Range::take(double value) {
    low = std::min(low, value);
    high = std::max(high, value);
}

Range Range::padded(double part) const {
    const double extra = span() > 0.0 ? part * span() : std::max(0.5, 0.1 * std::abs(low));
    return {low - extra, high + extra};
}

double nice_step(double span, int least) {
    const double largest = span / least;
    const double decade = std::pow(10.0, std::floor(std::log10(largest)));
    for (const double part : {5.0, 2.0})
        if (part * decade <= largest)
            return part * decade;
    return decade;
}

QString tick_text(double value, double step, const NumberFormat& format) {
    const int decimals = std::clamp(static_cast<int>(std::ceil(-std::log10(step) - 1e-9)), 0, 6);
    QString text = QString::number(std::abs(value) < 0.5 * std::pow(10.0, -decimals) ? 0.0 : value, 'f', decimals);
    text.replace(QLatin1Char('.'), QLatin1Char(format.decimal));
    return text.replace(QLatin1Char('-'), QChar(0x2212));
}

Axes::Axes(const QRectF& box, Range across, Range up, const NumberFormat& format)
    : m_box(box), m_area(box.adjusted(kLeft, kTop, -kRight, -kBottom)), m_across(across), m_up(up), m_format(format) {}

QPointF Axes::at(double x, double y) const {
    return {m_area.left() + (x - m_across.low) / m_across.span() * m_area.width(),
            m_area.bottom() - (y - m_up.low) / m_up.span() * m_area.height()};
}

QPolygonF Axes::line(const std::vector<QPointF>& points) const {
    QPolygonF line;
    for (const QPointF& point : points)
        line.append(at(point.x(), point.y()));
    return line;
}

void Axes::draw(QPainter& painter, const QString& across, const QString& up) const {
    const double step_x = nice_step(m_across.span(), least_steps(m_area.width()));
    const double step_y = nice_step(m_up.span(), least_steps(m_area.height()));
    for (double y = std::ceil(m_up.low / step_y - 1e-9) * step_y; y <= m_up.high + 1e-9 * step_y; y += step_y) {
        const double level = at(m_across.low, y).y();
        draw_rule(painter, {m_area.left(), level}, {m_area.right(), level}, ink::kHair, 0.4);
        draw_at(painter, {m_area.left() - 4.0, level + 2.5}, tick_text(y, step_y, m_format), type::kPlot,
                Qt::AlignRight);
    }
    for (double x = std::ceil(m_across.low / step_x - 1e-9) * step_x; x <= m_across.high + 1e-9 * step_x; x += step_x) {
        const double along = at(x, m_up.low).x();
        draw_rule(painter, {along, m_area.bottom()}, {along, m_area.bottom() + 2.5}, ink::kQuiet, 0.5);
        draw_at(painter, {along, m_area.bottom() + 10.0}, tick_text(x, step_x, m_format), type::kPlot,
                Qt::AlignHCenter);
    }
    draw_rule(painter, m_area.bottomLeft(), m_area.bottomRight(), ink::kQuiet, 0.6);
    draw_at(painter, {m_area.right(), m_box.bottom() - 3.0}, across, type::kPlot.as(Face::Italic), Qt::AlignRight);
    painter.save();
    painter.translate(m_box.left() + 7.0, m_area.center().y());
    painter.rotate(-90.0);
    draw_at(painter, {}, up, type::kPlot.as(Face::Italic), Qt::AlignHCenter);
    painter.restore();
}

void draw_line_through(QPainter& painter, const QPolygonF& points, QRgb ink, double width, Qt::PenStyle style) {
    QPen pen(QColor::fromRgb(ink), width, style, Qt::FlatCap, Qt::RoundJoin);
    painter.setPen(pen);
    painter.setBrush(Qt::NoBrush);
    painter.drawPolyline(points);
}

void draw_key(QPainter& painter, const QPointF& left_top, const std::vector<KeyEntry>& entries) {
    double left = left_top.x();
    for (const KeyEntry& one : entries) {
        const double middle = left_top.y() + 5.0;
        draw_line_through(painter, QPolygonF{{left, middle}, {left + 16.0, middle}}, one.ink, one.width, one.style);
        draw_at(painter, {left + 20.0, middle + 2.5}, one.text, type::kPlot.in(ink::kInk));
        left += 20.0 + width_of(one.text, type::kPlot) + 16.0;
    }
}

Unit plot_unit(Quantity quantity, const DisplayOptions& options) {
    return entry_unit(quantity, options.system);
}

QString symbol_of(const Unit& unit) {
    return QString::fromUtf8(unit.symbol.data(), static_cast<qsizetype>(unit.symbol.size()));
}

} // namespace rillmark::report
