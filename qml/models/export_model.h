// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "open_project.h"
#include "resume_state.h"
#include "settings_model.h"
#include "station_choices.h"

#include <QObject>
#include <QThread>
#include <QtQml/qqmlregistration.h>

#include <memory>

/// Writes the open site for other programs.
class ExportModel : public QObject {
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("made by the program")
    Q_PROPERTY(QList<Choice> formats READ formats CONSTANT)
    Q_PROPERTY(QString format READ format WRITE setFormat NOTIFY changed)
    Q_PROPERTY(QString formatDetail READ formatDetail NOTIFY changed)
    Q_PROPERTY(bool takesUtm READ takesUtm NOTIFY changed)
    Q_PROPERTY(bool utm READ utm WRITE setUtm NOTIFY changed)
    Q_PROPERTY(bool working READ working NOTIFY changed)
    Q_PROPERTY(QString done READ done NOTIFY changed) // where the files are
    Q_PROPERTY(QList<FindingText> refusal READ refusal NOTIFY changed)
public:
    ExportModel(OpenProject& project, SettingsModel& settings, ResumeState& resume, QObject* parent = nullptr);
    ~ExportModel() override;

    [[nodiscard]] QList<Choice> formats() const;
    [[nodiscard]] QString format() const;
    void setFormat(const QString& format);
    [[nodiscard]] QString formatDetail() const;
    [[nodiscard]] bool takesUtm() const;
    [[nodiscard]] bool utm() const;
    void setUtm(bool utm);
    [[nodiscard]] bool working() const { return m_thread != nullptr; }
    [[nodiscard]] QString done() const { return m_done; }
    [[nodiscard]] QList<FindingText> refusal() const;

    /// Into the folder `handover` beside the project file, under a name that is free.
    Q_INVOKABLE void write();

signals:
    void changed();

private:
    OpenProject& m_project;
    SettingsModel& m_settings;
    ResumeState& m_resume;
    QString m_done;
    std::optional<rillmark::Finding> m_refusal;
    std::unique_ptr<QThread> m_thread;
};
