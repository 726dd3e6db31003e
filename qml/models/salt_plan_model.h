// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "entry_form.h"
#include "formatter.h"
#include "station_choices.h"

#include "flow/salt_plan.h"

#include <QObject>
#include <QStringList>
#include <QtQml/qqmlregistration.h>

/// Advice before salt goes into a creek: how far below to read, how much to take, and what the creek may stand.
class SaltPlanModel : public QObject {
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("made by the program")
    Q_PROPERTY(EntryForm* form READ form CONSTANT)
    Q_PROPERTY(QList<Choice> pourings READ pourings CONSTANT)
    Q_PROPERTY(QString pouring READ pouring WRITE setPouring NOTIFY changed)
    Q_PROPERTY(QStringList advice READ advice NOTIFY changed)
    Q_PROPERTY(QStringList limits READ limits NOTIFY changed) // of chloride, each with its source
    Q_PROPERTY(QList<FindingText> findings READ findings NOTIFY changed)
public:
    SaltPlanModel(SettingsModel& settings, ResumeState& resume, QObject* parent = nullptr);

    /// A constant rate is planned, not a slug.
    void setSteady(bool steady) { m_steady = steady; }
    [[nodiscard]] EntryForm* form() { return &m_form; }
    [[nodiscard]] QList<Choice> pourings() const;
    [[nodiscard]] QString pouring() const;
    void setPouring(const QString& id);
    [[nodiscard]] QStringList advice() const;
    [[nodiscard]] QStringList limits() const;
    [[nodiscard]] QList<FindingText> findings() const;

signals:
    void changed();

private:
    [[nodiscard]] rillmark::Expected<rillmark::SaltPlan> plan() const;
    [[nodiscard]] QStringList slug_advice(const rillmark::SaltPlan& plan) const;

    SettingsModel& m_settings;
    ResumeState& m_resume;
    EntryForm m_form;
    bool m_steady = false;
};
