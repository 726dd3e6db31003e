// SPDX-License-Identifier: GPL-3.0-or-later
#include "series_import.h"

#include "exchange/series_table.h"
#include "units/units.h"

#include <QCryptographicHash>
#include <QFile>
#include <QFileInfo>
#include <QTimeZone>

#include <algorithm>

using namespace rillmark;

namespace {

// Another program holds the file while it merges or copies, seldom longer than this. Our choice, no source.
constexpr int kBusyTries = 20;
constexpr unsigned long kBusyPause_ms = 500;
constexpr qint64 kHashed_bytes = 1 << 20;
constexpr qsizetype kPreviewLines = 3;

QString symbol_of(const Unit& unit) {
    return QString::fromUtf8(unit.symbol.data(), static_cast<qsizetype>(unit.symbol.size()));
}

std::span<const LoggerField> fields_of(const std::string& kind) {
    return kind == kStageSeries ? std::span<const LoggerField>(kStageLogFields) : std::span<const LoggerField>(kDailyFlowFields);
}

Expected<std::string> sha256_of(QFile& file, const std::string& name) {
    QCryptographicHash hash(QCryptographicHash::Sha256);
    QByteArray part;
    do {
        part = file.read(kHashed_bytes);
        hash.addData(part);
    } while (!part.isEmpty());
    if (file.error() != QFileDevice::NoError || !file.seek(0))
        return refusal("exchange.file_unreadable", name);
    return hash.result().toHex().toStdString();
}

/// Stores the series over a connection of its own, waiting where another program holds the file.
Expected<void> store(const std::filesystem::path& path, const FlowSeriesRow& series, const std::vector<FlowSeriesBlockRow>& blocks) {
    for (int tries = 1;; ++tries) {
        Expected<Project> project = Project::open(path);
        const Expected<Id> booked = project ? book_series(*project, series, blocks) : Expected<Id>(project.error());
        if (booked)
            return {};
        if (booked.error().code != "project.busy" || tries == kBusyTries)
            return booked.error();
        QThread::msleep(kBusyPause_ms);
    }
}

} // namespace

SeriesImport::SeriesImport(OpenProject& project, SettingsModel& settings, QObject* parent)
    : QObject(parent), m_project(project), m_settings(settings), m_kind(kDailyFlowSeries) {
    connect(&m_project, &OpenProject::opened, this, &SeriesImport::putAway);
}

SeriesImport::~SeriesImport() {
    m_cancelled = true;
    if (m_worker)
        m_worker->wait();
}

QString SeriesImport::fileName() const {
    return QFileInfo(m_path).fileName();
}

QList<Choice> SeriesImport::kinds() const {
    return {{QString::fromLatin1(kDailyFlowSeries), tr("Daily flows of a gauge")},
            {QString::fromLatin1(kStageSeries), tr("Log of this creek's staff gauge")}};
}

Quantity SeriesImport::quantity() const {
    return fields_of(m_kind).front().quantity;
}

void SeriesImport::setKind(const QString& kind) {
    if (kind == this->kind())
        return;
    m_kind = kind.toStdString();
    guess();
}

void SeriesImport::guess() {
    const bool leave_out = m_layout.leave_out_bad_lines;
    m_layout = guess_logger_layout(m_lines, m_layout.encoding, fields_of(m_kind));
    m_layout.leave_out_bad_lines = leave_out;
    emit changed();
}

void SeriesImport::look(const QUrl& url) {
    putAway();
    QFile file(url.toLocalFile());
    if (!file.open(QIODevice::ReadOnly)) {
        m_findings = {refusal("exchange.file_unreadable", QFileInfo(file).fileName().toStdString())};
        emit changed();
        return;
    }
    m_path = file.fileName();
    const QByteArray head = file.read(static_cast<qint64>(kLoggerHead_bytes));
    const std::string_view bytes(head.constData(), static_cast<std::size_t>(head.size()));
    m_layout.encoding = guess_encoding(bytes);
    m_lines = logger_head(bytes, m_layout.encoding);
    guess();
}

