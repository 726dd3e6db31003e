// SPDX-License-Identifier: GPL-3.0-or-later
#include "logger_import.h"

#include "logger_layout_text.h"

#include <QDateTime>
#include <QFile>
#include <QFileInfo>
#include <QJsonArray>
#include <QJsonDocument>

#include <algorithm>

using namespace rillmark;

namespace {

constexpr int kTick_ms = 100;
constexpr int kLinesBefore = 3; // shown above the first reading
constexpr int kLinesAfter = 3;
constexpr qsizetype kLongestShown = 120;
constexpr qsizetype kRemembered = 8; // layouts of one purpose
constexpr std::size_t kUnderstood = 2;
const QString kSettingsKey = QStringLiteral("logger/");
const QString kColumnsKey = QStringLiteral("columns");

QString utf8(std::string_view text) {
    return QString::fromUtf8(text.data(), static_cast<qsizetype>(text.size()));
}

/// The file behind a URL: a path, or what a phone's chooser gives.
QString path_of(const QUrl& url) {
    return url.isLocalFile() ? url.toLocalFile() : url.toString();
}

ByteSource bytes_of(const std::shared_ptr<QFile>& file) {
    return [file](char* room, std::size_t size) -> std::optional<std::size_t> {
        const qint64 count = file->read(room, static_cast<qint64>(size));
        return count < 0 ? std::nullopt : std::optional(static_cast<std::size_t>(count));
    };
}

Choice choice(const char* id, const QString& label) {
    return {QString::fromLatin1(id), label};
}

} // namespace

LoggerImport::LoggerImport(QString purpose, std::vector<LoggerField> fields, SettingsModel& settings, QObject* parent)
    : QObject(parent), m_purpose(std::move(purpose)), m_wanted(std::move(fields)), m_settings(settings) {
    m_layout.values.resize(m_wanted.size());
    m_tick.setInterval(kTick_ms);
    connect(&m_tick, &QTimer::timeout, this, &LoggerImport::progressed);
    connect(&m_settings, &SettingsModel::changed, this, &LoggerImport::changed);
}

LoggerImport::~LoggerImport() {
    cancel();
    if (m_thread)
        m_thread->wait();
}

QString LoggerImport::fileName() const {
    return QFileInfo(path_of(m_url)).fileName();
}

void LoggerImport::want(const QString& purpose, std::vector<LoggerField> fields) {
    m_purpose = purpose;
    m_wanted = std::move(fields);
    m_layout.values.assign(m_wanted.size(), {});
    if (const QUrl file = m_url; isOpen())
        begin(file);
    else
        emit changed();
}

QString LoggerImport::path() const {
    return path_of(m_url);
}

void LoggerImport::begin(const QUrl& file) {
    close();
    QFile opened(path_of(file));
    m_url = file;
    m_findings.clear();
    if (!opened.open(QIODevice::ReadOnly)) {
        m_findings = {m_settings.formatter().finding(refusal("exchange.file_unreadable", fileName().toStdString()))};
        emit changed();
        return;
    }
    m_size = opened.size();
    m_bytes = opened.read(static_cast<qint64>(kLoggerHead_bytes));
    const std::string_view head(m_bytes.constData(), static_cast<std::size_t>(m_bytes.size()));
    m_lines = logger_head(head, guess_encoding(head));
    m_layout = guess_logger_layout(m_lines, guess_encoding(head), m_wanted);
    QStringList names;
    for (const std::string& name : logger_column_names(m_lines, m_layout))
        names.append(utf8(name));
    m_guessed_columns = names.join(QLatin1Char('\n'));
    recall();
    emit changed();
}

void LoggerImport::close() {
    cancel();
    m_url.clear();
    m_bytes.clear();
    m_lines.clear();
    m_findings.clear();
    emit changed();
}

QStringList LoggerImport::head() const {
    QStringList shown;
    const auto first = static_cast<qsizetype>(m_layout.first_line) - 1;
    const auto count = static_cast<qsizetype>(m_lines.size());
    for (qsizetype i = std::max<qsizetype>(0, first - kLinesBefore); i < std::min(count, first + kLinesAfter); ++i)
        shown.append(
            QStringLiteral("%1  %2").arg(i + 1).arg(utf8(m_lines[static_cast<std::size_t>(i)]).left(kLongestShown)));
    return shown;
}

int LoggerImport::firstShown() const {
    const auto first = m_layout.first_line - 1;
    return first < static_cast<std::int64_t>(m_lines.size())
               ? static_cast<int>(std::min<std::int64_t>(first, kLinesBefore))
               : -1;
}

QList<Choice> LoggerImport::encodings() const {
    return {choice("0", tr("UTF-8")), choice("1", tr("Latin-1")), choice("2", tr("UTF-16, little end first")),
            choice("3", tr("UTF-16, big end first"))};
}

QString LoggerImport::encoding() const {
    return QString::number(static_cast<int>(m_layout.encoding));
}

