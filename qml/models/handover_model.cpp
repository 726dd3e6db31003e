// SPDX-License-Identifier: GPL-3.0-or-later
#include "handover_model.h"

#include "handover_place.h"
#include "site/readiness.h"

#include <QFileInfo>

using namespace rillmark;

HandoverModel::HandoverModel(OpenProject& project, SettingsModel& settings, ResumeState& resume, QObject* parent)
    : QObject(parent), m_project(project), m_settings(settings) {
    Q_UNUSED(resume)
    connect(&m_project, &OpenProject::changed, this, &HandoverModel::changed);
    connect(&m_settings, &SettingsModel::changed, this, &HandoverModel::changed);
}

HandoverModel::~HandoverModel() {
    if (m_thread)
        m_thread->wait();
}

QList<AskItem> HandoverModel::asks() const {
    QList<AskItem> items;
    for (const ReadinessItem& one : readiness(m_project.survey(), m_project.estimate()))
        items.append({Formatter::words(one.code), static_cast<int>(one.state),
                      one.why.empty() ? QString() : Formatter::words(one.why), QString::fromStdString(one.place)});
    return items;
}

QString HandoverModel::tally() const {
    int done = 0;
    int thin = 0;
    const QList<AskItem> all = asks();
    for (const AskItem& one : all) {
        done += one.state == 0;
        thin += one.state == 1;
    }
    return tr("%1 of %2 done, %3 thin").arg(done).arg(all.size()).arg(thin);
}

void HandoverModel::work(std::function<Outcome(const Project&)> task) {
    if (m_thread || !m_project.is_open())
        return;
    const std::filesystem::path path = m_project.project()->path();
    auto outcome = std::make_shared<Outcome>();
    m_thread.reset(QThread::create([path, task = std::move(task), outcome] {
        const Expected<Project> project = Project::open(path, OpenMode::ReadOnly);
        if (project)
            *outcome = task(*project);
        else
            outcome->findings.push_back(project.error());
    }));
    connect(m_thread.get(), &QThread::finished, this, [this, outcome] {
        m_outcome = outcome->findings;
        m_done = outcome->done;
        m_thread.release()->deleteLater();
        emit workChanged();
    });
    m_outcome.clear();
    m_done.clear();
    m_thread->start();
    emit workChanged();
}

void HandoverModel::check() {
    work([](const Project& project) {
        Outcome outcome;
        outcome.findings = project.verify();
        if (outcome.findings.empty())
            outcome.done = tr("Checked: no fault found.");
        return outcome;
    });
}

void HandoverModel::saveCopy(const QUrl& to) {
    const QString target = to.toLocalFile();
    work([target](const Project& project) {
        Outcome outcome;
        const Expected<void> saved = project.save_copy(std::filesystem::path(target.toStdU16String()));
        if (saved)
            outcome.done = tr("Saved as one closed, checked file: %1").arg(QFileInfo(target).fileName());
        else
            outcome.findings.push_back(saved.error());
        return outcome;
    });
}

void HandoverModel::saveCopyHere() {
    saveCopy(QUrl::fromLocalFile(handover_place(m_project.path()) + QStringLiteral(".gpkg")));
}
