// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QColor>
#include <QPointF>
#include <QQuickPaintedItem>
#include <QString>
#include <QtQml/qqmlregistration.h>

/// A stroke icon of ours, from assets/icons/paths.json (24 x 24, SVG path data), in the given ink.
///
/// Painted, not a Shape: the software renderer of Qt Quick Shapes 6.4 keeps the node of a shape that has left the window,
/// and crashes when the shape comes back.
class StrokeIcon : public QQuickPaintedItem {
    Q_OBJECT
    QML_ELEMENT
    Q_PROPERTY(QString name MEMBER m_name WRITE setName)
    Q_PROPERTY(QColor ink MEMBER m_ink WRITE setInk)
public:
    explicit StrokeIcon(QQuickItem* parent = nullptr);
    void setName(const QString& name);
    void setInk(const QColor& ink);
    void paint(QPainter* painter) override;

private:
    QString m_name;
    QColor m_ink;
};

/// A line through points, in the item's own coordinates.
class PolyLine : public QQuickPaintedItem {
    Q_OBJECT
    QML_ELEMENT
    Q_PROPERTY(QList<QPointF> points MEMBER m_points WRITE setPoints)
    Q_PROPERTY(QColor ink MEMBER m_ink WRITE setInk)
    Q_PROPERTY(double thickness MEMBER m_thickness WRITE setThickness)
public:
    explicit PolyLine(QQuickItem* parent = nullptr);
    void setPoints(const QList<QPointF>& points);
    void setInk(const QColor& ink);
    void setThickness(double thickness);
    void paint(QPainter* painter) override;

private:
    QList<QPointF> m_points;
    QColor m_ink;
    double m_thickness = 1.0;
};
