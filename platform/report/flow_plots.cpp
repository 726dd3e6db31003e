// SPDX-License-Identifier: GPL-3.0-or-later
#include "report/flow_plots.h"

#include <algorithm>

namespace rillmark::report {

namespace {

constexpr double kMicrosiemensPerCm = 1e4; // in one S/m, exact

void dot(QPainter& painter, const QPointF& at, QRgb ink, double radius = 1.8) {
    painter.setPen(Qt::NoPen);
    painter.setBrush(QColor::fromRgb(ink));
    painter.drawEllipse(at, radius, radius);
}

void draw_velocities(QPainter& painter, const QRectF& box, const VelocityAreaResult& gauging, Range across,
                     const DisplayOptions& display) {
    const Unit length = plot_unit(Quantity::Length, display);
    const Unit speed = plot_unit(Quantity::Velocity, display);
    Range up = Range::at(0.0);
    for (const Panel& one : gauging.panels)
        up.take(from_si(speed, one.velocity_ms));
    const Axes axes(box, across, {up.low, up.high + 0.1 * up.span()}, display.number);
    axes.draw(painter, {}, symbol_of(speed));
    for (const Panel& one : gauging.panels) {
        const double x = from_si(length, one.distance_m);
        draw_line_through(painter, axes.line({{x, 0.0}, {x, from_si(speed, one.velocity_ms)}}), ink::kAction, 1.2);
        dot(painter, axes.at(x, from_si(speed, one.velocity_ms)), ink::kAction);
    }
}

void draw_bed(QPainter& painter, const QRectF& box, const VelocityAreaResult& gauging, Range across,
              const DisplayOptions& display) {
    const Unit length = plot_unit(Quantity::Length, display);
    Range up = Range::at(0.0);
    std::vector<QPointF> bed;
    for (const Panel& one : gauging.panels) {
        bed.emplace_back(from_si(length, one.distance_m), -from_si(length, one.depth_m));
        up.take(bed.back().y());
    }
    const Axes axes(box, across, {up.low - 0.08 * up.span(), 0.0}, display.number);
    QPolygonF water = axes.line(bed);
    water.append(axes.at(bed.back().x(), 0.0));
    water.prepend(axes.at(bed.front().x(), 0.0));
    painter.setPen(Qt::NoPen);
    painter.setBrush(QColor::fromRgb(ink::kPaleWater));
    painter.drawPolygon(water);
    axes.draw(painter, Report::tr("distance along the tape, %1").arg(symbol_of(length)),
              Report::tr("depth, %1").arg(symbol_of(length)));
    for (const QPointF& one : bed)
        draw_line_through(painter, axes.line({{one.x(), 0.0}, one}), ink::kWater, 0.4);
    draw_line_through(painter, axes.line(bed), ink::kInk, 1.3);
    draw_line_through(painter, axes.line({{bed.front().x(), 0.0}, {bed.back().x(), 0.0}}), ink::kWater, 1.0);
}

} // namespace

void draw_gauging(QPainter& painter, const QRectF& box, const VelocityAreaResult& gauging,
                  const DisplayOptions& display) {
    if (gauging.panels.empty())
        return;
    const Unit length = plot_unit(Quantity::Length, display);
    Range across = Range::at(from_si(length, gauging.panels.front().distance_m));
    for (const Panel& one : gauging.panels)
        across.take(from_si(length, one.distance_m));
    across = across.padded(0.03);
    const double above = 0.45 * box.height();
    draw_velocities(painter, {box.left(), box.top(), box.width(), above}, gauging, across, display);
    draw_bed(painter, {box.left(), box.top() + above, box.width(), box.height() - above}, gauging, across, display);
}

void draw_wave(QPainter& painter, const QRectF& box, const SlugTrace& trace) {
    const PreparedTrace& wave = trace.prepared;
    if (wave.time_s.empty())
        return;
    Range across = Range::at(wave.time_s.front());
    across.take(wave.time_s.back());
    Range up = Range::at(kMicrosiemensPerCm * wave.ec_Sm.front());
    std::vector<QPointF> points;
    for (std::size_t i = 0; i < wave.time_s.size(); ++i) {
        points.emplace_back(wave.time_s[i], kMicrosiemensPerCm * wave.ec_Sm[i]);
        up.take(points.back().y());
    }
    const Axes axes(box, across.padded(0.01), up.padded(0.08), {});
    const auto level_at = [&trace](double time_s) {
        const double part =
            (time_s - trace.windows.start_s) / std::max(1e-9, trace.windows.end_s - trace.windows.start_s);
        return kMicrosiemensPerCm * (trace.integral.background_start_Sm +
                                     part * (trace.integral.background_end_Sm - trace.integral.background_start_Sm));
    };
    const std::vector<QPointF> background{{trace.windows.start_s, level_at(trace.windows.start_s)},
                                          {trace.windows.end_s, level_at(trace.windows.end_s)}};
    std::vector<QPointF> salt{background.front()};
    std::ranges::copy_if(points, std::back_inserter(salt), [&trace](const QPointF& one) {
        return one.x() >= trace.windows.start_s && one.x() <= trace.windows.end_s;
    });
    salt.push_back(background.back());
    painter.setPen(Qt::NoPen);
    painter.setBrush(QColor::fromRgb(ink::kPaleWater));
    painter.drawPolygon(axes.line(salt));
    axes.draw(painter, Report::tr("time, s"), Report::tr("conductivity, µS/cm"));
    draw_line_through(painter, axes.line(points), ink::kWater, 1.1);
    draw_line_through(painter, axes.line(background), ink::kWarning, 0.9, Qt::DashLine);
    draw_key(painter, {axes.area().left(), box.bottom() - 10.0},
             {{Report::tr("as read"), ink::kWater}, {Report::tr("background"), ink::kWarning, Qt::DashLine, 0.9}});
}

void draw_fills(QPainter& painter, const QRectF& box, const std::vector<ContainerFill>& fills, const Estimate& result,
                const DisplayOptions& display) {
    // the unit of the result, small flows in small units
    const Unit unit = display_unit(Quantity::Discharge, display.system, result.value);
    const auto flow = [&unit](double m3s) { return from_si(unit, m3s); };
    Range up = Range::at(flow(result.value - result.expanded()));
    up.take(flow(result.value + result.expanded()));
    for (const ContainerFill& one : fills)
        if (!one.struck && one.time_s > 0.0)
            up.take(flow(one.volume_m3 / one.time_s));
    const Axes axes(box, {0.4, static_cast<double>(fills.size()) + 0.6}, up.padded(0.12), display.number);
    const QPointF low = axes.at(0.4, flow(result.value - result.expanded()));
    const QPointF high = axes.at(static_cast<double>(fills.size()) + 0.6, flow(result.value + result.expanded()));
    painter.fillRect(QRectF(QPointF(low.x(), high.y()), QPointF(high.x(), low.y())), QColor::fromRgb(ink::kPaleWater));
    axes.draw(painter, Report::tr("fill"), symbol_of(unit));
    draw_rule(painter, axes.at(0.4, flow(result.value)),
              axes.at(static_cast<double>(fills.size()) + 0.6, flow(result.value)), ink::kWater, 0.9);
    for (std::size_t i = 0; i < fills.size(); ++i)
        if (!fills[i].struck && fills[i].time_s > 0.0)
            dot(painter, axes.at(static_cast<double>(i + 1), flow(fills[i].volume_m3 / fills[i].time_s)), ink::kAction,
                2.2);
}

} // namespace rillmark::report
