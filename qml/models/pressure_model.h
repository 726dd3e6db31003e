// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "open_project.h"
#include "plant_model.h"
#include "settings_model.h"

#include <QList>
#include <QObject>
#include <QPointF>
#include <QtQml/qqmlregistration.h>

#include <optional>

/// Pressures along the pipe of the alternative in hand: lines to plot (chainage, level against the intake's water) and
/// what follows from them.
class PressureModel : public QObject {
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("made by the program")
    Q_PROPERTY(bool known READ known NOTIFY changed)
    Q_PROPERTY(QList<QPointF> pipe READ pipe NOTIFY changed)
    Q_PROPERTY(QList<QPointF> standing READ standing NOTIFY changed) // static line
    Q_PROPERTY(QList<QPointF> gradeLine READ gradeLine NOTIFY changed)
    Q_PROPERTY(QList<QPointF> highest READ highest NOTIFY changed) // surge envelope
    Q_PROPERTY(QList<QPointF> lowest READ lowest NOTIFY changed)
    Q_PROPERTY(QString lengthUnit READ lengthUnit NOTIFY changed)
    Q_PROPERTY(QList<FactItem> facts READ facts NOTIFY changed)
    Q_PROPERTY(QList<FactItem> sections READ sections NOTIFY changed)
    Q_PROPERTY(QList<FindingText> findings READ findings NOTIFY changed)
public:
    PressureModel(OpenProject& project, SettingsModel& settings, QObject* parent = nullptr);

    [[nodiscard]] bool known() const { return m_profile.has_value(); }
    [[nodiscard]] QList<QPointF> pipe() const;
    [[nodiscard]] QList<QPointF> standing() const;
    [[nodiscard]] QList<QPointF> gradeLine() const;
    [[nodiscard]] QList<QPointF> highest() const;
    [[nodiscard]] QList<QPointF> lowest() const;
    [[nodiscard]] QString lengthUnit() const;
    [[nodiscard]] QList<FactItem> facts() const;
    [[nodiscard]] QList<FactItem> sections() const;
    [[nodiscard]] QList<FindingText> findings() const;

signals:
    void changed();

private:
    template <class Level>
    [[nodiscard]] QList<QPointF> line(const Level& level) const;
    void compute();

    OpenProject& m_project;
    SettingsModel& m_settings;
    std::optional<rillmark::PressureProfile> m_profile;
    rillmark::Findings m_findings;
    double m_intake_m = 0.0;
    double m_weight_Pa_per_m = 1.0; // rho g
};
