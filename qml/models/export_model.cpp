// SPDX-License-Identifier: GPL-3.0-or-later
#include "export_model.h"

#include "export/export_files.h"
#include "handover_place.h"

#include <QDir>

using namespace rillmark;

namespace {

const QString kFormat = QStringLiteral("export/format");
const QString kUtm = QStringLiteral("export/utm");

} // namespace

ExportModel::ExportModel(OpenProject& project, SettingsModel& settings, ResumeState& resume, QObject* parent)
    : QObject(parent), m_project(project), m_settings(settings), m_resume(resume) {
    connect(&m_settings, &SettingsModel::changed, this, &ExportModel::changed);
    connect(&m_project, &OpenProject::opened, this, [this] {
        m_done.clear();
        m_refusal.reset();
        emit changed();
    });
}

ExportModel::~ExportModel() {
    if (m_thread)
        m_thread->wait();
}

QList<Choice> ExportModel::formats() const {
    return {{QStringLiteral("csv"), tr("CSV")},         {QStringLiteral("geojson"), tr("GeoJSON")},
            {QStringLiteral("gpx"), tr("GPX")},         {QStringLiteral("kml"), tr("KML")},
            {QStringLiteral("dxf"), tr("DXF")},         {QStringLiteral("profile"), tr("Long profile")}};
}

QString ExportModel::format() const {
    return m_resume.text(kFormat, QStringLiteral("csv"));
}

void ExportModel::setFormat(const QString& format) {
    m_resume.setText(kFormat, format);
    emit changed();
}

QString ExportModel::formatDetail() const {
    const QString format = this->format();
    if (format == QLatin1String("csv"))
        return tr("Every table of the site with units in its headers, and the long profile, in one folder.");
    if (format == QLatin1String("dxf"))
        return tr("Plan and profile as two drawings in metres.");
    if (format == QLatin1String("profile"))
        return tr("Chainage, height and fall of every station along the pipe, as one table.");
    return tr("Stations, lines and the track for maps, in WGS 84.");
}

bool ExportModel::takesUtm() const {
    return format() == QLatin1String("csv") || format() == QLatin1String("dxf");
}

bool ExportModel::utm() const {
    return m_resume.text(kUtm, QStringLiteral("1")) == QLatin1String("1");
}

void ExportModel::setUtm(bool utm) {
    m_resume.setText(kUtm, utm ? QStringLiteral("1") : QStringLiteral("0"));
    emit changed();
}

QList<FindingText> ExportModel::refusal() const {
    return m_refusal ? m_settings.formatter().findings({*m_refusal}) : QList<FindingText>{};
}

void ExportModel::write() {
    if (m_thread || !m_project.is_open())
        return;
    const QString format = this->format();
    const QString ending = format == QLatin1String("csv")       ? QString()
                           : format == QLatin1String("profile") ? QStringLiteral(".csv")
                                                                : QLatin1Char('.') + format;
    const QString path = handover_place(m_project.path(), format) + ending;
    ExportOrder order;
    order.format = format.toStdString();
    order.site = m_project.path().toStdU16String();
    order.to = path.toStdU16String();
    order.utm = takesUtm() && utm();
    auto outcome = std::make_shared<std::optional<Finding>>();
    m_thread.reset(QThread::create([order, outcome] {
        if (const auto files = export_files(order); !files)
            *outcome = files.error();
    }));
    connect(m_thread.get(), &QThread::finished, this, [this, path, outcome] {
        m_refusal = *outcome;
        m_done = *outcome ? QString() : tr("Written: %1").arg(QDir::toNativeSeparators(path));
        m_thread.release()->deleteLater();
        emit changed();
    });
    m_done.clear();
    m_refusal.reset();
    m_thread->start();
    emit changed();
}
