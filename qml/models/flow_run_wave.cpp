// SPDX-License-Identifier: GPL-3.0-or-later
// The wave of a salt test, and what a slope-area test takes from the stations.
#include "flow_run_model.h"

#include "position/station_kind.h"
#include "site/along_creek.h"
#include "site/flow_readings.h"
#include "thinned.h"

#include <algorithm>
#include <unordered_map>

using namespace rillmark;

namespace {

constexpr double kMicrosiemensPerCm = 1e4; // of one S/m, for the axis of the plot
constexpr std::size_t kShown = 800;        // points of a plot
constexpr int kHeightDecimals = 3;
constexpr int kAlongDecimals = 1; // as good as a position

} // namespace

QList<QPointF> FlowRunModel::wave() const {
    const SlugTrace* trace = slug();
    if (trace == nullptr)
        return {};
    const PreparedTrace& prepared = trace->prepared;
    return thinned(0, prepared.time_s.size(), kShown, [&prepared](std::size_t i) {
        return std::optional(QPointF(prepared.time_s[i], kMicrosiemensPerCm * prepared.ec_Sm[i]));
    });
}

double FlowRunModel::waveFrom() const {
    return slug() ? slug()->windows.start_s : 0.0;
}

double FlowRunModel::waveTo() const {
    return slug() ? slug()->windows.end_s : 0.0;
}

QList<QPointF> FlowRunModel::leftOut() const {
    QList<QPointF> points;
    const SlugTrace* trace = slug();
    if (trace == nullptr)
        return points;
    std::unordered_map<Id, const FlowReadingRow*> rows;
    for (const Booked<FlowReadingRow>& one : m_project.survey().flow_readings)
        if (one.row.test_id == m_test)
            rows.emplace(one.row.id, &one.row);
    for (std::size_t i = 0; i < trace->reading_ids.size() && i < trace->prepared.marks.size(); ++i) {
        if (trace->prepared.marks[i] == ReadingMark::Used || trace->prepared.marks[i] == ReadingMark::Missing)
            continue;
        const auto row = rows.find(trace->reading_ids[i]);
        if (row != rows.end() && row->second->time_s && row->second->conductivity_Sm)
            points.append({*row->second->time_s, kMicrosiemensPerCm * *row->second->conductivity_Sm});
    }
    return thinned(0, static_cast<std::size_t>(points.size()), kShown / 4,
                   [&points](std::size_t i) { return std::optional(points[static_cast<qsizetype>(i)]); });
}

void FlowRunModel::setWave(double from_s, double to_s) {
    if (row() == nullptr || !(from_s < to_s))
        return;
    FlowTestRow test = *row();
    test.trace_from_s = from_s;
    test.trace_to_s = to_s;
    m_project.change(test);
}

QString FlowRunModel::flowIfWave(double from_s, double to_s) const {
    const SlugTrace* trace = slug();
    if (trace == nullptr || !trace->discharge_m3s)
        return {};
    const Expected<TraceIntegral> integral =
        integrate_trace(trace->prepared, windows_between(trace->prepared, trace->windows, from_s, to_s));
    if (!integral)
        return m_settings.formatter().finding(integral.error()).sentence;
    // salt over factor is the same for every choice of the ends: the flow goes with one over the area
    const double discharge_m3s = *trace->discharge_m3s * trace->integral.area_Ss_m / integral->area_Ss_m;
    return tr("%1 by this probe").arg(m_settings.formatter().value(discharge_m3s, Quantity::Discharge));
}

void FlowRunModel::takeMoment() {
    if (role() == QLatin1String(flow_role::kTrace) && m_clock.running())
        fill_field(&FlowReadingRow::time_s, QString::number(m_clock.seconds(), 'f', 1));
}