void SeriesImport::putAway() {
    if (running())
        return;
    m_path.clear();
    m_lines.clear();
    m_layout = {};
    m_findings.clear();
    emit changed();
}

QString SeriesImport::preview() const {
    QStringList lines;
    const auto first = static_cast<std::size_t>(std::max<std::int64_t>(m_layout.first_line, 1)) - 1;
    for (std::size_t i = first; i < m_lines.size() && lines.size() < kPreviewLines; ++i)
        lines.append(QString::fromStdString(m_lines[i]));
    return lines.join(QLatin1Char('\n'));
}

QList<Choice> SeriesImport::columns() const {
    QList<Choice> choices;
    const auto first = static_cast<std::size_t>(std::max<std::int64_t>(m_layout.first_line, 1)) - 1;
    if (first >= m_lines.size())
        return choices;
    std::vector<std::string_view> cells;
    split_logger_line(m_lines[first], m_layout.separator, cells);
    const std::vector<std::string> names = logger_column_names(m_lines, m_layout);
    for (std::size_t i = 0; i < cells.size(); ++i) {
        const QString name = i < names.size() ? QString::fromStdString(names[i]) : QString();
        const QString cell = QString::fromStdString(std::string(cells[i]));
        choices.append({QString::number(i), name.isEmpty() ? tr("Column %1: %2").arg(i + 1).arg(cell) : tr("%1: %2").arg(name, cell)});
    }
    return choices;
}

QString SeriesImport::timeColumn() const {
    return QString::number(m_layout.date_column.value_or(m_layout.time_column));
}

void SeriesImport::setTimeColumn(const QString& column) {
    m_layout.time_column = static_cast<std::size_t>(column.toUInt());
    m_layout.date_column.reset();
    m_layout.time_unit.reset(); // a series has dates
    emit changed();
}

QString SeriesImport::valueColumn() const {
    return m_layout.values.empty() || !m_layout.values[0] ? QString() : QString::number(m_layout.values[0]->column);
}

void SeriesImport::setValueColumn(const QString& column) {
    m_layout.values.resize(1);
    const auto place = static_cast<std::size_t>(column.toUInt());
    const std::vector<std::string> names = logger_column_names(m_lines, m_layout);
    const std::optional<Unit> named = place < names.size() ? unit_in_name(names[place], quantity()) : std::nullopt;
    m_layout.values[0] = LoggerColumn{place, named.value_or(entry_unit(quantity(), m_settings.formatter().options().system))};
    emit changed();
}

QList<Choice> SeriesImport::units() const {
    QList<Choice> choices;
    for (const Unit& unit : units_for(quantity(), m_settings.formatter().options().system))
        choices.append({symbol_of(unit), symbol_of(unit)});
    return choices;
}

QString SeriesImport::unit() const {
    return m_layout.values.empty() || !m_layout.values[0] ? QString() : symbol_of(m_layout.values[0]->unit);
}

void SeriesImport::setUnit(const QString& symbol) {
    const std::optional<Unit> unit = find_unit(quantity(), symbol.toStdString());
    if (!unit || m_layout.values.empty() || !m_layout.values[0])
        return;
    m_layout.values[0]->unit = *unit;
    emit changed();
}

QList<Choice> SeriesImport::dateOrders() const {
    return {{QStringLiteral("0"), tr("Year month day")}, {QStringLiteral("1"), tr("Day month year")}, {QStringLiteral("2"), tr("Month day year")}};
}

QString SeriesImport::dateOrder() const {
    return QString::number(static_cast<int>(m_layout.date_order));
}

void SeriesImport::setDateOrder(const QString& order) {
    m_layout.date_order = static_cast<DateOrder>(std::clamp(order.toInt(), 0, 2));
    emit changed();
}

QList<Choice> SeriesImport::clocks() const {
    return {{QStringLiteral("utc"), tr("UTC")}, {QStringLiteral("here"), tr("Standard time of this place")}};
}

