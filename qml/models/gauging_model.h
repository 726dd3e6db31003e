// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "entry_form.h"
#include "open_project.h"
#include "resume_state.h"
#include "settings_model.h"
#include "station_choices.h"

#include <QList>
#include <QObject>
#include <QPointF>
#include <QStringList>
#include <QtQml/qqmlregistration.h>

#include <memory>
#include <vector>

/// The part of the section that one vertical stands for, as drawn: in the user's unit of length.
class PanelItem {
    Q_GADGET
    QML_VALUE_TYPE(panelItem)
    Q_PROPERTY(double from MEMBER from CONSTANT FINAL)
    Q_PROPERTY(double to MEMBER to CONSTANT FINAL)
    Q_PROPERTY(double depth MEMBER depth CONSTANT FINAL)
    Q_PROPERTY(QString share MEMBER share CONSTANT FINAL)
    Q_PROPERTY(int weight MEMBER weight CONSTANT FINAL) // 0; 1: more than 5 % of the flow; 2: more than 10 %
public:
    double from = 0.0, to = 0.0, depth = 0.0;
    QString share;
    int weight = 0;
    friend bool operator==(const PanelItem&, const PanelItem&) = default;
};

/// A current-meter gauging: the vertical to be booked next, the meters, the section as drawn, how sure the result is.
class GaugingModel : public QObject {
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("made by the program")
    Q_PROPERTY(EntryForm* verticalForm READ verticalForm CONSTANT)
    Q_PROPERTY(QList<Choice> points READ points CONSTANT)
    Q_PROPERTY(QString point READ point WRITE setPoint NOTIFY changed) // depth fractions: "0.6", "0.2 0.8" and so on
    Q_PROPERTY(QString edge READ edge WRITE setEdge NOTIFY changed)    // "", water-edge, vertical-bank
    Q_PROPERTY(QList<EntryForm*> velocityForms READ velocityForms NOTIFY changed)
    Q_PROPERTY(bool ready READ ready NOTIFY changed)
    Q_PROPERTY(QString preview READ preview NOTIFY changed) // the result with the vertical in hand
    Q_PROPERTY(QList<FindingText> previewFindings READ previewFindings NOTIFY changed)
    // counting revolutions
    Q_PROPERTY(bool counting READ counting NOTIFY changed)  // the meter counts
    Q_PROPERTY(QString counted READ counted NOTIFY changed) // what the next count is for
    Q_PROPERTY(QList<Choice> goals READ goals CONSTANT)
    Q_PROPERTY(QString goal READ goal WRITE setGoal NOTIFY changed)
    Q_PROPERTY(QList<Choice> signalChoices READ signalChoices CONSTANT)
    Q_PROPERTY(
        QString perSignal READ perSignal WRITE setPerSignal NOTIFY changed) // revolutions from one signal to the next
    // meters
    Q_PROPERTY(EntryForm* meterForm READ meterForm CONSTANT)
    Q_PROPERTY(QList<Choice> meters READ meters NOTIFY changed)
    Q_PROPERTY(QString meter READ meter WRITE setMeter NOTIFY changed)
    Q_PROPERTY(QString meterText READ meterText NOTIFY changed)                 // its rating in words
    Q_PROPERTY(bool ownRating READ ownRating WRITE setOwnRating NOTIFY changed) // of the meter to be added
    // the section as it stands
    Q_PROPERTY(QList<QPointF> bed READ bed NOTIFY changed) // distance and minus depth in the user's unit of length
    Q_PROPERTY(QList<QPointF> speeds READ speeds NOTIFY changed) // distance and mean velocity in the user's units
    Q_PROPERTY(QList<PanelItem> panels READ panels NOTIFY changed)
    Q_PROPERTY(QString lengthUnit READ lengthUnit NOTIFY changed)
    Q_PROPERTY(QString velocityUnit READ velocityUnit NOTIFY changed)
    Q_PROPERTY(QStringList comparison READ comparison NOTIFY changed) // both sections and both ways to judge the doubt
    Q_PROPERTY(QList<FindingText> improvements READ improvements NOTIFY changed)
public:
    GaugingModel(OpenProject& project, SettingsModel& settings, ResumeState& resume, QObject* parent = nullptr);
    void setTest(const QString& key);

    [[nodiscard]] EntryForm* verticalForm() { return &m_vertical; }
    [[nodiscard]] EntryForm* meterForm() { return &m_meter_form; }
    [[nodiscard]] QList<Choice> points() const;
    [[nodiscard]] QString point() const;
    void setPoint(const QString& point);
    [[nodiscard]] QString edge() const;
    void setEdge(const QString& edge);
    [[nodiscard]] QList<EntryForm*> velocityForms() const;
    [[nodiscard]] bool ready() const;
    [[nodiscard]] QString preview() const;
    [[nodiscard]] QList<FindingText> previewFindings() const;

    [[nodiscard]] bool counting() const;
    [[nodiscard]] QString counted() const;
    [[nodiscard]] QList<Choice> goals() const;
    [[nodiscard]] QString goal() const;
    void setGoal(const QString& goal);
    [[nodiscard]] QList<Choice> signalChoices() const;
    [[nodiscard]] QString perSignal() const;
    void setPerSignal(const QString& revolutions);

    [[nodiscard]] QList<Choice> meters() const;
    [[nodiscard]] QString meter() const;
    void setMeter(const QString& key);
    [[nodiscard]] QString meterText() const;
    [[nodiscard]] bool ownRating() const;
    void setOwnRating(bool own);

    [[nodiscard]] QList<QPointF> bed() const;
    [[nodiscard]] QList<QPointF> speeds() const;
    [[nodiscard]] QList<PanelItem> panels() const;
    [[nodiscard]] QString lengthUnit() const;
    [[nodiscard]] QString velocityUnit() const;
    [[nodiscard]] QStringList comparison() const;
    [[nodiscard]] QList<FindingText> improvements() const;

    Q_INVOKABLE void bookVertical();
    Q_INVOKABLE void addMeter();
    /// A count of signals into the next velocity that has none.
    Q_INVOKABLE void takeCount(int signal_count, double seconds);

signals:
    void changed();
    void refused(const FindingText& why);

private:
    [[nodiscard]] const rillmark::FlowTestRow* row() const;
    [[nodiscard]] const rillmark::MeterRow* meter_row() const;
    [[nodiscard]] const rillmark::VelocityAreaResult* gauging() const;
    [[nodiscard]] QStringList fractions() const;
    [[nodiscard]] rillmark::VerticalRow typed_vertical() const;
    [[nodiscard]] std::vector<rillmark::VelocityRow> typed_velocities() const;
    [[nodiscard]] rillmark::Expected<rillmark::VelocityAreaResult> with_typed() const;
    [[nodiscard]] qsizetype counted_form() const;

    OpenProject& m_project;
    SettingsModel& m_settings;
    ResumeState& m_resume;
    EntryForm m_vertical;
    EntryForm m_meter_form;
    std::vector<std::unique_ptr<EntryForm>> m_by_revolutions; // one a depth fraction
    std::vector<std::unique_ptr<EntryForm>> m_by_velocity;
    rillmark::Id m_test = 0;
};
