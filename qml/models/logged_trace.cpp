// SPDX-License-Identifier: GPL-3.0-or-later
#include "logged_trace.h"

#include "flow/salt_trace.h"
#include "patient_write.h"
#include "site/flow_readings.h"
#include "thinned.h"
#include "units/constants.h"
#include "units/format_quantity.h"

#include <cmath>
#include <filesystem>

using namespace rillmark;

namespace {

constexpr double kMicrosiemensPerCm = 1e4; // of one S/m, for the axis of the plot
constexpr std::size_t kShown = 800;        // points of a plot
// Our own choice: five hours of a reading every second. A salt wave takes minutes.
constexpr std::size_t kLongestTaken = 20'000;
constexpr std::size_t kConductivity = 0; // fields of the table
constexpr std::size_t kTemperature = 1;

std::vector<LoggerField> trace_fields() {
    return {{"flow.logger_conductivity", Quantity::Conductivity, true},
            {"flow.logger_temperature", Quantity::Temperature, false}};
}

std::string typed_reading(const FlowReadingRow& reading) {
    const DisplayOptions metric{};
    std::string typed = format_value(*reading.time_s, Quantity::Time, metric);
    if (reading.conductivity_Sm)
        typed += ", " + format_value(*reading.conductivity_Sm, Quantity::Conductivity, metric);
    if (reading.temperature_C)
        typed += ", " + format_value(*reading.temperature_C, Quantity::Temperature, metric);
    return typed;
}

} // namespace

LoggedTrace::LoggedTrace(OpenProject& project, SettingsModel& settings, QObject* parent)
    : QObject(parent), m_project(project), m_settings(settings),
      m_file(QStringLiteral("trace"), trace_fields(), settings) {
    connect(&m_file, &LoggerImport::done, this, &LoggedTrace::show_table);
    connect(&m_project, &OpenProject::opened, this, &LoggedTrace::drop);
    connect(&m_settings, &SettingsModel::changed, this, &LoggedTrace::changed);
}

LoggedTrace::~LoggedTrace() {
    if (m_thread)
        m_thread->wait(); // what is being stored is stored whole
}

void LoggedTrace::show_table(std::shared_ptr<const LoggerTable> table, const QString& name) {
    m_table = std::move(table);
    m_name = name;
    m_zero_s = m_table->dated() ? kSecondsPerDay * std::floor(m_table->time_s(0) / kSecondsPerDay) : 0.0;
    std::size_t peak = 0;
    for (std::size_t i = 0; i < m_table->size(); ++i)
        if (m_table->value(i, kConductivity).value_or(0.0) > m_table->value(peak, kConductivity).value_or(0.0))
            peak = i;
    const std::size_t before = std::min(peak, kLongestTaken / 2);
    const std::size_t first = m_table->size() <= kLongestTaken ? 0 : peak - before;
    const std::size_t last = std::min(m_table->size(), first + kLongestTaken) - 1;
    m_from_s = m_table->time_s(first) - m_zero_s;
    m_to_s = m_table->time_s(last) - m_zero_s;
    m_file.close();
    emit changed();
}

QList<QPointF> LoggedTrace::points() const {
    if (!m_table)
        return {};
    return thinned(0, m_table->size(), kShown, [this](std::size_t i) -> std::optional<QPointF> {
        const std::optional<double> ec_Sm = m_table->value(i, kConductivity);
        return ec_Sm ? std::optional(QPointF(m_table->time_s(i) - m_zero_s, kMicrosiemensPerCm * *ec_Sm))
                     : std::nullopt;
    });
}

std::size_t LoggedTrace::row_at(double time_s) const {
    std::size_t low = 0;
    for (std::size_t high = m_table->size(); low < high;) {
        const std::size_t middle = (low + high) / 2;
        if (m_table->time_s(middle) - m_zero_s < time_s)
            low = middle + 1;
        else
            high = middle;
    }
    return low;
}

LoggedTrace::Part LoggedTrace::part() const {
    if (!m_table)
        return {};
    const std::size_t first = row_at(m_from_s);
    std::size_t end = row_at(m_to_s);
    end += end < m_table->size() && m_table->time_s(end) - m_zero_s <= m_to_s ? 1U : 0U;
    return {first, std::max(first, end)};
}

bool LoggedTrace::fits() const {
    const Part taken = part();
    return taken.end - taken.first >= kShortestTrace && taken.end - taken.first <= kLongestTaken;
}

QString LoggedTrace::summary() const {
    if (!m_table)
        return {};
    const Part taken = part();
    const QString counts = tr("%1: %2 of %3 readings, a reading every %4.")
                               .arg(m_name)
                               .arg(taken.end - taken.first)
                               .arg(m_table->size())
                               .arg(m_settings.formatter().value(m_table->usual_step_s(), Quantity::Time));
    if (taken.end - taken.first > kLongestTaken)
        return counts + QLatin1Char(' ') +
               tr("At most %1 are taken: draw the two ends closer to the wave.").arg(kLongestTaken);
    if (!fits())
        return counts + QLatin1Char(' ') + tr("At least %1 are needed: draw the two ends apart.").arg(kShortestTrace);
    return counts;
}

QList<FindingText> LoggedTrace::findings() const {
    return m_table ? m_settings.formatter().findings(m_table->findings()) : QList<FindingText>();
}

void LoggedTrace::setPart(double from_s, double to_s) {
    if (!(from_s < to_s))
        return;
    m_from_s = from_s;
    m_to_s = to_s;
    emit changed();
}

void LoggedTrace::drop() {
    m_table.reset();
    emit changed();
}

void LoggedTrace::take(const QString& test, const QString& probe) {
    if (!fits() || storing() || !m_project.is_open())
        return;
    std::int64_t position = 0;
    for (const Booked<FlowReadingRow>& one : m_project.survey().test_readings(key_of(test)))
        position = std::max(position, one.row.position + 1);
    write_behind([position, table = m_table, taken = part(), zero_s = m_zero_s, test_id = key_of(test),
                  probe_number = probe.toLongLong(), name = m_name.toStdString()](Project& opened) {
        return opened.together([&](Project::Batch& batch) -> Expected<void> {
            FlowReadingRow reading;
            reading.test_id = test_id;
            reading.role = flow_role::kTrace;
            reading.part = probe_number;
            reading.remark = name;
            for (std::size_t i = taken.first; i < taken.end; ++i) {
                reading.position = position + static_cast<std::int64_t>(i - taken.first);
                reading.time_s = table->time_s(i) - zero_s;
                reading.conductivity_Sm = table->value(i, kConductivity);
                reading.temperature_C = table->value(i, kTemperature);
                reading.typed = typed_reading(reading);
                if (const Expected<Id> booked = batch.book(reading); !booked)
                    return booked.error();
            }
            return {};
        });
    });
}

void LoggedTrace::write_behind(OpenProject::Action action) {
    if (storing() || !m_project.is_open())
        return;
    m_thread.reset(QThread::create(
        [this, action = std::move(action), path = std::filesystem::path(m_project.path().toStdString())] {
            const Expected<void> stored = patient_write(path, action);
            QMetaObject::invokeMethod(
                this, [this, stored] { finish(stored); }, Qt::QueuedConnection);
        }));
    m_thread->start(QThread::LowPriority);
    emit changed();
}

void LoggedTrace::finish(const Expected<void>& stored) {
    m_thread->wait();
    m_thread.reset();
    if (!stored) {
        emit refused(m_settings.formatter().finding(stored.error()));
        emit changed();
        return;
    }
    drop();
    m_project.reload();
}