void SeriesImport::setClock(const QString& clock) {
    m_clock_here = clock == QLatin1String("here");
    emit changed();
}

void SeriesImport::setLeaveOutBad(bool leave_out) {
    m_layout.leave_out_bad_lines = leave_out;
    emit changed();
}

bool SeriesImport::complete() const {
    return !m_path.isEmpty() && !running() && !m_layout.values.empty() && m_layout.values[0].has_value();
}

QList<FindingText> SeriesImport::findings() const {
    return m_settings.formatter().findings(m_findings);
}

void SeriesImport::start(const QString& name) {
    if (!complete() || !m_project.is_open())
        return;
    Job job{m_path, fileName().toStdString(), m_layout, 0.0, m_project.project()->path(), {}};
    if (m_clock_here && m_kind == kStageSeries)
        job.clock_ahead_s = QTimeZone::systemTimeZone().standardTimeOffset(QDateTime::currentDateTimeUtc());
    job.series.kind = m_kind;
    job.series.name = name.simplified().isEmpty() ? job.file : name.simplified().toStdString();
    job.series.unit = std::string(m_layout.values[0]->unit.symbol);
    job.series.file_name = job.file;
    m_findings.clear();
    m_cancelled = false;
    m_progress = 0.0;
    const double size = std::max(1.0, static_cast<double>(QFileInfo(m_path).size()));
    m_worker.reset(QThread::create([this, job = std::move(job), size] {
        const Expected<Findings> outcome = carry_out(job, [&](std::uint64_t read) {
            QMetaObject::invokeMethod(this, [this, part = static_cast<double>(read) / size] {
                m_progress = std::min(part, 1.0);
                emit progressChanged();
            }, Qt::QueuedConnection);
            return !m_cancelled;
        });
        QMetaObject::invokeMethod(this, [this, outcome] { finish(outcome); }, Qt::QueuedConnection);
    }));
    m_worker->start(QThread::LowPriority);
    emit changed();
}

void SeriesImport::cancel() {
    m_cancelled = true;
}

Expected<Findings> SeriesImport::carry_out(Job job, const LoggerProgress& progress) {
    QFile file(job.path);
    if (!file.open(QIODevice::ReadOnly))
        return refusal("exchange.file_unreadable", job.file);
    Expected<std::string> hash = sha256_of(file, job.file);
    if (!hash)
        return hash.error();
    job.series.file_sha256 = std::move(hash).value();
    const ByteSource source = [&file](char* room, std::size_t size) -> std::optional<std::size_t> {
        const qint64 read = file.read(room, static_cast<qint64>(size));
        return read < 0 ? std::nullopt : std::optional(static_cast<std::size_t>(read));
    };
    Findings findings;
    std::vector<FlowSeriesBlockRow> blocks;
    {
        const Expected<LoggerTable> table = read_logger_table(source, job.file, job.layout, fields_of(job.series.kind), progress);
        if (!table)
            return table.error();
        if (job.series.kind == kStageSeries) {
            const Expected<StageLog> log = stage_log(*table, job.clock_ahead_s);
            if (!log)
                return log.error();
            blocks = stage_blocks(log->points);
            findings = log->findings;
        } else {
            const Expected<DailyRecord> record = daily_flows(*table);
            if (!record)
                return record.error();
            blocks = daily_blocks(record->series);
            findings = record->findings;
        }
    }
    if (!progress(0)) // the last moment to give up
        return refusal("exchange.logger_cancelled", job.file);
    if (const Expected<void> stored = store(job.project, job.series, blocks); !stored)
        return stored.error();
    return findings;
}

void SeriesImport::finish(const Expected<Findings>& outcome) {
    m_worker->wait();
    m_worker.reset();
    if (outcome) {
        m_project.reload();
        putAway();
        m_findings = *outcome;
    } else if (outcome.error().code == "exchange.logger_cancelled") {
        m_findings.clear();
    } else {
        m_findings = {outcome.error()};
    }
    emit changed();
    if (outcome)
        emit done();
}
