// SPDX-License-Identifier: GPL-3.0-or-later
#include "open_project.h"


using namespace rillmark;

namespace {

constexpr int kRetry_ms = 300;

std::filesystem::path to_path(const QString& path) {
    return std::filesystem::path(path.toStdU16String());
}

} // namespace

OpenProject::OpenProject(QObject* parent) : QObject(parent) {
    if (Expected<PowerTables> tables = read_power_tables())
        m_tables = std::move(tables).value();
    m_retry.setSingleShot(true);
    m_retry.setInterval(kRetry_ms);
    connect(&m_retry, &QTimer::timeout, this, &OpenProject::run_pending);
}

OpenProject::~OpenProject() = default;

Expected<void> OpenProject::open(const QString& path) {
    return take_over(Project::open(to_path(path)));
}

Expected<void> OpenProject::create(const QString& path, const QString& site_name) {
    return take_over(Project::create(to_path(path), site_name.toStdString()));
}

Expected<void> OpenProject::take_over(Expected<Project> project) {
    if (!project)
        return project.error();
    Expected<Survey> survey = load_survey(*project);
    if (!survey)
        return survey.error();
    m_pending.clear();
    m_project.emplace(std::move(project).value());
    m_survey = std::move(survey).value();
    m_estimate = site_estimate(m_survey, m_tables);
    set_saving(Saving::Saved);
    emit opened();
    emit changed();
    return {};
}

void OpenProject::close() {
    m_pending.clear();
    m_project.reset();
    m_survey = {};
    m_estimate = {};
    emit opened();
    emit changed();
}

QString OpenProject::path() const {
    return m_project ? QString::fromStdU16String(m_project->path().u16string()) : QString();
}

void OpenProject::act(Action action, Done then, Take take) {
    if (!m_project)
        return;
    m_pending.push_back({std::move(action), std::move(then), std::move(take)});
    if (!m_retry.isActive())
        run_pending();
}

void OpenProject::book_track(const FixRow& fix) {
    act(
        [fix](Project& project) -> Expected<void> {
            const Expected<Id> booked = project.book(fix);
            if (!booked)
                return booked.error();
            return {};
        },
        {}, [](Survey&) { return false; });
}

void OpenProject::run_pending() {
    bool changed_survey = false;
    bool read_again = false;
    std::vector<Done> done;
    while (!m_pending.empty()) {
        const Expected<void> result = m_pending.front().action(*m_project);
        if (!result && result.error().code == "project.busy") {
            set_saving(Saving::Waiting, result.error());
            m_retry.start();
            break;
        }
        Pending finished = std::move(m_pending.front());
        m_pending.pop_front();
        if (!result) {
            set_saving(Saving::Failed, result.error());
            emit refused(result.error());
            continue;
        }
        set_saving(Saving::Saved);
        if (finished.take)
            changed_survey = finished.take(m_survey) || changed_survey;
        else
            read_again = true;
        if (finished.then)
            done.push_back(std::move(finished.then));
    }
    if (read_again)
        reload();
    else if (changed_survey)
        figure_anew();
    for (const Done& then : done)
        then();
}

void OpenProject::reload() {
    Expected<Survey> survey = load_survey(*m_project, &m_survey);
    if (!survey) {
        set_saving(survey.error().code == "project.busy" ? Saving::Waiting : Saving::Failed, survey.error());
        return;
    }
    m_survey = std::move(survey).value();
    figure_anew();
}

void OpenProject::reload_with(Id series, std::shared_ptr<const SeriesValues> values) {
    m_survey.series_values[series] = std::move(values);
    reload();
}

void OpenProject::figure_anew() {
    m_estimate = site_estimate(m_survey, m_tables, m_estimate.season);
    emit changed();
}

void OpenProject::strike(const char* table, Id id, const QString& reason) {
    act([table, id, why = reason.toStdString()](Project& project) { return project.strike(table, id, why); });
}

void OpenProject::restore(const char* table, Id id, const QString& reason) {
    act([table, id, why = reason.toStdString()](Project& project) { return project.restore(table, id, why); });
}

void OpenProject::undo() {
    act([](Project& project) -> Expected<void> {
        const Expected<Project::Action> undone = project.undo();
        if (!undone)
            return undone.error();
        return {};
    });
}

void OpenProject::set_saving(Saving saving, std::optional<Finding> why) {
    if (m_saving == saving && saving != Saving::Failed)
        return;
    m_saving = saving;
    m_save_problem = std::move(why);
    emit savingChanged();
}
