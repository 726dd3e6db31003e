// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "exchange/logger_guess.h"
#include "formatter.h"
#include "settings_model.h"
#include "station_choices.h"

#include <QObject>
#include <QThread>
#include <QTimer>
#include <QUrl>
#include <QtQml/qqmlregistration.h>

#include <atomic>
#include <memory>
#include <vector>

/// One thing that is read from the file: which column holds it, and in which unit.
class LoggerFieldItem {
    Q_GADGET
    QML_VALUE_TYPE(loggerFieldItem)
    Q_PROPERTY(QString label MEMBER label CONSTANT FINAL)
    Q_PROPERTY(QString column MEMBER column CONSTANT FINAL) // id of a choice; empty: not in this file
    Q_PROPERTY(QString unit MEMBER unit CONSTANT FINAL)
    Q_PROPERTY(QList<Choice> columns MEMBER columns CONSTANT FINAL)
    Q_PROPERTY(QList<Choice> units MEMBER units CONSTANT FINAL)
public:
    QString label;
    QString column;
    QString unit;
    QList<Choice> columns;
    QList<Choice> units;
    friend bool operator==(const LoggerFieldItem&, const LoggerFieldItem&) = default;
};

/// The file of a logger on its way in: what its first lines look like, how they are understood, and the reading of it
/// on a thread of its own. A presenter owns one, says what it wants, and takes the table from done(). LoggerSheet.qml
/// shows it.
///
/// How the last files of this purpose were laid out is kept in the settings and proposed for a file with the same
/// columns.
class LoggerImport : public QObject {
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("made by a presenter")
    Q_PROPERTY(bool open READ isOpen NOTIFY changed) // a file is chosen
    Q_PROPERTY(QString fileName READ fileName NOTIFY changed)
    Q_PROPERTY(QStringList head READ head NOTIFY changed) // the lines around the first reading, each with its number
    Q_PROPERTY(int firstShown READ firstShown NOTIFY changed) // which of them is the first reading; -1: none
    Q_PROPERTY(QList<Choice> encodings READ encodings CONSTANT)
    Q_PROPERTY(QString encoding READ encoding NOTIFY changed)
    Q_PROPERTY(QList<Choice> separators READ separators CONSTANT)
    Q_PROPERTY(QString separator READ separator NOTIFY changed)
    Q_PROPERTY(QList<Choice> decimals READ decimals CONSTANT)
    Q_PROPERTY(QString decimal READ decimal NOTIFY changed)
    Q_PROPERTY(QString firstLine READ firstLine NOTIFY changed)
    Q_PROPERTY(QList<Choice> timeKinds READ timeKinds CONSTANT)
    Q_PROPERTY(QString timeKind READ timeKind NOTIFY changed)
    Q_PROPERTY(QList<Choice> dateOrders READ dateOrders CONSTANT)
    Q_PROPERTY(QString dateOrder READ dateOrder NOTIFY changed)
    Q_PROPERTY(QList<Choice> columns READ columns NOTIFY changed)
    Q_PROPERTY(QString timeColumn READ timeColumn NOTIFY changed)
    Q_PROPERTY(QList<Choice> dateColumns READ dateColumns NOTIFY changed)
    Q_PROPERTY(QString dateColumn READ dateColumn NOTIFY changed)
    Q_PROPERTY(QList<LoggerFieldItem> fields READ fields NOTIFY changed)
    Q_PROPERTY(bool leaveOut READ leaveOut NOTIFY changed)
    Q_PROPERTY(QStringList understood READ understood NOTIFY changed) // the first readings, as they would be taken
    Q_PROPERTY(bool ready READ isReady NOTIFY changed)
    Q_PROPERTY(bool busy READ isBusy NOTIFY changed)
    Q_PROPERTY(double progress READ progress NOTIFY progressed) // 0 to 1
    Q_PROPERTY(QList<FindingText> findings READ findings NOTIFY changed)
public:
    LoggerImport(QString purpose, std::vector<rillmark::LoggerField> fields, SettingsModel& settings,
                 QObject* parent = nullptr);
    ~LoggerImport() override;

    /// What the files of another purpose are read for; one that is open is looked at anew.
    void want(const QString& purpose, std::vector<rillmark::LoggerField> fields);

    [[nodiscard]] bool isOpen() const { return !m_url.isEmpty(); }
    [[nodiscard]] QString path() const;
    [[nodiscard]] QString fileName() const;
    [[nodiscard]] QStringList head() const;
    [[nodiscard]] int firstShown() const;
    [[nodiscard]] QList<Choice> encodings() const;
    [[nodiscard]] QString encoding() const;
    [[nodiscard]] QList<Choice> separators() const;
    [[nodiscard]] QString separator() const;
    [[nodiscard]] QList<Choice> decimals() const;
    [[nodiscard]] QString decimal() const;
    [[nodiscard]] QString firstLine() const { return QString::number(m_layout.first_line); }
    [[nodiscard]] QList<Choice> timeKinds() const;
    [[nodiscard]] QString timeKind() const;
    [[nodiscard]] QList<Choice> dateOrders() const;
    [[nodiscard]] QString dateOrder() const;
    [[nodiscard]] QList<Choice> columns() const;
    [[nodiscard]] QString timeColumn() const { return QString::number(m_layout.time_column); }
    [[nodiscard]] QList<Choice> dateColumns() const;
    [[nodiscard]] QString dateColumn() const;
    [[nodiscard]] QList<LoggerFieldItem> fields() const;
    [[nodiscard]] bool leaveOut() const { return m_layout.leave_out_bad_lines; }
    [[nodiscard]] QStringList understood() const;
    [[nodiscard]] bool isReady() const;
    [[nodiscard]] bool isBusy() const { return m_thread != nullptr; }
    [[nodiscard]] double progress() const;
    [[nodiscard]] QList<FindingText> findings() const { return m_findings; }

    /// Looks at the first lines of a file and proposes how to read it.
    Q_INVOKABLE void begin(const QUrl& file);
    /// One of: encoding, separator, decimal, time-kind, date-order, time, date; field/N and unit/N of the field N.
    Q_INVOKABLE void choose(const QString& what, const QString& id);
    Q_INVOKABLE void setFirstLine(const QString& typed);
    Q_INVOKABLE void setLeaveOut(bool leave_out);
    /// Reads the whole file; done() or a refusal among the findings follows.
    Q_INVOKABLE void read();
    Q_INVOKABLE void cancel();
    /// Puts the file away.
    Q_INVOKABLE void close();

signals:
    void changed();
    void progressed();
    /// The whole file is read; `file` is its name.
    void done(std::shared_ptr<const rillmark::LoggerTable> table, QString file);

private:
    /// What the thread and the screen share.
    struct Shared {
        std::atomic<bool> cancelled = false;
        std::atomic<std::uint64_t> read_bytes = 0;
    };
    void look_anew();
    void finish(rillmark::Expected<rillmark::LoggerTable>& table);
    void remember();
    void recall();

    QString m_purpose;
    std::vector<rillmark::LoggerField> m_wanted;
    SettingsModel& m_settings;
    QUrl m_url;
    QByteArray m_bytes; // the first of the file
    qint64 m_size = 0;
    std::vector<std::string> m_lines;
    rillmark::LoggerLayout m_layout;
    QString m_guessed_columns; // names as first guessed: by them a file of the same logger is known again
    QList<FindingText> m_findings;
    std::shared_ptr<Shared> m_shared;
    std::unique_ptr<QThread> m_thread;
    QTimer m_tick;
};
