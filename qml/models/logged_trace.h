// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "logger_import.h"
#include "open_project.h"

#include <QPointF>

/// A logger's trace on its way into a salt test: read by LoggerImport, looked at as a whole, and the part around the
/// wave taken into the record by a thread with a connection of its own.
class LoggedTrace : public QObject {
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("made by the program")
    Q_PROPERTY(LoggerImport* file READ file CONSTANT)
    Q_PROPERTY(bool waiting READ waiting NOTIFY changed)         // read, and no part of it taken yet
    Q_PROPERTY(QList<QPointF> points READ points NOTIFY changed) // seconds, microsiemens per centimetre
    Q_PROPERTY(double from READ from NOTIFY changed)
    Q_PROPERTY(double to READ to NOTIFY changed)
    Q_PROPERTY(QString summary READ summary NOTIFY changed)
    Q_PROPERTY(QList<FindingText> findings READ findings NOTIFY changed)
    Q_PROPERTY(bool fits READ fits NOTIFY changed) // the part is neither too short nor too long
    Q_PROPERTY(bool storing READ storing NOTIFY changed)
public:
    LoggedTrace(OpenProject& project, SettingsModel& settings, QObject* parent = nullptr);
    ~LoggedTrace() override;

    [[nodiscard]] LoggerImport* file() { return &m_file; }
    [[nodiscard]] bool waiting() const { return m_table != nullptr; }
    [[nodiscard]] QList<QPointF> points() const;
    [[nodiscard]] double from() const { return m_from_s; }
    [[nodiscard]] double to() const { return m_to_s; }
    [[nodiscard]] QString summary() const;
    [[nodiscard]] QList<FindingText> findings() const;
    [[nodiscard]] bool fits() const;
    [[nodiscard]] bool storing() const { return m_thread != nullptr; }

    Q_INVOKABLE void setPart(double from_s, double to_s);
    /// Books the part as the wave of a test at a probe.
    Q_INVOKABLE void take(const QString& test, const QString& probe);
    /// Puts the trace away.
    Q_INVOKABLE void drop();
    /// Writes many rows on a thread with a connection of its own and reads the file again when they are on the disk.
    void write_behind(OpenProject::Action action);

signals:
    void changed();
    void refused(const FindingText& why);

private:
    /// Rows of the table, first to one behind the last.
    struct Part {
        std::size_t first = 0;
        std::size_t end = 0;
    };
    [[nodiscard]] Part part() const;
    [[nodiscard]] std::size_t row_at(double time_s) const;
    void show_table(std::shared_ptr<const rillmark::LoggerTable> table, const QString& name);
    void finish(const rillmark::Expected<void>& stored);

    OpenProject& m_project;
    SettingsModel& m_settings;
    LoggerImport m_file;
    std::shared_ptr<const rillmark::LoggerTable> m_table;
    QString m_name;
    double m_zero_s = 0.0; // what the trace's times count from
    double m_from_s = 0.0;
    double m_to_s = 0.0;
    std::unique_ptr<QThread> m_thread;
};