void FlowRunModel::fill_field(std::optional<double> FlowReadingRow::*column, const QString& text) {
    const ReadingRole* one = reading_role();
    if (one == nullptr)
        return;
    for (const RecordField<FlowReadingRow>& field : one->fields)
        if (const auto* filled = std::get_if<std::optional<double> FlowReadingRow::*>(&field.column);
            filled && *filled == column)
            form()->setTypedByKey(field.field.key, text);
}

QList<Choice> FlowRunModel::heightStations() const {
    QList<Choice> marks;
    QList<Choice> others;
    const std::map<Id, Estimate>& heights = m_project.estimate().heights.height;
    for (const Booked<StationRow>& station : m_project.survey().stations) {
        const auto height = heights.find(station.row.id);
        if (station.struck || height == heights.end())
            continue;
        const bool mark = station_kind_from_id(station.row.kind) == StationKind::FloodMark;
        (mark ? marks : others)
            .append({key_text(station.row.id),
                     tr("%1: %2").arg(
                         QString::fromStdString(station.row.name),
                         m_settings.formatter().value(height->second.value, Quantity::Length, kHeightDecimals))});
    }
    return marks + others;
}

void FlowRunModel::takeStation(const QString& id) {
    const SiteHeights& heights = m_project.estimate().heights;
    const StationRow* station = m_project.survey().station(key_of(id));
    const auto height = heights.height.find(key_of(id));
    if (station == nullptr || height == heights.height.end() || form() == nullptr)
        return;
    const Formatter formatter = m_settings.formatter();
    fill_field(&FlowReadingRow::height_m, formatter.value(height->second.value, Quantity::Length, kHeightDecimals));
    if (const std::optional<double> along_m = distance_along_creek_m(m_project.survey(), heights, station->id))
        fill_field(&FlowReadingRow::length_m, formatter.value(*along_m, Quantity::Length, kAlongDecimals));
    form()->setTypedByKey(QStringLiteral("remark"), QString::fromStdString(station->name));
}

std::vector<FlowReadingRow> FlowRunModel::marks_to_take() const {
    std::vector<FlowReadingRow> marks;
    if (flow_method() != FlowMethod::SlopeArea)
        return marks;
    const std::vector<Booked<FlowReadingRow>> booked = m_project.survey().test_readings(m_test);
    const SiteHeights& heights = m_project.estimate().heights;
    const DisplayOptions metric{};
    for (const Booked<StationRow>& station : m_project.survey().stations) {
        const auto height = heights.height.find(station.row.id);
        if (station.struck || station_kind_from_id(station.row.kind) != StationKind::FloodMark ||
            height == heights.height.end() || std::ranges::any_of(booked, [&](const auto& one) {
                return !one.struck && one.row.remark == station.row.name;
            }))
            continue;
        FlowReadingRow mark;
        mark.test_id = m_test;
        mark.role = flow_role::kMark;
        mark.length_m = distance_along_creek_m(m_project.survey(), heights, station.row.id);
        mark.height_m = height->second.value;
        mark.remark = station.row.name;
        if (!mark.length_m)
            continue;
        mark.typed = station.row.name + ": " + format_value(*mark.length_m, Quantity::Length, metric) + ", " +
                     format_value(*mark.height_m, Quantity::Length, metric);
        marks.push_back(std::move(mark));
    }
    return marks;
}

int FlowRunModel::marksToTake() const {
    return role() == QLatin1String(flow_role::kMark) ? static_cast<int>(marks_to_take().size()) : 0;
}

void FlowRunModel::bookMarks() {
    std::vector<FlowReadingRow> marks = marks_to_take();
    std::int64_t position = next_position();
    for (FlowReadingRow& mark : marks)
        mark.position = position++;
    m_project.act([marks = std::move(marks)](Project& project) {
        return project.together([&marks](Project::Batch& batch) -> Expected<void> {
            for (const FlowReadingRow& mark : marks)
                if (const Expected<Id> booked = batch.book(mark); !booked)
                    return booked.error();
            return {};
        });
    });
}
