// SPDX-License-Identifier: GPL-3.0-or-later
#include "plan_item.h"

#include "plan_strokes.h"
#include "units/units.h"

#include <QSGGeometryNode>
#include <QSGTransformNode>
#include <QSGVertexColorMaterial>

#include <algorithm>
#include <cmath>
#include <cstring>

using namespace rillmark;

namespace {

constexpr double kLeastScale = 1e-3; // pixels per metre
constexpr double kMostScale = 400.0;
constexpr double kMargin_px = 40.0;      // room for a mark at the edge
constexpr double kLabelMargin_px = 80.0; // more on the right, where the names stand
constexpr double kSmallestExtent_m = 20.0; // what one lone station is shown with
constexpr double kReach_px = 28.0;         // half of a touch target
constexpr double kMark_px = 12.0;
constexpr double kLeastRing_px = 10.0;
constexpr qsizetype kMostLabels = 60;
constexpr double kLabelRoom_px = 20.0; // labels closer than this in height and kLabelWide_px across hide each other
constexpr double kLabelWide_px = 70.0;

} // namespace

PlanItem::PlanItem(QQuickItem* parent) : QQuickItem(parent) {
    setFlag(ItemHasContents);
    setClip(true);
    connect(this, &PlanItem::inksChanged, this, &PlanItem::redraw);
    connect(this, &PlanItem::metricChanged, this, &PlanItem::scaleChanged);
}

void PlanItem::setScene(PlanScene scene) {
    m_scene = std::move(scene);
    if (m_fitted && (!m_scene.stations.empty() || !m_scene.track.empty()) && width() > 0.0)
        showAll();
    place_labels();
    redraw();
}

void PlanItem::appendTrack(const LocalPoint& point) {
    m_scene.track.push_back(point);
    redraw();
}

void PlanItem::setOwnPosition(std::optional<LocalPoint> at, double u_m) {
    m_own = at;
    m_own_u_m = u_m;
    redraw();
}

QPointF PlanItem::pixel(const LocalPoint& point) const {
    return {(point.east_m - m_anchor.east_m) * m_scale, (m_anchor.north_m - point.north_m) * m_scale};
}

QColor PlanItem::ink(PlanScene::Ink which) const {
    const auto index = static_cast<qsizetype>(which);
    return index < m_inks.size() ? m_inks[index] : QColor(Qt::black);
}

double PlanItem::barMetres() const {
    const Unit unit = entry_unit(Quantity::Length, m_metric ? UnitSystem::Metric : UnitSystem::UsCustomary);
    const double wanted = from_si(unit, std::max(width(), 1.0) / 4.0 / m_scale);
    const double decade = std::pow(10.0, std::floor(std::log10(wanted)));
    for (const double step : {5.0, 2.0, 1.0})
        if (step * decade <= wanted)
            return to_si(unit, step * decade);
    return to_si(unit, decade);
}

void PlanItem::panBy(double dx, double dy) {
    m_fitted = false;
    m_offset += QPointF(dx, dy);
    emit viewChanged();
    update();
}

void PlanItem::zoomBy(double factor, double x, double y) {
    m_fitted = false;
    const double scale = std::clamp(m_scale * factor, kLeastScale, kMostScale);
    const QPointF about(x, y);
    m_offset = about - (about - m_offset) * (scale / m_scale);
    m_scale = scale;
    place_labels();
    redraw();
    emit viewChanged();
    emit scaleChanged();
}

void PlanItem::showAll() {
    double west = 1e300;
    double east = -1e300;
    double south = 1e300;
    double north = -1e300;
    const auto widen = [&](const LocalPoint& p) {
        west = std::min(west, p.east_m);
        east = std::max(east, p.east_m);
        south = std::min(south, p.north_m);
        north = std::max(north, p.north_m);
    };
    for (const PlanScene::Station& station : m_scene.stations)
        widen(station.at);
    for (const LocalPoint& point : m_scene.track)
        widen(point);
    if (west > east || width() <= 0.0 || height() <= 0.0)
        return;
    const double across = std::max(east - west, kSmallestExtent_m);
    const double up = std::max(north - south, kSmallestExtent_m);
    const double room_across = std::max(width() - kMargin_px - kLabelMargin_px, width() / 4.0);
    const double room_up = std::max(height() - 2.0 * kMargin_px, height() / 4.0);
    m_scale = std::clamp(std::min(room_across / across, room_up / up), kLeastScale, kMostScale);
    m_anchor = {(west + east) / 2.0, (south + north) / 2.0};
    m_offset = {(width() - kLabelMargin_px + kMargin_px) / 2.0, height() / 2.0};
    m_fitted = true;
    place_labels();
    redraw();
    emit viewChanged();
    emit scaleChanged();
}

