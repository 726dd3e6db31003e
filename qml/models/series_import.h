// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "logger_import.h"
#include "open_project.h"

#include <string>

/// Reads in a stage log or daily flows: the file by LoggerImport, its readings into the record by a thread with a
/// connection of its own.
class SeriesImport : public QObject {
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("made by the program")
    Q_PROPERTY(LoggerImport* file READ file CONSTANT)
    Q_PROPERTY(QList<Choice> kinds READ kinds CONSTANT)
    Q_PROPERTY(QString kind READ kind WRITE setKind NOTIFY changed)
    Q_PROPERTY(QList<Choice> clocks READ clocks CONSTANT)
    Q_PROPERTY(QString clock READ clock WRITE setClock NOTIFY changed) // utc, here
    Q_PROPERTY(bool running READ running NOTIFY changed)
    Q_PROPERTY(QList<FindingText> findings READ findings NOTIFY changed) // of the last file: why not, or what to know
public:
    SeriesImport(OpenProject& project, SettingsModel& settings, QObject* parent = nullptr);
    ~SeriesImport() override;

    [[nodiscard]] LoggerImport* file() { return &m_file; }
    [[nodiscard]] QList<Choice> kinds() const;
    [[nodiscard]] QString kind() const { return QString::fromStdString(m_series.kind); }
    void setKind(const QString& kind);
    [[nodiscard]] QList<Choice> clocks() const;
    [[nodiscard]] QString clock() const { return m_clock_here ? QStringLiteral("here") : QStringLiteral("utc"); }
    void setClock(const QString& clock);
    [[nodiscard]] bool running() const { return m_file.isBusy() || m_thread != nullptr; }
    [[nodiscard]] QList<FindingText> findings() const;

    /// Reads the whole file and books it under that name of its gauge.
    Q_INVOKABLE void start(const QString& name);
    Q_INVOKABLE void cancel();

signals:
    void changed();
    void done();

private:
    /// What the record holds once it is stored.
    struct Stored {
        rillmark::Id series = 0;
        std::shared_ptr<const rillmark::SeriesValues> values;
        rillmark::Findings findings;
    };
    /// What the thread needs and nothing else of ours.
    struct Job {
        std::shared_ptr<const rillmark::LoggerTable> table;
        QString path;
        double clock_ahead_s = 0.0;
        std::filesystem::path project;
        rillmark::FlowSeriesRow series;
    };
    [[nodiscard]] static rillmark::Expected<Stored> carry_out(Job job, const std::atomic<bool>& cancelled);
    void store(std::shared_ptr<const rillmark::LoggerTable> table, const QString& name);
    void finish(const rillmark::Expected<Stored>& outcome);

    OpenProject& m_project;
    SettingsModel& m_settings;
    LoggerImport m_file;
    rillmark::FlowSeriesRow m_series;
    bool m_clock_here = false;
    rillmark::Findings m_findings;
    std::unique_ptr<QThread> m_thread;
    std::atomic<bool> m_cancelled = false;
};
