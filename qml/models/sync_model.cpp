// SPDX-License-Identifier: GPL-3.0-or-later
#include "sync_model.h"

#include <QDateTime>
#include <QLocale>

#include <utility>

using namespace rillmark;

namespace {

const QString kAddress = QStringLiteral("sync/address");
const QString kUser = QStringLiteral("sync/user");
const QString kPlain = QStringLiteral("sync/plain");
const QString kKeep = QStringLiteral("sync/keep");
const QString kTrusted = QStringLiteral("sync/trusted");
const QString kYes = QStringLiteral("yes");
constexpr int kAsk_ms = 50;

std::filesystem::path path_of(const QString& file) {
    return {file.toStdU16String()};
}

/// Merges the fetched file once the screen has let go of the site.
Expected<MergeReport> merge_when_lent(QSemaphore& lent, const bool& may_write, const std::atomic<bool>& stop,
                                      const std::filesystem::path& site, const std::filesystem::path& fetched) {
    while (!lent.tryAcquire(1, kAsk_ms))
        if (stop && !lent.tryAcquire(1)) // what was lent before the stop is given back by the merge
            return refusal("exchange.sync_cancelled");
    if (!may_write)
        return refusal("project.busy", site.filename().string());
    return merge_into(site, {fetched});
}

} // namespace

SyncModel::SyncModel(OpenProject& project, SettingsModel& settings, MergeModel& merge, QString data_folder,
                     QObject* parent)
    : QObject(parent), m_project(project), m_settings(settings), m_merge(merge), m_data_folder(std::move(data_folder)) {
    connect(&m_settings, &SettingsModel::changed, this, &SyncModel::workChanged);
    connect(&m_project, &OpenProject::opened, this, [this] {
        if (working()) // closed and opened again by ourselves
            return;
        m_done.clear();
        m_outcome.clear();
        m_conflicts = 0;
        m_doing.clear();
        emit workChanged();
    });
    recall();
}

SyncModel::~SyncModel() {
    cancel();
    if (m_thread)
        m_thread->wait();
}

QString SyncModel::address() const {
    return m_settings.remembered(kAddress);
}

void SyncModel::setAddress(const QString& address) {
    if (address.trimmed() == this->address())
        return;
    m_settings.remember(kAddress, address.trimmed());
    m_settings.remember(kTrusted, {}); // that was another server's
    m_password.clear();
    m_offered.clear();
    recall();
    emit changed();
}

QString SyncModel::user() const {
    return m_settings.remembered(kUser);
}

void SyncModel::setUser(const QString& user) {
    if (user.trimmed() == this->user())
        return;
    m_settings.remember(kUser, user.trimmed());
    m_password.clear();
    recall();
    emit changed();
}

bool SyncModel::plainAllowed() const {
    return m_settings.remembered(kPlain) == kYes;
}

void SyncModel::setPlainAllowed(bool allowed) {
    m_settings.remember(kPlain, allowed ? kYes : QString());
    emit changed();
}

bool SyncModel::keepPassword() const {
    return m_settings.remembered(kKeep) == kYes;
}

void SyncModel::setKeepPassword(bool keep) {
    m_settings.remember(kKeep, keep ? kYes : QString());
    if (!keep)
        m_store.forget(address(), user());
    else if (!m_password.isEmpty())
        setPassword(m_password);
    emit changed();
}

void SyncModel::recall() {
    if (!keepPassword() || user().isEmpty())
        return;
    m_store.read(address(), user(), [this, server = address(), name = user()](const QString& password) {
        if (password.isEmpty() || !m_password.isEmpty() || server != address() || name != user())
            return;
        m_password = password;
        emit changed();
    });
}

void SyncModel::setPassword(const QString& password) {
    m_password = password;
    if (keepPassword() && !password.isEmpty())
        m_store.write(address(), user(), password, [this](bool kept) {
            if (kept)
                return;
            m_settings.remember(kKeep, {});
            m_outcome = {note("exchange.sync_no_key_store")};
            emit changed();
            emit workChanged();
        });
    emit changed();
}

QString SyncModel::trusted() const {
    return m_settings.remembered(kTrusted);
}

void SyncModel::trustOffered() {
    m_settings.remember(kTrusted, m_offered);
    m_offered.clear();
    m_outcome.clear();
    emit changed();
    emit workChanged();
}

void SyncModel::trustNone() {
    m_settings.remember(kTrusted, {});
    emit changed();
}