QList<Choice> LoggerImport::separators() const {
    return {choice(",", tr("comma")), choice(";", tr("semicolon")), choice("\t", tr("tab")), choice("|", tr("bar")),
            choice(" ", tr("spaces"))};
}

QString LoggerImport::separator() const {
    return QString(QLatin1Char(m_layout.separator));
}

QList<Choice> LoggerImport::decimals() const {
    return {choice(".", tr("point")), choice(",", tr("comma"))};
}

QString LoggerImport::decimal() const {
    return QString(QLatin1Char(m_layout.decimal));
}

QList<Choice> LoggerImport::timeKinds() const {
    return {choice("", tr("clock or date")), choice("s", tr("seconds")), choice("min", tr("minutes")),
            choice("h", tr("hours")), choice("ms", tr("milliseconds"))};
}

QString LoggerImport::timeKind() const {
    return m_layout.time_unit ? utf8(m_layout.time_unit->symbol) : QString();
}

QList<Choice> LoggerImport::dateOrders() const {
    return {choice("0", tr("year first")), choice("1", tr("day, month, year")), choice("2", tr("month, day, year"))};
}

QString LoggerImport::dateOrder() const {
    return QString::number(static_cast<int>(m_layout.date_order));
}

QList<Choice> LoggerImport::columns() const {
    QList<Choice> choices;
    for (const std::string& name : logger_column_names(m_lines, m_layout)) {
        const QString id = QString::number(choices.size());
        choices.append({id, name.empty() ? tr("column %1").arg(choices.size() + 1)
                                         : tr("%1: %2").arg(choices.size() + 1).arg(utf8(name))});
    }
    return choices;
}

QList<Choice> LoggerImport::dateColumns() const {
    return QList<Choice>{{QString(), tr("none: in the same column, or no date")}} + columns();
}

QString LoggerImport::dateColumn() const {
    return m_layout.date_column ? QString::number(*m_layout.date_column) : QString();
}

QList<LoggerFieldItem> LoggerImport::fields() const {
    QList<LoggerFieldItem> items;
    for (std::size_t i = 0; i < m_wanted.size(); ++i) {
        LoggerFieldItem item;
        item.label = Formatter::words(std::string(m_wanted[i].name));
        item.columns = columns();
        if (!m_wanted[i].required)
            item.columns.prepend({QString(), tr("not in this file")});
        if (m_layout.values[i]) {
            item.column = QString::number(m_layout.values[i]->column);
            item.unit = utf8(m_layout.values[i]->unit.symbol);
        }
        for (const Unit& unit : units_for(m_wanted[i].quantity, m_settings.formatter().options().system))
            item.units.append({utf8(unit.symbol), utf8(unit.symbol)});
        items.append(item);
    }
    return items;
}

QStringList LoggerImport::understood() const {
    QStringList lines;
    const Formatter formatter = m_settings.formatter();
    std::vector<std::string_view> cells;
    for (std::size_t i = static_cast<std::size_t>(std::max<std::int64_t>(m_layout.first_line, 1) - 1);
         i < m_lines.size() && lines.size() < static_cast<qsizetype>(kUnderstood); ++i) {
        split_logger_line(m_lines[i], m_layout.separator, cells);
        const std::optional<LoggerTime> time = logger_time(cells, m_layout);
        QStringList parts;
        if (!time)
            parts.append(tr("time not understood"));
        else if (m_layout.time_unit)
            parts.append(tr("%1 after the start").arg(formatter.value(time->time_s, Quantity::Time)));
        else
            parts.append(
                QDateTime::fromMSecsSinceEpoch(qRound64(1000.0 * time->time_s), Qt::UTC)
                    .toString(time->dated ? QStringLiteral("d MMMM yyyy, HH:mm:ss") : QStringLiteral("HH:mm:ss")));
        for (const std::optional<LoggerColumn>& one : m_layout.values) {
            if (!one)
                continue;
            const std::optional<double> number =
                one->column < cells.size() ? logger_number(cells[one->column], m_layout.decimal) : std::nullopt;
            parts.append(number ? formatter.value(to_si(one->unit, *number), one->unit.quantity) : tr("no number"));
        }
        lines.append(parts.join(QStringLiteral(" · ")));
    }
    return lines;
}

bool LoggerImport::isReady() const {
    if (!isOpen() || m_lines.empty() || isBusy())
        return false;
    for (std::size_t i = 0; i < m_wanted.size(); ++i)
        if (m_wanted[i].required && !m_layout.values[i])
            return false;
    return true;
}

double LoggerImport::progress() const {
    return m_shared && m_size > 0
               ? std::min(1.0, static_cast<double>(m_shared->read_bytes) / static_cast<double>(m_size))
               : 0.0;
}

