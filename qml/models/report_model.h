// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "open_project.h"
#include "report/report.h"
#include "resume_state.h"
#include "settings_model.h"
#include "station_choices.h"

#include <QList>
#include <QObject>
#include <QThread>
#include <QtQml/qqmlregistration.h>

#include <atomic>
#include <memory>

/// The PDF report: what it is made with, how far it is, where it went.
class ReportModel : public QObject {
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("made by the program")
    Q_PROPERTY(QList<Choice> papers READ papers CONSTANT)
    Q_PROPERTY(QString paper READ paper WRITE setPaper NOTIFY changed)
    Q_PROPERTY(QList<Choice> units READ units CONSTANT)
    Q_PROPERTY(QString unit READ unit WRITE setUnit NOTIFY changed)
    Q_PROPERTY(bool allAlternatives READ allAlternatives WRITE setAllAlternatives NOTIFY changed)
    Q_PROPERTY(bool withCopy READ withCopy WRITE setWithCopy NOTIFY changed)
    Q_PROPERTY(bool working READ working NOTIFY workChanged)
    Q_PROPERTY(double progress READ progress NOTIFY workChanged) // 0..1
    Q_PROPERTY(QString progressText READ progressText NOTIFY workChanged)
    Q_PROPERTY(QString done READ done NOTIFY workChanged)
    Q_PROPERTY(QList<FindingText> outcome READ outcome NOTIFY workChanged)
public:
    ReportModel(OpenProject& project, SettingsModel& settings, ResumeState& resume, QObject* parent = nullptr);
    ~ReportModel() override;

    [[nodiscard]] QList<Choice> papers() const;
    [[nodiscard]] QString paper() const; // a4, letter
    void setPaper(const QString& paper);
    [[nodiscard]] QList<Choice> units() const;
    [[nodiscard]] QString unit() const; // metric, us; as on the screen until chosen
    void setUnit(const QString& unit);
    [[nodiscard]] bool allAlternatives() const;
    void setAllAlternatives(bool all);
    /// Save the closed copy that the report is made of beside it, so that its checksum is that of the file handed over.
    [[nodiscard]] bool withCopy() const;
    void setWithCopy(bool with);
    [[nodiscard]] bool working() const { return m_thread != nullptr; }
    [[nodiscard]] double progress() const { return m_total > 0 ? static_cast<double>(m_done_pages) / m_total : 0.0; }
    [[nodiscard]] QString progressText() const;
    /// Where the report went, or that it was cancelled.
    [[nodiscard]] QString done() const { return m_done; }
    [[nodiscard]] QList<FindingText> outcome() const { return m_settings.formatter().findings(m_outcome); }

    /// Makes the report in the folder for handing over, behind the screen, with a connection of its own to the file.
    Q_INVOKABLE void make();
    Q_INVOKABLE void cancel();

signals:
    void changed();
    void workChanged();

private:
    /// What the thread and the screen share.
    struct Job {
        std::atomic<bool> stop = false;
        rillmark::Findings findings;
        rillmark::report::Made made;
    };
    [[nodiscard]] rillmark::report::Options options() const;
    void finished(const Job& job, const QString& place);

    OpenProject& m_project;
    SettingsModel& m_settings;
    ResumeState& m_resume;
    std::shared_ptr<Job> m_job;
    std::unique_ptr<QThread> m_thread;
    int m_done_pages = 0;
    int m_total = 0;
    QString m_done;
    rillmark::Findings m_outcome;
};