QString SyncModel::state() const {
    return m_doing.empty() ? QString() : Formatter::words(m_doing);
}

void SyncModel::refuse(const Finding& why) {
    m_outcome = {why};
    m_doing = "exchange.sync_failed";
    emit workChanged();
}

void SyncModel::sendAndFetch() {
    if (m_thread || !m_project.is_open())
        return;
    m_done.clear();
    m_outcome.clear();
    m_conflicts = 0;
    m_offered.clear();
    const Expected<sync::ServerAddress> server = sync::parse_server_address(address().toStdString(), plainAllowed());
    if (!server)
        return refuse(server.error());
    if (const Expected<void> name = sync::check_user_name(user().toStdString()); !name)
        return refuse(name.error());
    start(*server);
}

void SyncModel::start(const sync::ServerAddress& server) {
    const QString site = m_project.path();
    sync::SiteOrder order;
    order.server = server;
    order.access = {user(), m_password, trusted().remove(QLatin1Char(':')).toLatin1().toLower()};
    order.site_id = m_project.survey().site.id;
    order.site = path_of(site);
    order.memory = path_of(m_data_folder + QStringLiteral("/sync"));
    m_job = std::make_shared<Job>();
    m_progress = 0.0;

    const auto on_screen = [this](auto act) { QMetaObject::invokeMethod(this, act, Qt::QueuedConnection); };
    sync::SiteHooks hooks;
    hooks.take_in = [this, on_screen, job = m_job, site, path = order.site](const std::filesystem::path& fetched) {
        on_screen([this, job, site] { lend(job, site); });
        Expected<MergeReport> report = merge_when_lent(job->lent, job->may_write, job->stop, path, fetched);
        on_screen([this] { take_back(); });
        return report;
    };
    hooks.doing = [this, on_screen](const char* code, const std::optional<Finding>& why) {
        on_screen([this, code, why] {
            m_doing = code;
            m_progress = 0.0;
            m_outcome = why ? Findings{*why} : Findings{};
            emit workChanged();
        });
    };
    hooks.progress = [this, on_screen](std::int64_t done, std::int64_t total) {
        on_screen([this, done, total] {
            m_progress = total > 0 ? static_cast<double>(done) / static_cast<double>(total) : 0.0;
            emit workChanged();
        });
    };
    m_thread.reset(
        QThread::create([order, hooks, job = m_job] { job->outcome = sync::sync_site(order, hooks, job->stop); }));
    const QString host = QString::fromStdString(server.host);
    connect(m_thread.get(), &QThread::finished, this, [this, job = m_job, host] { finished(*job, host); });
    m_thread->start();
    emit workChanged();
}

void SyncModel::lend(const std::shared_ptr<Job>& job, const QString& site) {
    if (job->stop)
        return;
    const bool open_here = m_project.is_open() && m_project.path() == site;
    job->may_write = !open_here || m_project.saving() == OpenProject::Saving::Saved;
    if (open_here && job->may_write) {
        m_lent = site;
        m_project.close();
    }
    job->lent.release();
}

void SyncModel::take_back() {
    if (m_lent.isEmpty())
        return;
    const QString site = std::exchange(m_lent, {});
    if (m_project.is_open()) // the person went on to another site
        return;
    if (const Expected<void> opened = m_project.open(site); !opened)
        refuse(opened.error());
}

void SyncModel::finished(const Job& job, const QString& host) {
    m_thread.release()->deleteLater();
    take_back();
    const sync::SiteOutcome& outcome = job.outcome;
    m_outcome = outcome.refusal ? Findings{*outcome.refusal} : Findings{};
    m_offered = outcome.fingerprint;
    MergeReport merged = outcome.merged;
    for (MergeReport::Added& added : merged.added)
        added.file = host.toStdString();
    for (MergeConflict& conflict : merged.conflicts)
        conflict.file = host.toStdString();
    m_conflicts = static_cast<int>(merged.conflicts.size());
    if (merged.changed) {
        m_merge.show(merged);
        m_done.append(tr("What others found was taken in; see it under \"Two books of one site\"."));
    }
    if (outcome.sent)
        m_done.append(tr("Sent."));
    if (!outcome.refusal)
        m_done.append(tr("This device and %1 hold the same since %2.")
                          .arg(host, QLocale().toString(QDateTime::currentDateTime(), QLocale::ShortFormat)));
    emit workChanged();
}

void SyncModel::cancel() {
    if (m_job)
        m_job->stop = true;
}
