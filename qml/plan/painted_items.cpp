// SPDX-License-Identifier: GPL-3.0-or-later
#include "painted_items.h"

#include <QFile>
#include <QHash>
#include <QJsonDocument>
#include <QJsonObject>
#include <QPainter>
#include <QPainterPath>
#include <QSvgRenderer>

namespace {

constexpr int kIconSize = 24;

QHash<QString, QString> read_icon_paths() {
    QHash<QString, QString> paths;
    QFile file(QStringLiteral(":/icons/paths.json"));
    if (!file.open(QIODevice::ReadOnly))
        return paths;
    const QJsonObject all = QJsonDocument::fromJson(file.readAll()).object();
    for (auto icon = all.begin(); icon != all.end(); ++icon)
        paths.insert(icon.key(), icon.value().toString());
    return paths;
}

QByteArray svg_of(const QString& name, const QColor& ink) {
    static const QHash<QString, QString> paths = read_icon_paths();
    return QStringLiteral("<svg xmlns='http://www.w3.org/2000/svg' viewBox='0 0 %1 %1'><path d='%2' fill='none' stroke='%3' "
                          "stroke-width='2' stroke-linecap='round' stroke-linejoin='round'/></svg>")
        .arg(kIconSize)
        .arg(paths.value(name), ink.name())
        .toUtf8();
}

} // namespace

StrokeIcon::StrokeIcon(QQuickItem* parent) : QQuickPaintedItem(parent) {
    setAntialiasing(true);
}

void StrokeIcon::setName(const QString& name) {
    m_name = name;
    update();
}

void StrokeIcon::setInk(const QColor& ink) {
    m_ink = ink;
    update();
}

void StrokeIcon::paint(QPainter* painter) {
    if (m_name.isEmpty())
        return;
    QSvgRenderer renderer(svg_of(m_name, m_ink));
    renderer.render(painter, boundingRect());
}

PolyLine::PolyLine(QQuickItem* parent) : QQuickPaintedItem(parent) {
    setAntialiasing(true);
}

void PolyLine::setPoints(const QList<QPointF>& points) {
    m_points = points;
    update();
}

void PolyLine::setInk(const QColor& ink) {
    m_ink = ink;
    update();
}

void PolyLine::setThickness(double thickness) {
    m_thickness = thickness;
    update();
}

void PolyLine::paint(QPainter* painter) {
    painter->setPen(QPen(m_ink, m_thickness, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin));
    painter->drawPolyline(m_points.constData(), static_cast<int>(m_points.size()));
}
