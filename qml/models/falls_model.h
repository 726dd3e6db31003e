// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "formatter.h"
#include "open_project.h"
#include "resume_state.h"
#include "settings_model.h"
#include "station_choices.h"

#include <QObject>
#include <QPointF>
#include <QtQml/qqmlregistration.h>

/// A level book or a run of another method: a line of the list of ways that were measured.
class FallItem {
    Q_GADGET
    QML_VALUE_TYPE(fallItem)
    Q_PROPERTY(QString id MEMBER id CONSTANT FINAL)
    Q_PROPERTY(bool book MEMBER book CONSTANT FINAL)
    Q_PROPERTY(QString name MEMBER name CONSTANT FINAL)
    Q_PROPERTY(QString method MEMBER method CONSTANT FINAL)
    Q_PROPERTY(QString when MEMBER when CONSTANT FINAL)
    Q_PROPERTY(QString result MEMBER result CONSTANT FINAL)
    Q_PROPERTY(bool struck MEMBER struck CONSTANT FINAL)
public:
    QString id;
    bool book = false;
    QString name;
    QString method;
    QString when;
    QString result;
    bool struck = false;
    friend bool operator==(const FallItem&, const FallItem&) = default;
};

/// One piece of evidence in the adjusted network.
class EvidenceItem {
    Q_GADGET
    QML_VALUE_TYPE(evidenceItem)
    Q_PROPERTY(QString id MEMBER id CONSTANT FINAL) // of the book or run that it was booked in; empty: of a station
    Q_PROPERTY(bool book MEMBER book CONSTANT FINAL)
    Q_PROPERTY(QString group MEMBER group CONSTANT FINAL) // heading: set where a new method begins
    Q_PROPERTY(QString text MEMBER text CONSTANT FINAL)
    Q_PROPERTY(QString residual MEMBER residual CONSTANT FINAL)
    Q_PROPERTY(QString detail MEMBER detail CONSTANT FINAL)
    Q_PROPERTY(double bar MEMBER bar CONSTANT FINAL) // normalised residual over the limit for outliers, -1..1
    Q_PROPERTY(bool outlier MEMBER outlier CONSTANT FINAL)
    Q_PROPERTY(bool struck MEMBER struck CONSTANT FINAL)
public:
    QString id;
    bool book = false;
    QString group;
    QString text;
    QString residual;
    QString detail;
    double bar = 0.0;
    bool outlier = false;
    bool struck = false;
    friend bool operator==(const EvidenceItem&, const EvidenceItem&) = default;
};

/// A station on the profile: chainage and height with the half-length of its error bar, in the user's unit of length.
class ProfileItem {
    Q_GADGET
    QML_VALUE_TYPE(profileItem)
    Q_PROPERTY(QString id MEMBER id CONSTANT FINAL)
    Q_PROPERTY(QString name MEMBER name CONSTANT FINAL)
    Q_PROPERTY(double along MEMBER along CONSTANT FINAL)
    Q_PROPERTY(double height MEMBER height CONSTANT FINAL)
    Q_PROPERTY(double plusMinus MEMBER plus_minus CONSTANT FINAL)
public:
    QString id;
    QString name;
    double along = 0.0;
    double height = 0.0;
    double plus_minus = 0.0;
    friend bool operator==(const ProfileItem&, const ProfileItem&) = default;
};

/// All that is known of the falls of a site: what was measured, how it fits together, the profile, what to measure next.
class FallsModel : public QObject {
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("made by the program")
    Q_PROPERTY(QString view READ view WRITE setView NOTIFY changed) // ways, evidence, profile; book and run are pages
    Q_PROPERTY(QList<FallItem> falls READ falls NOTIFY changed)
    Q_PROPERTY(QList<EvidenceItem> evidence READ evidence NOTIFY changed)
    Q_PROPERTY(QList<FindingText> findings READ findings NOTIFY changed)
    Q_PROPERTY(QString fit READ fit NOTIFY changed)
    Q_PROPERTY(QList<ProfileItem> profile READ profile NOTIFY changed)
    Q_PROPERTY(QString lengthUnit READ lengthUnit NOTIFY changed)
    Q_PROPERTY(QList<Choice> stations READ stations NOTIFY changed)
    Q_PROPERTY(QString upper READ upper WRITE setUpper NOTIFY changed)
    Q_PROPERTY(QString lower READ lower WRITE setLower NOTIFY changed)
    Q_PROPERTY(QString drop READ drop NOTIFY changed)
    Q_PROPERTY(QString dropDetail READ dropDetail NOTIFY changed)
public:
    FallsModel(OpenProject& project, SettingsModel& settings, ResumeState& resume, QObject* parent = nullptr);

    [[nodiscard]] QString view() const { return m_view; }
    void setView(const QString& view);
    [[nodiscard]] QList<FallItem> falls() const;
    [[nodiscard]] QList<EvidenceItem> evidence() const;
    [[nodiscard]] QList<FindingText> findings() const;
    /// How well the evidence fits together, in words.
    [[nodiscard]] QString fit() const;
    [[nodiscard]] QList<ProfileItem> profile() const;
    [[nodiscard]] QString lengthUnit() const;
    [[nodiscard]] QList<Choice> stations() const;
    [[nodiscard]] QString upper() const;
    void setUpper(const QString& station);
    [[nodiscard]] QString lower() const;
    void setLower(const QString& station);
    /// Drop from the upper to the lower station, and its mean slope per metre of ground and of pipe.
    [[nodiscard]] QString drop() const;
    [[nodiscard]] QString dropDetail() const;
    /// A touch on the profile: the nearer end moves to that station.
    Q_INVOKABLE void touchProfile(const QString& station);
    /// What to measure next for the head, best first. Costs some milliseconds: asked for when it is shown.
    Q_INVOKABLE QStringList nextMeasurements() const;

signals:
    void changed();

private:
    OpenProject& m_project;
    SettingsModel& m_settings;
    ResumeState& m_resume;
    QString m_view;
    rillmark::Id m_upper = 0;
    rillmark::Id m_lower = 0;
};