void LoggerImport::choose(const QString& what, const QString& id) {
    const std::size_t number = static_cast<std::size_t>(what.section(QLatin1Char('/'), 1).toUInt());
    const std::optional<std::size_t> column =
        id.isEmpty() ? std::nullopt : std::optional(static_cast<std::size_t>(id.toUInt()));
    if (what == QLatin1String("encoding")) {
        m_layout.encoding = static_cast<TextEncoding>(id.toInt());
        look_anew();
    } else if (what == QLatin1String("separator")) {
        m_layout.separator = id.isEmpty() ? ',' : id[0].toLatin1();
    } else if (what == QLatin1String("decimal")) {
        m_layout.decimal = id == QLatin1String(",") ? ',' : '.';
    } else if (what == QLatin1String("time-kind")) {
        m_layout.time_unit = id.isEmpty() ? std::nullopt : find_unit(Quantity::Time, id.toStdString());
    } else if (what == QLatin1String("date-order")) {
        m_layout.date_order = static_cast<DateOrder>(id.toInt());
    } else if (what == QLatin1String("time")) {
        m_layout.time_column = column.value_or(0);
    } else if (what == QLatin1String("date")) {
        m_layout.date_column = column;
    } else if (number < m_wanted.size()) {
        std::optional<LoggerColumn>& value = m_layout.values[number];
        const Unit plain = entry_unit(m_wanted[number].quantity, UnitSystem::Metric);
        if (what.startsWith(QLatin1String("field/")))
            value = column ? std::optional(LoggerColumn{*column, value ? value->unit : plain}) : std::nullopt;
        else if (value)
            value->unit = find_unit(m_wanted[number].quantity, id.toStdString()).value_or(plain);
    }
    remember();
    emit changed();
}

void LoggerImport::look_anew() {
    m_lines = logger_head({m_bytes.constData(), static_cast<std::size_t>(m_bytes.size())}, m_layout.encoding);
}

void LoggerImport::setFirstLine(const QString& typed) {
    bool whole = false;
    const qlonglong line = typed.trimmed().toLongLong(&whole);
    if (whole && line >= 1)
        m_layout.first_line = line;
    emit changed();
}

void LoggerImport::setLeaveOut(bool leave_out) {
    m_layout.leave_out_bad_lines = leave_out;
    remember();
    emit changed();
}

void LoggerImport::read() {
    if (!isReady())
        return;
    remember();
    m_findings.clear();
    m_shared = std::make_shared<Shared>();
    m_thread.reset(QThread::create(
        [this, shared = m_shared, path = path_of(m_url), name = fileName().toStdString(), layout = m_layout] {
            const auto file = std::make_shared<QFile>(path);
            const bool opened = file->open(QIODevice::ReadOnly);
            auto table = std::make_shared<Expected<LoggerTable>>(
                opened ? read_logger_table(bytes_of(file), name, layout, m_wanted,
                                           [&shared](std::uint64_t read_bytes) {
                                               shared->read_bytes = read_bytes;
                                               return !shared->cancelled;
                                           })
                       : Expected<LoggerTable>(refusal("exchange.file_unreadable", name)));
            QMetaObject::invokeMethod(
                this, [this, table] { finish(*table); }, Qt::QueuedConnection);
        }));
    m_thread->start(QThread::LowPriority);
    m_tick.start();
    emit changed();
}

void LoggerImport::cancel() {
    if (m_shared)
        m_shared->cancelled = true;
}

void LoggerImport::finish(Expected<LoggerTable>& table) {
    m_tick.stop();
    m_thread->wait();
    m_thread.reset();
    const bool given_up = m_shared->cancelled;
    m_shared.reset();
    if (!table && isOpen())
        m_findings = {m_settings.formatter().finding(table.error())};
    const QString name = fileName();
    emit changed();
    if (table && !given_up)
        emit done(std::make_shared<const LoggerTable>(std::move(*table)), name);
}

void LoggerImport::remember() {
    const QString key = kSettingsKey + m_purpose;
    QJsonArray kept;
    QJsonObject now = layout_to_json(m_layout);
    now.insert(kColumnsKey, m_guessed_columns);
    kept.append(now);
    for (const QJsonValue& one : QJsonDocument::fromJson(m_settings.remembered(key).toUtf8()).array())
        if (one.toObject().value(kColumnsKey).toString() != m_guessed_columns && kept.size() < kRemembered)
            kept.append(one);
    m_settings.remember(key, QString::fromUtf8(QJsonDocument(kept).toJson(QJsonDocument::Compact)));
}

void LoggerImport::recall() {
    for (const QJsonValue& one :
         QJsonDocument::fromJson(m_settings.remembered(kSettingsKey + m_purpose).toUtf8()).array())
        if (one.toObject().value(kColumnsKey).toString() == m_guessed_columns) {
            LoggerLayout layout = layout_from_json(one.toObject(), m_wanted);
            layout.encoding = m_layout.encoding; // these two are of the file, not of the logger
            layout.first_line = m_layout.first_line;
            m_layout = std::move(layout);
            return;
        }
}
