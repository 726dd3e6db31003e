// SPDX-License-Identifier: GPL-3.0-or-later
#include "export/plan_frame.h"
#include "report/plan_labels.h"
#include "report/plot.h"
#include "report/sections.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace rillmark::report {

namespace {

constexpr double kPointsAMetre = 72.0 / 0.0254; // on paper; the inch is 25.4 mm exactly
// From memory, unconfirmed: the scales that drawing offices use.
constexpr std::array kScales{50.0,    100.0,   200.0,   250.0,   500.0,    750.0,   1000.0, 1250.0,
                             1500.0,  2000.0,  2500.0,  3000.0,  4000.0,   5000.0,  7500.0, 10000.0,
                             15000.0, 20000.0, 25000.0, 50000.0, 100000.0, 200000.0};
constexpr double kHeight = 430.0;
constexpr double kMargin = 30.0;       // round the drawing, for names
constexpr int kCoordinateDecimals = 6; // about 0.1 m

/// The plan in metres, east and north.
struct Plan {
    struct Line {
        QPolygonF points;
        StationLine line = StationLine::None;
        bool closed = false;
    };
    struct Mark {
        QPointF at;
        QString name;
        StationKind kind = StationKind::Other;
    };
    std::vector<Line> lines;
    std::vector<QPolygonF> track;
    std::vector<Mark> marks;
    QRectF bounds;
};

class Gatherer {
public:
    explicit Gatherer(const PlanFrame& frame) : m_frame(frame) {}
    std::optional<QPointF> place(const GeoPoint& point) {
        const Expected<LocalPoint> local = m_frame.to_plan(point);
        if (!local)
            return {};
        const QPointF at(local->east_m, local->north_m);
        m_bounds = m_any ? m_bounds.united({at, QSizeF(1e-6, 1e-6)}) : QRectF(at, QSizeF(1e-6, 1e-6));
        m_any = true;
        return at;
    }
    QPolygonF line(const std::vector<ExportPoint>& points) {
        QPolygonF line;
        for (const ExportPoint& one : points)
            if (const std::optional<QPointF> at = place(one.point))
                line.append(*at);
        return line;
    }
    [[nodiscard]] QRectF bounds() const { return m_bounds; }

private:
    const PlanFrame& m_frame;
    QRectF m_bounds;
    bool m_any = false;
};

Plan plan_of(const ExportSite& site, const PlanFrame& frame) {
    Plan plan;
    Gatherer gather(frame);
    for (const ExportStation& station : site.stations)
        if (station.position)
            if (const std::optional<QPointF> at = gather.place(*station.position))
                plan.marks.push_back({*at, text_of(station.name), station_kind_from_id(station.kind)});
    for (const ExportLine& line : site.lines)
        plan.lines.push_back({gather.line(line.points), line.line, line.closed()});
    plan.bounds = gather.bounds(); // the track may lead far away: it is cut off at the frame
    for (const std::vector<ExportPoint>& part : site.track)
        plan.track.push_back(gather.line(part));
    if (plan.marks.empty())
        plan.bounds = gather.bounds();
    return plan;
}

/// Metres on the ground to points on the page, north up, at a scale of the drawing office.
struct View {
    double scale = 0.0; // one to this
    QRectF box;
    QPointF middle_m;
    [[nodiscard]] double points_a_metre() const { return kPointsAMetre / scale; }
    [[nodiscard]] QPointF at(const QPointF& metres) const {
        return box.center() + QPointF(metres.x() - middle_m.x(), middle_m.y() - metres.y()) * points_a_metre();
    }
    [[nodiscard]] QPolygonF line(const QPolygonF& metres) const {
        QPolygonF points;
        for (const QPointF& one : metres)
            points.append(at(one));
        return points;
    }
};

double scale_for(const QRectF& bounds_m, const QSizeF& room) {
    const double needed =
        std::max(bounds_m.width() * kPointsAMetre / room.width(), bounds_m.height() * kPointsAMetre / room.height());
    for (const double one : kScales)
        if (one >= needed)
            return one;
    return needed;
}

QRgb ink_of(StationKind kind) {
    switch (kind) {
    case StationKind::Intake:
    case StationKind::Tailwater:
    case StationKind::FloodMark:
        return ink::kWater;
    case StationKind::Powerhouse:
    case StationKind::House:
        return ink::kAction;
    case StationKind::Hazard:
        return ink::kDanger;
    default:
        return ink::kInk;
    }
}

void draw_mark(QPainter& painter, const QPointF& at, StationKind kind) {
    painter.setPen(QPen(Qt::white, 0.6));
    painter.setBrush(QColor::fromRgb(ink_of(kind)));
    switch (kind) {
    case StationKind::Intake:
    case StationKind::Powerhouse:
    case StationKind::Tailwater:
    case StationKind::House:
        painter.drawRect(QRectF(at.x() - 3.0, at.y() - 3.0, 6.0, 6.0));
        return;
    case StationKind::Benchmark:
    case StationKind::HighPoint:
    case StationKind::Hazard:
        painter.drawPolygon(
            QPolygonF{{at.x(), at.y() - 3.8}, {at.x() + 3.6, at.y() + 2.8}, {at.x() - 3.6, at.y() + 2.8}});
        return;
    default:
        painter.drawEllipse(at, 2.3, 2.3);
    }
}

void draw_north(QPainter& painter, const QPointF& top) {
    painter.setPen(Qt::NoPen);
    painter.setBrush(QColor::fromRgb(ink::kInk));
    painter.drawPolygon(QPolygonF{top, {top.x() + 5.0, top.y() + 19.0}, {top.x(), top.y() + 15.0}});
    painter.setBrush(QColor::fromRgb(ink::kRule));
    painter.drawPolygon(QPolygonF{top, {top.x() - 5.0, top.y() + 19.0}, {top.x(), top.y() + 15.0}});
    draw_at(painter, {top.x(), top.y() + 29.0}, Report::tr("N"), type::kTableHead.in(ink::kInk), Qt::AlignHCenter);
}

void draw_scale_bar(QPainter& painter, const QPointF& left, const View& view, const Context& context) {
    const Unit unit = plot_unit(Quantity::Length, context.options.display);
    const double points_a_unit = view.points_a_metre() * to_si(unit, 1.0);
    const double step = nice_step(150.0 / points_a_unit, 2);
    const double wide = step * points_a_unit;
    for (int i = 0; i < 2; ++i) {
        painter.setPen(QPen(QColor::fromRgb(ink::kInk), 0.5));
        painter.setBrush(i == 0 ? QColor::fromRgb(ink::kInk) : QColor(Qt::white));
        painter.drawRect(QRectF(left.x() + i * wide, left.y() - 4.0, wide, 3.2));
    }
    for (int i = 0; i <= 2; ++i)
        draw_at(painter, {left.x() + i * wide, left.y() + 7.0},
                tick_text(i * step, step, context.options.display.number) +
                    (i == 2 ? QLatin1Char(' ') + symbol_of(unit) : QString()),
                type::kPlot.in(ink::kInk), i == 2 ? Qt::AlignLeft : Qt::AlignHCenter);
}

void draw_lines(QPainter& painter, const Plan& plan, const View& view) {
    for (const QPolygonF& part : plan.track)
        draw_line_through(painter, view.line(part), ink::kHair, 0.9);
    for (const Plan::Line& one : plan.lines) {
        QPolygonF line = view.line(one.points);
        if (one.closed && !line.isEmpty())
            line.append(line.front());
        if (one.line == StationLine::Boundary)
            draw_line_through(painter, line, ink::kQuiet, 0.9, Qt::DashDotLine);
        else if (one.line == StationLine::Cable)
            draw_line_through(painter, line, ink::kWarning, 1.2, Qt::DashLine);
        else
            draw_line_through(painter, line, ink::kWater, 1.9);
    }
}

void draw_plan(QPainter& painter, const View& view, const Plan& plan) {
    const QRectF& box = view.box;
    painter.save();
    painter.setClipRect(box);
    draw_lines(painter, plan, view);
    PlanLabels labels(box.adjusted(3.0, 3.0, -3.0, -3.0));
    for (const Plan::Mark& one : plan.marks)
        labels.keep_clear(view.at(one.at));
    for (const Plan::Line& one : plan.lines)
        labels.keep_off(view.line(one.points));
    for (const Plan::Mark& one : plan.marks)
        draw_mark(painter, view.at(one.at), one.kind);
    for (const Plan::Mark& one : plan.marks) {
        const Type type = type::kPlot.in(ink_of(one.kind));
        const std::optional<PlanLabel> label = labels.place(view.at(one.at), width_of(one.name, type), type.size);
        if (!label)
            continue; // the table has it
        if (label->on_line)
            painter.fillRect(label->box, Qt::white);
        draw_at(painter, label->base, one.name, type);
    }
    painter.restore();
    painter.setPen(QPen(QColor::fromRgb(ink::kRule), 0.5));
    painter.setBrush(Qt::NoBrush);
    painter.drawRect(box);
}

void draw_below(QPainter& painter, const View& view, const Context& context) {
    const QRectF& box = view.box;
    draw_scale_bar(painter, {box.left() + 4.0, box.bottom() + 15.0}, view, context);
    QString scale = Report::tr("1 : %1 on paper").arg(std::llround(view.scale));
    draw_at(painter, {box.right(), box.bottom() + 12.0}, scale, type::kPlot.in(ink::kInk), Qt::AlignRight);
    std::vector<KeyEntry> key;
    for (const ExportLine& line : context.site.lines)
        key.push_back(line.line == StationLine::Pipe ? KeyEntry{Report::tr("pipe"), ink::kWater, Qt::SolidLine, 1.9}
                      : line.line == StationLine::Cable
                          ? KeyEntry{Report::tr("cable"), ink::kWarning, Qt::DashLine, 1.2}
                          : KeyEntry{Report::tr("boundary"), ink::kQuiet, Qt::DashDotLine, 0.9});
    if (!context.site.track.empty())
        key.push_back({Report::tr("way walked"), ink::kRule, Qt::SolidLine, 0.9});
    draw_key(painter, {box.left() + 4.0, box.bottom() + 28.0}, key);
}

/// The smallest of the uncertainties of its stays.
std::optional<double> best_stay_m(const Survey& survey, Id station) {
    std::optional<double> best;
    for (const Booked<OccupationRow>& stay : survey.occupations)
        if (!stay.struck && stay.row.station_id == station) {
            const double u_m = std::max(stay.row.u_east_m, stay.row.u_north_m);
            best = std::min(best.value_or(u_m), u_m);
        }
    return best;
}

void add_stations(const Context& context, Galley& galley) {
    galley.heading(Report::tr("Stations"));
    Table table{{{Report::tr("Station")},
                 {Report::tr("Kind")},
                 {Report::tr("Latitude"), Fit::Figures},
                 {Report::tr("Longitude"), Fit::Figures},
                 {Report::tr("±\u00a0in plan"), Fit::Figures},
                 {Report::tr("Below the intake"), Fit::Figures},
                 {Report::tr("Note")}},
                {}};
    const Wording& words = context.wording;
    for (const ExportStation& one : context.site.stations) {
        const auto degrees = [&](double GeoPoint::*part) {
            return one.position ? words.value((*one.position).*part, Quantity::Coordinate, kCoordinateDecimals)
                                : QString();
        };
        const std::optional<double> stay_m = best_stay_m(context.survey, one.id);
        table.rows.push_back({Cell(text_of(one.name)).bold(), Wording::words("position.kind_" + one.kind),
                              degrees(&GeoPoint::latitude_deg), degrees(&GeoPoint::longitude_deg),
                              stay_m ? words.value(kCoverageFactor * *stay_m, Quantity::Length, 1) : QString(),
                              one.fall_m ? shown(context, one.fall_m, Quantity::Length) : QString(),
                              text_of(one.note)});
    }
    galley.table(std::move(table));
    galley.text(Report::tr("± in plan: of the best stay of the receiver there. Coordinates are on WGS 84."),
                type::kSmall);
}

} // namespace

void plan_section(const Context& context, Galley& galley) {
    if (context.site.stations.empty())
        return;
    galley.chapter(Report::tr("Plan and stations"));
    if (const Expected<PlanFrame> frame = PlanFrame::local(context.site); frame && context.site.has_positions()) {
        const Plan plan = plan_of(context.site, *frame);
        const double scale = scale_for(plan.bounds, {galley.width() - 2.0 * kMargin, kHeight - 2.0 * kMargin});
        galley.figure(kHeight + 44.0, [plan, scale, &context](QPainter& painter, const QRectF& all) {
            const QRectF box(all.left(), all.top(), all.width(), kHeight);
            const View view{scale, box, plan.bounds.center()};
            draw_plan(painter, view, plan);
            draw_north(painter, {box.right() - 16.0, box.top() + 9.0});
            draw_below(painter, view, context);
        });
    } else {
        galley.text(Report::tr("No station has a position yet, so there is no plan."));
    }
    add_stations(context, galley);
}

} // namespace rillmark::report
