// SPDX-License-Identifier: GPL-3.0-or-later
#include "merge_model.h"

#include "project/columns.h"
#include "project/resolve_conflict.h"

#include <algorithm>

using namespace rillmark;

namespace {

struct ColumnInfo {
    QString item;  // name of the item
    QString title; // of the column
    QString unit;
};

template <class Record>
void describe(Project& project, const MergeConflict& conflict, ColumnInfo& info) {
    if (conflict.table != Record::kTable)
        return;
    if constexpr (requires(Record record) { record.name; })
        if (const Expected<Booked<Record>> stored = project.get<Record>(conflict.row_id))
            info.item = QString::fromStdString(stored->row.name);
    for (const Column<Record>& column : columns<Record>())
        if (column.name == conflict.column) {
            info.title = QString::fromUtf8(column.title);
            info.unit = QString::fromUtf8(column.unit);
        }
}

ColumnInfo info_of(Project& project, const MergeConflict& conflict) {
    ColumnInfo info;
    std::apply([&](const auto&... record) { (describe<std::decay_t<decltype(record)>>(project, conflict, info), ...); },
               ItemRecords{});
    return info;
}

QString said(const MergeSide& side, const QString& unit) {
    const QString value = side.value ? QString::fromStdString(*side.value) : QObject::tr("nothing");
    const QString measured = side.value && !unit.isEmpty() ? QStringLiteral("%1 %2").arg(value, unit) : value;
    if (side.at.empty())
        return measured;
    const QString when = QString::fromStdString(side.at).left(16).replace(QLatin1Char('T'), QLatin1Char(' '));
    return side.device.empty()
               ? QStringLiteral("%1 (%2 UTC)").arg(measured, when)
               : QStringLiteral("%1 (%2, %3 UTC)").arg(measured, QString::fromStdString(side.device), when);
}

bool is_position(const MergeConflict& one) {
    return one.column == "longitude_deg" || one.column == "latitude_deg";
}

} // namespace

MergeModel::MergeModel(OpenProject& project, SettingsModel& settings, QObject* parent)
    : QObject(parent), m_project(project), m_settings(settings) {
    connect(&m_settings, &SettingsModel::changed, this, &MergeModel::changed);
}

MergeModel::~MergeModel() {
    if (m_thread)
        m_thread->wait();
}

QStringList MergeModel::report() const {
    if (!m_report)
        return {};
    if (!m_report->changed)
        return {tr("Nothing new in it: the file was not touched.")};
    QStringList lines;
    for (const MergeReport::Added& one : m_report->added)
        lines.append(tr("From %1: %2, rows: %3")
                         .arg(QString::fromStdString(one.file), Formatter::words("project.table_" + one.table))
                         .arg(one.rows));
    if (m_report->changed_cells > 0)
        lines.append(tr("Values of this book replaced by later ones: %1").arg(m_report->changed_cells));
    return lines;
}

QList<FindingText> MergeModel::refusal() const {
    return m_refusal ? m_settings.formatter().findings({*m_refusal}) : QList<FindingText>{};
}

QList<ConflictItem> MergeModel::conflicts() const {
    QList<ConflictItem> items;
    if (!m_report || !m_project.is_open())
        return items;
    for (std::size_t i = 0; i < m_report->conflicts.size(); ++i) {
        const MergeConflict& one = m_report->conflicts[i];
        const ColumnInfo info = info_of(*m_project.project(), one);
        items.append({tr("%1 %2: %3").arg(Formatter::words("project.table_" + one.table), info.item, info.title),
                      said(one.mine, info.unit), said(one.other, info.unit), m_other_holds[i]});
    }
    return items;
}

void MergeModel::takeIn(const QList<QUrl>& others) {
    if (m_thread || !m_project.is_open() || others.isEmpty() || m_project.saving() != OpenProject::Saving::Saved)
        return;
    const QString path = m_project.path();
    std::vector<std::filesystem::path> files;
    for (const QUrl& other : others)
        files.emplace_back(other.toLocalFile().toStdU16String());
    m_report.reset();
    m_refusal.reset();
    auto outcome = std::make_shared<std::optional<Expected<MergeReport>>>();
    m_thread.reset(QThread::create([mine = std::filesystem::path(path.toStdU16String()), files = std::move(files),
                                    outcome] { outcome->emplace(merge_into(mine, files)); }));
    connect(m_thread.get(), &QThread::finished, this, [this, path, outcome] {
        m_thread.release()->deleteLater();
        finish(path, std::move(**outcome));
    });
    m_project.close(); // once working() says why
    m_thread->start();
    emit changed();
}

void MergeModel::show(const MergeReport& report) {
    m_refusal.reset();
    m_report = report;
    m_other_holds.clear();
    for (const MergeConflict& one : report.conflicts)
        m_other_holds.push_back(one.kept == one.other.value && one.kept != one.mine.value);
    emit changed();
}

void MergeModel::finish(const QString& path, Expected<MergeReport> outcome) {
    if (outcome) {
        show(*outcome);
    } else {
        m_refusal = outcome.error();
    }
    if (const Expected<void> opened = m_project.open(path); !opened)
        m_refusal = opened.error();
    emit changed();
}

void MergeModel::settle(int conflict, bool takeOther) {
    if (!m_report || conflict < 0 || static_cast<std::size_t>(conflict) >= m_report->conflicts.size())
        return;
    const MergeConflict& chosen = m_report->conflicts[static_cast<std::size_t>(conflict)];
    std::vector<std::size_t> together; // longitude and latitude are one position
    for (std::size_t i = 0; i < m_report->conflicts.size(); ++i) {
        const MergeConflict& one = m_report->conflicts[i];
        const bool same_position =
            is_position(chosen) && is_position(one) && one.table == chosen.table && one.row_id == chosen.row_id;
        if (same_position || i == static_cast<std::size_t>(conflict))
            together.push_back(i);
    }
    std::vector<MergeConflict> settled;
    for (const std::size_t i : together)
        settled.push_back(m_report->conflicts[i]);
    m_project.act(
        [settled, takeOther](Project& project) -> Expected<void> {
            for (const MergeConflict& one : settled)
                if (const Expected<void> done = rillmark::resolve_conflict(project, one, takeOther); !done)
                    return done;
            return {};
        },
        [this, together, takeOther] {
            for (const std::size_t i : together)
                m_other_holds[i] = takeOther;
            emit changed();
        });
}
