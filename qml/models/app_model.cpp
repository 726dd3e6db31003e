// SPDX-License-Identifier: GPL-3.0-or-later
#include "app_model.h"

#include <QDir>
#include <QFileInfo>
#include <QRegularExpression>

using namespace rillmark;

namespace {

constexpr int kMostRecent = 6;

/// A file name that every system takes.
QString file_stem(const QString& site_name) {
    QString stem = site_name.simplified();
    stem.replace(QRegularExpression(QStringLiteral("[^\\p{L}\\p{N} _-]")), QStringLiteral("_"));
    return stem.isEmpty() ? QStringLiteral("site") : stem.left(60);
}

} // namespace

AppModel::AppModel(const QString& data_folder, QObject* parent)
    : QObject(parent), m_data_folder(data_folder), m_resume(data_folder + QStringLiteral("/resume.json")),
      m_readout(m_project, m_settings),
      m_walk(m_project, m_settings, m_resume),
      m_levels(m_project, m_settings, m_resume),
      m_falls(m_project, m_settings, m_resume),
      m_height_run(m_project, m_settings, m_resume),
      m_flow(m_project, m_settings, m_resume),
      m_flow_run(m_project, m_settings, m_resume),
      m_season(m_project, m_settings, m_resume),
      m_series_import(m_project, m_settings),
      m_gauging(m_project, m_settings, m_resume),
      m_power(m_project, m_settings, m_resume),
      m_plant(m_project, m_settings, m_resume),
      m_pressure(m_project, m_settings),
      m_study(m_project, m_settings, m_resume),
      m_handover(m_project, m_settings, m_resume),
      m_files(m_project, m_settings, m_resume),
      m_imports(m_project, m_settings),
      m_merge(m_project, m_settings),
      m_report(m_project, m_settings, m_resume),
      m_sync(m_project, m_settings, m_merge, data_folder) {
    connect(&m_flow, &FlowModel::changed, this, [this] {
        m_flow_run.setTest(m_flow.test());
        m_gauging.setTest(m_flow.test());
    });
    connect(&m_flow, &FlowModel::refused, this, &AppModel::told);
    connect(&m_gauging, &GaugingModel::refused, this, &AppModel::told);
    connect(&m_flow_run, &FlowRunModel::refused, this, &AppModel::told);
    connect(&m_project, &OpenProject::changed, this, &AppModel::siteChanged);
    connect(&m_project, &OpenProject::savingChanged, this, &AppModel::savingChanged);
    connect(&m_project, &OpenProject::refused, this, &AppModel::tell);
    connect(&m_settings, &SettingsModel::changed, this, &AppModel::siteChanged);
}

QString AppModel::siteName() const {
    return isOpen() ? QString::fromStdString(m_project.survey().site.name) : QString();
}

bool AppModel::readOnly() const {
    return isOpen() && const_cast<OpenProject&>(m_project).project()->read_only();
}

QString AppModel::fileName() const {
    return QFileInfo(m_project.path()).fileName();
}

QString AppModel::place() const {
    return m_resume.text(QStringLiteral("place"), QStringLiteral("walk"));
}

void AppModel::setPlace(const QString& place) {
    if (place == this->place())
        return;
    m_resume.setText(QStringLiteral("place"), place);
    emit placeChanged();
}

bool AppModel::saved() const {
    return m_project.saving() == OpenProject::Saving::Saved;
}

QString AppModel::savedText() const {
    if (readOnly())
        return tr("Read only");
    switch (m_project.saving()) {
    case OpenProject::Saving::Saved:
        return tr("Saved");
    case OpenProject::Saving::Waiting:
        return tr("Waiting for the file");
    case OpenProject::Saving::Failed:
        return tr("Not saved");
    }
    return {};
}

QString AppModel::undoText() const {
    if (!isOpen())
        return {};
    const std::optional<Project::Action> last = const_cast<OpenProject&>(m_project).project()->last_action();
    if (!last)
        return {};
    return tr("Undo: %1 (%2)")
        .arg(Formatter::words("project.verb_" + last->verb), Formatter::words("project.table_" + last->table));
}

QStringList AppModel::recentFiles() const {
    QStringList files = m_resume.text(QStringLiteral("recent")).split(QLatin1Char('\n'), Qt::SkipEmptyParts);
    files.removeIf([](const QString& file) { return !QFileInfo::exists(file); });
    return files;
}

void AppModel::remember(const QString& path) {
    QStringList files = recentFiles();
    files.removeAll(path);
    files.prepend(path);
    if (m_resume.text(QStringLiteral("open")) != path) // drafts belong to the site they were typed in
        m_resume.removeAll(QStringLiteral("draft/"));
    m_resume.setText(QStringLiteral("recent"), files.mid(0, kMostRecent).join(QLatin1Char('\n')));
    m_resume.setText(QStringLiteral("open"), path);
}

void AppModel::resumeLast() {
    const QString path = m_resume.text(QStringLiteral("open"));
    if (!path.isEmpty() && QFileInfo::exists(path))
        openFile(path);
}

bool AppModel::openFile(const QString& path) {
    const Expected<void> opened = m_project.open(path);
    if (!opened) {
        tell(opened.error());
        return false;
    }
    remember(QFileInfo(path).absoluteFilePath());
    emit siteChanged();
    return true;
}

bool AppModel::openUrl(const QUrl& url) {
    return openFile(url.toLocalFile());
}

bool AppModel::newSite(const QString& name) {
    QDir().mkpath(m_data_folder);
    const QString stem = m_data_folder + QLatin1Char('/') + file_stem(name);
    QString path = stem + QStringLiteral(".gpkg");
    for (int n = 2; QFileInfo::exists(path); ++n)
        path = QStringLiteral("%1 %2.gpkg").arg(stem).arg(n);
    const Expected<void> made = m_project.create(path, name.simplified());
    if (!made) {
        tell(made.error());
        return false;
    }
    remember(path);
    emit siteChanged();
    return true;
}

void AppModel::closeSite() {
    m_project.close();
    m_resume.remove(QStringLiteral("open"));
    emit siteChanged();
}

void AppModel::renameSite(const QString& name) {
    SiteRow site = m_project.survey().site;
    if (name.simplified().isEmpty() || site.name == name.simplified().toStdString())
        return;
    site.name = name.simplified().toStdString();
    m_project.change(site);
}

void AppModel::undo() {
    m_project.undo();
}

void AppModel::tell(const Finding& finding) {
    emit told(m_settings.formatter().finding(finding));
}
