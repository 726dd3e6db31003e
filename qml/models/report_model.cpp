// SPDX-License-Identifier: GPL-3.0-or-later
#include "report_model.h"

#include "handover_place.h"

#include <QCoreApplication>
#include <QDir>
#include <QFile>
#include <QFileInfo>

using namespace rillmark;

namespace {

const QString kPaper = QStringLiteral("report/paper");
const QString kUnit = QStringLiteral("report/unit");
const QString kAll = QStringLiteral("report/alternatives");
const QString kCopy = QStringLiteral("report/copy");
const QString kLetter = QStringLiteral("letter");
const QString kUs = QStringLiteral("us");
const QString kNo = QStringLiteral("no");

std::filesystem::path path_of(const QString& file) {
    return {file.toStdU16String()};
}

/// Makes the closed copy where one is wanted, and the report of it.
Expected<report::Made> make_report(const std::filesystem::path& site, const report::Options& options,
                                   const QString& place, bool with_copy, const report::Progress& progress) {
    Expected<Project> project = Project::open(site, OpenMode::ReadOnly);
    if (!project)
        return project.error();
    if (with_copy) {
        const std::filesystem::path copy = path_of(place + QStringLiteral(".gpkg"));
        if (const Expected<void> saved = project->save_copy(copy); !saved)
            return saved.error();
        project = Project::open(copy, OpenMode::ReadOnly);
        if (!project)
            return project.error();
    }
    return report::write_report(*project, options, path_of(place + QStringLiteral(".pdf")), progress);
}

} // namespace

ReportModel::ReportModel(OpenProject& project, SettingsModel& settings, ResumeState& resume, QObject* parent)
    : QObject(parent), m_project(project), m_settings(settings), m_resume(resume) {
    connect(&m_settings, &SettingsModel::changed, this, &ReportModel::changed);
    connect(&m_project, &OpenProject::opened, this, [this] {
        m_done.clear();
        m_outcome.clear();
        emit workChanged();
    });
}

ReportModel::~ReportModel() {
    cancel();
    if (m_thread)
        m_thread->wait();
}

QList<Choice> ReportModel::papers() const {
    return {{QStringLiteral("a4"), tr("A4")}, {kLetter, tr("US Letter")}};
}

QString ReportModel::paper() const {
    return m_resume.text(kPaper, m_settings.metric() ? QStringLiteral("a4") : kLetter);
}

void ReportModel::setPaper(const QString& paper) {
    m_resume.setText(kPaper, paper);
    emit changed();
}

QList<Choice> ReportModel::units() const {
    return {{QStringLiteral("metric"), tr("Metric")}, {kUs, tr("US customary")}};
}

QString ReportModel::unit() const {
    return m_resume.text(kUnit, m_settings.metric() ? QStringLiteral("metric") : kUs);
}

void ReportModel::setUnit(const QString& unit) {
    m_resume.setText(kUnit, unit);
    emit changed();
}

bool ReportModel::allAlternatives() const {
    return m_resume.text(kAll) != kNo;
}

void ReportModel::setAllAlternatives(bool all) {
    m_resume.setText(kAll, all ? QString() : kNo);
    emit changed();
}

bool ReportModel::withCopy() const {
    return m_resume.text(kCopy) != kNo;
}

void ReportModel::setWithCopy(bool with) {
    m_resume.setText(kCopy, with ? QString() : kNo);
    emit changed();
}

QString ReportModel::progressText() const {
    if (!working())
        return {};
    return m_total > 0 ? tr("Page %1 of %2").arg(m_done_pages).arg(m_total) : tr("Getting ready ...");
}

report::Options ReportModel::options() const {
    report::Options options;
    options.paper = paper() == kLetter ? report::Paper::Letter : report::Paper::A4;
    options.display = m_settings.formatter().options();
    options.display.system = unit() == kUs ? UnitSystem::UsCustomary : UnitSystem::Metric;
    options.all_alternatives = allAlternatives();
    options.version = QCoreApplication::applicationVersion();
    options.now = QDateTime::currentDateTime();
    return options;
}

void ReportModel::make() {
    if (m_thread || !m_project.is_open())
        return;
    const QString place = handover_place(m_project.path());
    m_job = std::make_shared<Job>();
    m_done.clear();
    m_outcome.clear();
    m_done_pages = 0;
    m_total = 0;
    m_thread.reset(QThread::create(
        [this, job = m_job, site = m_project.project()->path(), options = options(), place, copy = withCopy()] {
            const auto tell = [this, job](int done, int total) {
                QMetaObject::invokeMethod(
                    this,
                    [this, done, total] {
                        m_done_pages = done;
                        m_total = total;
                        emit workChanged();
                    },
                    Qt::QueuedConnection);
                return !job->stop;
            };
            const Expected<report::Made> made = make_report(site, options, place, copy, tell);
            if (made)
                job->made = *made;
            else
                job->findings.push_back(made.error());
            if (copy && (!made || made->cancelled))
                QFile::remove(place + QStringLiteral(".gpkg"));
        }));
    connect(m_thread.get(), &QThread::finished, this, [this, job = m_job, place] { finished(*job, place); });
    m_thread->start();
    emit workChanged();
}

void ReportModel::finished(const Job& job, const QString& place) {
    m_thread.release()->deleteLater();
    m_outcome = job.findings;
    if (job.made.cancelled)
        m_done = tr("Cancelled. No report was made.");
    else if (job.findings.empty())
        m_done = tr("%1 pages: %2").arg(job.made.pages).arg(QDir::toNativeSeparators(place + QStringLiteral(".pdf")));
    emit workChanged();
}

void ReportModel::cancel() {
    if (m_job)
        m_job->stop = true;
}
