// SPDX-License-Identifier: GPL-3.0-or-later
#include "handover_model.h"

#include "handover_place.h"
#include "site/readiness.h"
#include "sync/file_hash.h"

#include <QFileInfo>

using namespace rillmark;

namespace {

QString said(const AnswerRow& answer) {
    const QString text = QString::fromStdString(answer.text);
    const QString verdict = answer.verdict == "yes"  ? HandoverModel::tr("Yes")
                            : answer.verdict == "no" ? HandoverModel::tr("No")
                                                     : QString();
    if (verdict.isEmpty() || text.isEmpty())
        return verdict + text;
    return QStringLiteral("%1: %2").arg(verdict, text);
}

} // namespace

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
    for (const ReadinessItem& one : readiness(m_project.survey(), m_project.estimate())) {
        AskItem item;
        item.key = QString::fromStdString(one.ask.key);
        item.label = Formatter::words(one.code);
        item.state = static_cast<int>(one.state);
        item.why = one.why.empty() ? QString() : Formatter::words(one.why);
        item.place = QString::fromStdString(one.ask.place);
        item.takes = one.ask.answer == AskAnswer::YesNo  ? QStringLiteral("yes-no")
                     : one.ask.answer == AskAnswer::Text ? QStringLiteral("text")
                                                         : QString();
        item.answered = one.answer.has_value();
        if (one.answer)
            item.answer = said(*one.answer);
        items.append(item);
    }
    return items;
}

QString HandoverModel::tally() const {
    const ReadinessTally count = rillmark::tally(readiness(m_project.survey(), m_project.estimate()));
    return tr("%1 of %2 done, %3 thin").arg(count.done).arg(count.asked()).arg(count.thin);
}

void HandoverModel::answer(const QString& key, const QString& verdict, const QString& text) {
    m_project.book(AnswerRow{0, key.toStdString(), verdict.toStdString(), text.trimmed().toStdString(), {}});
}

void HandoverModel::takeAnswerBack(const QString& key) {
    for (const ReadinessItem& one : readiness(m_project.survey(), m_project.estimate()))
        if (one.ask.key == key.toStdString() && one.answer)
            m_project.strike(AnswerRow::kTable, one.answer->id, tr("answer taken back"));
}

void HandoverModel::work(std::function<Outcome(const Project&)> task, std::function<void(const Outcome&)> then) {
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
    connect(m_thread.get(), &QThread::finished, this, [this, outcome, then = std::move(then)] {
        m_outcome = outcome->findings;
        m_done = outcome->done;
        m_thread.release()->deleteLater();
        if (then)
            then(*outcome);
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

namespace {

/// One closed, checked file with its checksum beside it.
Expected<void> save_with_checksum(const Project& project, const QString& target) {
    const std::filesystem::path to(target.toStdU16String());
    if (Expected<void> saved = project.save_copy(to); !saved)
        return saved;
    return sync::write_checksum_beside(to);
}

} // namespace

HandoverModel::Outcome HandoverModel::copied(const Project& project, const QString& target) {
    Outcome outcome;
    if (const Expected<void> saved = save_with_checksum(project, target); !saved) {
        outcome.findings.push_back(saved.error());
        return outcome;
    }
    outcome.done = tr("Saved as one closed, checked file, its SHA-256 beside it: %1").arg(QFileInfo(target).fileName());
    outcome.copy = target;
    return outcome;
}

void HandoverModel::saveCopy(const QUrl& to) {
    work([target = to.toLocalFile()](const Project& project) { return copied(project, target); });
}

QUrl HandoverModel::place_here() const {
    return QUrl::fromLocalFile(handover_place(m_project.path()) + QStringLiteral(".gpkg"));
}

void HandoverModel::saveCopyHere() {
    saveCopy(place_here());
}

void HandoverModel::share() {
    if (!m_project.is_open())
        return;
    work([target = place_here().toLocalFile()](const Project& project) { return copied(project, target); },
         [this](const Outcome& outcome) { share_copy(outcome); });
}

void HandoverModel::share_copy(const Outcome& outcome) {
    if (outcome.copy.isEmpty())
        return;
    const QString title = QString::fromStdString(m_project.survey().site.name);
    if (const Expected<void> shared = share_file(outcome.copy, title); !shared)
        m_outcome.push_back(shared.error());
}
