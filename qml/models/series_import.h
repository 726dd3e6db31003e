// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "exchange/logger_guess.h"
#include "open_project.h"
#include "settings_model.h"
#include "station_choices.h"

#include <QObject>
#include <QThread>
#include <QUrl>
#include <QtQml/qqmlregistration.h>

#include <atomic>
#include <memory>
#include <string>
#include <vector>

/// Reads a file with a stage log or daily flows: shows how it is understood, lets the columns be chosen, and takes it in
/// behind the screen, with its progress.
class SeriesImport : public QObject {
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("made by the program")
    Q_PROPERTY(QString fileName READ fileName NOTIFY changed) // empty: no file in hand
    Q_PROPERTY(QList<Choice> kinds READ kinds CONSTANT)
    Q_PROPERTY(QString kind READ kind WRITE setKind NOTIFY changed)
    Q_PROPERTY(QString preview READ preview NOTIFY changed) // its first lines of readings
    Q_PROPERTY(QList<Choice> columns READ columns NOTIFY changed)
    Q_PROPERTY(QString timeColumn READ timeColumn WRITE setTimeColumn NOTIFY changed)
    Q_PROPERTY(QString valueColumn READ valueColumn WRITE setValueColumn NOTIFY changed)
    Q_PROPERTY(QList<Choice> units READ units NOTIFY changed)
    Q_PROPERTY(QString unit READ unit WRITE setUnit NOTIFY changed)
    Q_PROPERTY(QList<Choice> dateOrders READ dateOrders CONSTANT)
    Q_PROPERTY(QString dateOrder READ dateOrder WRITE setDateOrder NOTIFY changed)
    Q_PROPERTY(QList<Choice> clocks READ clocks CONSTANT)
    Q_PROPERTY(QString clock READ clock WRITE setClock NOTIFY changed) // utc, here
    Q_PROPERTY(bool leaveOutBad READ leaveOutBad WRITE setLeaveOutBad NOTIFY changed)
    Q_PROPERTY(bool complete READ complete NOTIFY changed)
    Q_PROPERTY(bool running READ running NOTIFY changed)
    Q_PROPERTY(double progress READ progress NOTIFY progressChanged) // 0 to 1
    Q_PROPERTY(QList<FindingText> findings READ findings NOTIFY changed) // of the last file: why not, or what to know
public:
    SeriesImport(OpenProject& project, SettingsModel& settings, QObject* parent = nullptr);
    ~SeriesImport() override;

    [[nodiscard]] QString fileName() const;
    [[nodiscard]] QList<Choice> kinds() const;
    [[nodiscard]] QString kind() const { return QString::fromStdString(m_kind); }
    void setKind(const QString& kind);
    [[nodiscard]] QString preview() const;
    [[nodiscard]] QList<Choice> columns() const;
    [[nodiscard]] QString timeColumn() const;
    void setTimeColumn(const QString& column);
    [[nodiscard]] QString valueColumn() const;
    void setValueColumn(const QString& column);
    [[nodiscard]] QList<Choice> units() const;
    [[nodiscard]] QString unit() const;
    void setUnit(const QString& unit);
    [[nodiscard]] QList<Choice> dateOrders() const;
    [[nodiscard]] QString dateOrder() const;
    void setDateOrder(const QString& order);
    [[nodiscard]] QList<Choice> clocks() const;
    [[nodiscard]] QString clock() const { return m_clock_here ? QStringLiteral("here") : QStringLiteral("utc"); }
    void setClock(const QString& clock);
    [[nodiscard]] bool leaveOutBad() const { return m_layout.leave_out_bad_lines; }
    void setLeaveOutBad(bool leave_out);
    [[nodiscard]] bool complete() const;
    [[nodiscard]] bool running() const { return m_worker != nullptr; }
    [[nodiscard]] double progress() const { return m_progress; }
    [[nodiscard]] QList<FindingText> findings() const;

    /// Looks at the first lines of a file.
    Q_INVOKABLE void look(const QUrl& file);
    /// Reads the whole file and books it under that name of its gauge.
    Q_INVOKABLE void start(const QString& name);
    Q_INVOKABLE void cancel();
    Q_INVOKABLE void putAway();

signals:
    void changed();
    void progressChanged();
    void done();

private:
    /// What the worker needs and nothing else of ours.
    struct Job {
        QString path;
        std::string file;
        rillmark::LoggerLayout layout;
        double clock_ahead_s = 0.0;
        std::filesystem::path project;
        rillmark::FlowSeriesRow series;
    };
    [[nodiscard]] rillmark::Quantity quantity() const;
    void guess();
    void finish(const rillmark::Expected<rillmark::Findings>& outcome);
    [[nodiscard]] static rillmark::Expected<rillmark::Findings> carry_out(Job job, const rillmark::LoggerProgress& progress);

    OpenProject& m_project;
    SettingsModel& m_settings;
    QString m_path;
    std::string m_kind;
    std::vector<std::string> m_lines;
    rillmark::LoggerLayout m_layout;
    bool m_clock_here = false;
    rillmark::Findings m_findings;
    std::unique_ptr<QThread> m_worker;
    std::atomic<bool> m_cancelled = false;
    double m_progress = 0.0;
};
