// SPDX-License-Identifier: GPL-3.0-or-later
#include "series_import.h"

#include "exchange/series_table.h"
#include "patient_write.h"

#include <QCryptographicHash>
#include <QFile>
#include <QTimeZone>

using namespace rillmark;

namespace {

constexpr qint64 kHashed_bytes = 1 << 20;

/// How files of a kind are read: what they hold, and by which name their layouts are remembered.
std::vector<LoggerField> fields_of(const std::string& kind) {
    return kind == kStageSeries ? std::vector(kStageLogFields.begin(), kStageLogFields.end())
                                : std::vector(kDailyFlowFields.begin(), kDailyFlowFields.end());
}

Expected<std::string> sha256_of(const QString& path, const std::string& name) {
    QFile file(path);
    QCryptographicHash hash(QCryptographicHash::Sha256);
    bool more = file.open(QIODevice::ReadOnly);
    while (more) {
        const QByteArray part = file.read(kHashed_bytes);
        hash.addData(part);
        more = !part.isEmpty();
    }
    if (file.error() != QFileDevice::NoError)
        return refusal("exchange.file_unreadable", name);
    return hash.result().toHex().toStdString();
}

} // namespace

SeriesImport::SeriesImport(OpenProject& project, SettingsModel& settings, QObject* parent)
    : QObject(parent), m_project(project), m_settings(settings),
      m_file(QString::fromLatin1(kDailyFlowSeries), fields_of(kDailyFlowSeries), settings) {
    m_series.kind = kDailyFlowSeries;
    connect(&m_file, &LoggerImport::changed, this, &SeriesImport::changed);
    connect(&m_file, &LoggerImport::done, this, &SeriesImport::store);
    connect(&m_project, &OpenProject::opened, &m_file, &LoggerImport::close);
}

SeriesImport::~SeriesImport() {
    m_cancelled = true;
    if (m_thread)
        m_thread->wait();
}

QList<Choice> SeriesImport::kinds() const {
    return {{QString::fromLatin1(kDailyFlowSeries), tr("Daily flows of a gauge")},
            {QString::fromLatin1(kStageSeries), tr("Log of this creek's staff gauge")}};
}

void SeriesImport::setKind(const QString& kind) {
    if (kind == this->kind() || running())
        return;
    m_series.kind = kind.toStdString();
    m_findings.clear();
    m_file.want(kind, fields_of(m_series.kind));
}

QList<Choice> SeriesImport::clocks() const {
    return {{QStringLiteral("utc"), tr("UTC")}, {QStringLiteral("here"), tr("Standard time of this place")}};
}

void SeriesImport::setClock(const QString& clock) {
    m_clock_here = clock == QLatin1String("here");
    emit changed();
}

QList<FindingText> SeriesImport::findings() const {
    return m_findings.empty() ? m_file.findings() : m_settings.formatter().findings(m_findings);
}

void SeriesImport::start(const QString& name) {
    if (!m_file.isReady() || running() || !m_project.is_open())
        return;
    const QString plain = name.simplified();
    m_series.name = (plain.isEmpty() ? m_file.fileName() : plain).toStdString();
    m_series.unit = m_file.fields().front().unit.toStdString();
    m_findings.clear();
    m_cancelled = false;
    m_file.read();
}

void SeriesImport::cancel() {
    m_cancelled = true;
    m_file.cancel();
}

void SeriesImport::store(std::shared_ptr<const LoggerTable> table, const QString& name) {
    if (!m_project.is_open())
        return;
    Job job{std::move(table), m_file.path(), 0.0, m_project.project()->path(), m_series};
    job.series.file_name = name.toStdString();
    if (m_clock_here && job.series.kind == kStageSeries)
        job.clock_ahead_s = QTimeZone::systemTimeZone().standardTimeOffset(QDateTime::currentDateTimeUtc());
    m_thread.reset(QThread::create([this, job = std::move(job)]() mutable {
        const auto outcome = std::make_shared<const Expected<Stored>>(carry_out(std::move(job), m_cancelled));
        QMetaObject::invokeMethod(
            this, [this, outcome] { finish(*outcome); }, Qt::QueuedConnection);
    }));
    m_thread->start(QThread::LowPriority);
    emit changed();
}

Expected<SeriesImport::Stored> SeriesImport::carry_out(Job job, const std::atomic<bool>& cancelled) {
    Expected<std::string> hash = sha256_of(job.path, job.series.file_name);
    if (!hash)
        return hash.error();
    job.series.file_sha256 = std::move(hash).value();
    SeriesValues values;
    Stored stored;
    if (job.series.kind == kStageSeries) {
        Expected<StageLog> log = stage_log(*job.table, job.clock_ahead_s);
        if (!log)
            return log.error();
        values.stages = std::move(log->points);
        stored.findings = std::move(log->findings);
    } else {
        Expected<DailyRecord> record = daily_flows(*job.table);
        if (!record)
            return record.error();
        values.daily = std::move(record->series);
        stored.findings = std::move(record->findings);
    }
    job.table.reset();
    if (cancelled) // the last moment to give up
        return refusal("exchange.logger_cancelled", job.series.file_name);
    const Expected<void> written = patient_write(job.project, [&](Project& project) -> Expected<void> {
        const Expected<Id> booked =
            book_series(project, job.series,
                        job.series.kind == kStageSeries ? stage_blocks(values.stages) : daily_blocks(values.daily));
        if (!booked)
            return booked.error();
        stored.series = *booked;
        return {};
    });
    if (!written)
        return written.error();
    stored.values = std::make_shared<const SeriesValues>(std::move(values));
    return stored;
}

void SeriesImport::finish(const Expected<Stored>& outcome) {
    m_thread->wait();
    m_thread.reset();
    if (outcome) {
        m_file.close();
        m_findings = outcome->findings;
        m_project.reload_with(outcome->series, outcome->values);
    } else if (outcome.error().code != "exchange.logger_cancelled") {
        m_findings = {outcome.error()};
    }
    emit changed();
    if (outcome)
        emit done();
}
