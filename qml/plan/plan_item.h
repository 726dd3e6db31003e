// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "plan_scene.h"

#include <QColor>
#include <QList>
#include <QQuickItem>
#include <QtQml/qqmlregistration.h>

/// A name beside its station, in pixels from the plan's anchor.
class PlanLabel {
    Q_GADGET
    QML_VALUE_TYPE(planLabel)
    Q_PROPERTY(double x MEMBER x CONSTANT FINAL)
    Q_PROPERTY(double y MEMBER y CONSTANT FINAL)
    Q_PROPERTY(QString text MEMBER text CONSTANT FINAL)
public:
    double x = 0.0;
    double y = 0.0;
    QString text;
    friend bool operator==(const PlanLabel&, const PlanLabel&) = default;
};

/// The plan: north up, stations, lines, the track walked, the own position with its error circle.
///
/// Drawn as one set of triangles in pixels about an anchor. Panning moves the set; only a new scale or scene makes it
/// anew, so a pan costs the same whatever the plan holds.
class PlanItem : public QQuickItem {
    Q_OBJECT
    QML_ELEMENT
    Q_PROPERTY(QList<QColor> inks MEMBER m_inks NOTIFY inksChanged) // by PlanScene::Ink
    Q_PROPERTY(QPointF offset READ offset NOTIFY viewChanged)       // of the anchor, in item pixels
    Q_PROPERTY(QList<PlanLabel> labels READ labels NOTIFY labelsChanged)
    Q_PROPERTY(double barLength READ barLength NOTIFY scaleChanged) // of the scale bar, pixels
    Q_PROPERTY(double barMetres READ barMetres NOTIFY scaleChanged)
    Q_PROPERTY(bool metric MEMBER m_metric NOTIFY metricChanged)
public:
    explicit PlanItem(QQuickItem* parent = nullptr);

    void setScene(PlanScene scene);
    void appendTrack(const rillmark::LocalPoint& point);
    void setOwnPosition(std::optional<rillmark::LocalPoint> at, double u_m);

    [[nodiscard]] QPointF offset() const { return m_offset; }
    [[nodiscard]] const QList<PlanLabel>& labels() const { return m_labels; }
    [[nodiscard]] double barLength() const { return barMetres() * m_scale; }
    /// A round length that takes about a quarter of the width: 1, 2 or 5 times a power of ten, of metres or of feet.
    [[nodiscard]] double barMetres() const;

    Q_INVOKABLE void panBy(double dx, double dy);
    Q_INVOKABLE void zoomBy(double factor, double x, double y);
    Q_INVOKABLE void showAll();
    /// Key of the station within a thumb's reach of that point, or empty.
    Q_INVOKABLE QString stationAt(double x, double y) const;

signals:
    void inksChanged();
    void viewChanged();
    void labelsChanged();
    void scaleChanged();
    void metricChanged();

protected:
    QSGNode* updatePaintNode(QSGNode* old, UpdatePaintNodeData*) override;
    void geometryChange(const QRectF& now, const QRectF& before) override;

private:
    [[nodiscard]] QPointF pixel(const rillmark::LocalPoint& point) const; // from the anchor
    [[nodiscard]] QColor ink(PlanScene::Ink which) const;
    void place_labels();
    void redraw();

    PlanScene m_scene;
    std::optional<rillmark::LocalPoint> m_own;
    double m_own_u_m = 0.0;
    QList<QColor> m_inks;
    bool m_metric = true;
    double m_scale = 1.0; // pixels per metre
    rillmark::LocalPoint m_anchor;
    QPointF m_offset;
    QList<PlanLabel> m_labels;
    bool m_stale = true;
    bool m_fitted = true; // the whole site is shown, until a finger moves the plan
};
