// SPDX-License-Identifier: GPL-3.0-or-later
#include "report/plot.h"
#include "report/sections.h"
#include "site/profile.h"

#include <algorithm>

namespace rillmark::report {

namespace {

constexpr double kHeight = 300.0;
constexpr double kNames = 78.0; // above the drawing, for upright names

struct ProfileMark {
    double along_m = 0.0;
    Estimate height;
    QString name;
};

/// The profile in SI, and what the pipe makes of it.
struct Profile {
    std::vector<ProfileMark> marks;
    std::optional<double> water_m; // level of the water at the intake
    std::optional<double> pipe_end_m;
    std::optional<double> lost_m; // at design flow, from the intake to the end of the pipe
};

Profile profile_at(const Context& context) {
    Profile profile;
    const SiteHeights& heights = context.estimate.heights;
    const SiteLine pipe = site_line(context.survey, heights, StationLine::Pipe);
    for (const ProfilePoint& point : profile_of(context.survey, heights)) {
        profile.marks.push_back({point.chainage_m, point.height, text_of(context.survey.station(point.station)->name)});
        if (pipe.known() && point.station == pipe.stations.back())
            profile.pipe_end_m = point.chainage_m;
    }
    if (const StationRow* intake = intake_of(context.survey); intake != nullptr)
        if (const auto level = heights.height.find(intake->id); level != heights.height.end())
            profile.water_m = level->second.value;
    const ChainResult& chain = context.estimate.chosen.result;
    if (!context.estimate.chosen.input.pipes.empty() && chain.friction_loss_m && chain.minor_loss_m)
        profile.lost_m = chain.friction_loss_m->value + chain.minor_loss_m->value;
    return profile;
}

/// Names stand upright above the drawing; one that would touch its neighbour is moved on, with a line to its station.
void draw_names(QPainter& painter, const Axes& axes, const std::vector<QPointF>& feet,
                const std::vector<ProfileMark>& marks) {
    constexpr double kApart = 8.6;
    double free_from = axes.area().left() - kApart;
    for (std::size_t i = 0; i < marks.size(); ++i) {
        const double x = std::max(feet[i].x(), free_from + kApart);
        if (x > axes.area().right() + 2.0)
            return; // the table below has them all
        free_from = x;
        const double top = axes.area().top() - 10.0;
        draw_line_through(painter, QPolygonF{{x, top + 2.0}, {feet[i].x(), axes.area().top()}, feet[i]}, ink::kHair,
                          0.4);
        painter.save();
        painter.translate(x + 2.4, top);
        painter.rotate(-90.0);
        draw_at(painter, {}, elided(marks[i].name, type::kPlot, kNames - 14.0), type::kPlot.in(ink::kInk));
        painter.restore();
    }
}

void draw_profile(QPainter& painter, const QRectF& box, const Profile& profile, const Context& context) {
    const Unit unit = plot_unit(Quantity::Length, context.options.display);
    const auto place = [&unit](double along_m, double height_m) {
        return QPointF(from_si(unit, along_m), from_si(unit, height_m));
    };
    std::vector<QPointF> ground;
    Range across = Range::at(0.0);
    Range up = Range::at(from_si(unit, profile.marks.front().height.value));
    for (const ProfileMark& mark : profile.marks) {
        ground.push_back(place(mark.along_m, mark.height.value));
        across.take(ground.back().x());
        up.take(ground.back().y());
    }
    if (profile.water_m)
        up.take(from_si(unit, *profile.water_m));
    const Axes axes(box.adjusted(0.0, kNames, 0.0, 0.0), across.padded(0.01), up.padded(0.06),
                    context.options.display.number);
    const QString symbol = symbol_of(unit);
    axes.draw(painter, Report::tr("level distance along the pipe, %1").arg(symbol),
              Report::tr("height, %1").arg(symbol));

    std::vector<QPointF> feet;
    for (const QPointF& one : ground)
        feet.push_back(axes.at(one.x(), one.y()));
    draw_names(painter, axes, feet, profile.marks);
    draw_line_through(painter, axes.line(ground), ink::kInk, 1.0);
    std::vector<KeyEntry> key{{Report::tr("ground"), ink::kInk, Qt::SolidLine, 1.0}};
    if (profile.lost_m && profile.pipe_end_m) {
        std::vector<QPointF> pipe;
        for (const ProfileMark& mark : profile.marks)
            if (mark.along_m <= *profile.pipe_end_m)
                pipe.push_back(place(mark.along_m, mark.height.value));
        draw_line_through(painter, axes.line(pipe), ink::kWater, 2.6);
        key.push_back({Report::tr("pipe, laid along the ground"), ink::kWater, Qt::SolidLine, 2.6});
        const double begin_m = profile.marks.front().along_m;
        draw_line_through(painter,
                          axes.line({place(begin_m, *profile.water_m), place(*profile.pipe_end_m, *profile.water_m)}),
                          ink::kQuiet, 0.8, Qt::DashLine);
        key.push_back({Report::tr("standing water"), ink::kQuiet, Qt::DashLine, 0.8});
        draw_line_through(painter,
                          axes.line({place(begin_m, *profile.water_m),
                                     place(*profile.pipe_end_m, *profile.water_m - *profile.lost_m)}),
                          ink::kWarning, 1.1);
        key.push_back({Report::tr("hydraulic grade line at the design flow"), ink::kWarning, Qt::SolidLine, 1.1});
    }
    painter.setPen(Qt::NoPen);
    painter.setBrush(QColor::fromRgb(ink::kInk));
    for (const QPointF& one : feet)
        painter.drawEllipse(one, 1.5, 1.5);
    draw_key(painter, {box.left() + 34.0, box.bottom() + 2.0}, key);
}

void add_table(const Context& context, Galley& galley, const Profile& profile) {
    galley.heading(Report::tr("Along the pipe"));
    Table table{{{Report::tr("Station")},
                 {Report::tr("Level distance"), Fit::Figures},
                 {Report::tr("Height"), Fit::Figures},
                 {Report::tr("Below the intake"), Fit::Figures},
                 {Report::tr("Slope down to it"), Fit::Figures}},
                {}};
    const Wording& words = context.wording;
    for (std::size_t i = 0; i < profile.marks.size(); ++i) {
        const ProfileMark& mark = profile.marks[i];
        QString slope;
        if (i > 0 && mark.along_m > profile.marks[i - 1].along_m)
            slope = words.value((profile.marks[i - 1].height.value - mark.height.value) /
                                    (mark.along_m - profile.marks[i - 1].along_m),
                                Quantity::Slope, 1);
        table.rows.push_back(
            {mark.name, words.value(mark.along_m, Quantity::Length, 1), words.estimate(mark.height, Quantity::Length),
             context.site.profile.size() > i ? shown(context, context.site.profile[i].fall_m, Quantity::Length)
                                             : QString(),
             slope});
    }
    galley.table(std::move(table));
}

} // namespace

void profile_section(const Context& context, Galley& galley) {
    const Profile profile = profile_at(context);
    if (profile.marks.size() < 2)
        return;
    galley.chapter(Report::tr("Profile"));
    galley.figure(kHeight + 16.0, [profile, &context](QPainter& painter, const QRectF& box) {
        draw_profile(painter, {box.left(), box.top(), box.width(), kHeight}, profile, context);
    });
    if (!profile.lost_m)
        galley.text(Report::tr("Without a pipe in the estimate there is no hydraulic grade line."), type::kQuiet);
    galley.text(Report::tr("Heights are above the datum of the survey, drawn larger than lengths."), type::kSmall);
    add_table(context, galley, profile);
}

} // namespace rillmark::report