QString PlanItem::stationAt(double x, double y) const {
    const PlanScene::Station* nearest = nullptr;
    double least = kReach_px;
    for (const PlanScene::Station& station : m_scene.stations) {
        const QPointF at = pixel(station.at) + m_offset;
        const double distance = std::hypot(at.x() - x, at.y() - y);
        if (distance < least) {
            least = distance;
            nearest = &station;
        }
    }
    return nearest ? QString::number(nearest->id) : QString();
}

void PlanItem::place_labels() {
    m_labels.clear();
    for (const PlanScene::Station& station : m_scene.stations) {
        const QPointF at = pixel(station.at);
        const bool hidden = std::any_of(m_labels.begin(), m_labels.end(), [&at](const PlanLabel& other) {
            return std::abs(other.y - at.y()) < kLabelRoom_px && std::abs(other.x - at.x()) < kLabelWide_px;
        });
        if (!hidden)
            m_labels.append({at.x(), at.y(), station.name});
        if (m_labels.size() >= kMostLabels)
            break;
    }
    emit labelsChanged();
}

void PlanItem::redraw() {
    m_stale = true;
    update();
}

void PlanItem::geometryChange(const QRectF& now, const QRectF& before) {
    QQuickItem::geometryChange(now, before);
    if (now.size() == before.size())
        return;
    if (m_fitted || before.isEmpty())
        showAll();
    else
        panBy((now.width() - before.width()) / 2.0, (now.height() - before.height()) / 2.0);
    emit scaleChanged();
}

QSGNode* PlanItem::updatePaintNode(QSGNode* old, UpdatePaintNodeData*) {
    auto* moved = static_cast<QSGTransformNode*>(old);
    if (moved == nullptr) {
        moved = new QSGTransformNode;
        auto* drawn = new QSGGeometryNode;
        auto* geometry = new QSGGeometry(QSGGeometry::defaultAttributes_ColoredPoint2D(), 0);
        geometry->setDrawingMode(QSGGeometry::DrawTriangles);
        drawn->setGeometry(geometry);
        drawn->setFlag(QSGNode::OwnsGeometry);
        drawn->setMaterial(new QSGVertexColorMaterial);
        drawn->setFlag(QSGNode::OwnsMaterial);
        moved->appendChildNode(drawn);
        m_stale = true;
    }
    QMatrix4x4 matrix;
    matrix.translate(static_cast<float>(m_offset.x()), static_cast<float>(m_offset.y()));
    moved->setMatrix(matrix);
    if (!m_stale)
        return moved;
    m_stale = false;

    PlanStrokes strokes(m_scale, m_anchor);
    strokes.polyline(m_scene.track, false, 2.0, ink(PlanScene::Ink::Quiet));
    for (const PlanScene::Line& line : m_scene.lines)
        strokes.polyline(line.points, line.closed, line.width_px, ink(line.ink));
    for (const PlanScene::Station& station : m_scene.stations)
        strokes.mark(station.at, station.mark, kMark_px, ink(station.ink));
    if (m_own) {
        strokes.ring(*m_own, std::max(kLeastRing_px, 2.0 * m_own_u_m * m_scale), 2.0, ink(PlanScene::Ink::Danger));
        strokes.mark(*m_own, PlanScene::Mark::Diamond, kMark_px, ink(PlanScene::Ink::Danger));
    }
    auto* drawn = static_cast<QSGGeometryNode*>(moved->firstChild());
    const auto& triangles = strokes.triangles();
    drawn->geometry()->allocate(static_cast<int>(triangles.size()));
    if (!triangles.empty())
        std::memcpy(drawn->geometry()->vertexData(), triangles.data(), triangles.size() * sizeof(triangles.front()));
    drawn->markDirty(QSGNode::DirtyGeometry);
    return moved;
}
