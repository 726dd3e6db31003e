// SPDX-License-Identifier: GPL-3.0-or-later
#include "sync/site_sync.h"

#include "project/project.h"
#include "sync/file_hash.h"
#include "sync/memory.h"
#include "sync/round.h"

#include <QRandomGenerator>
#include <QTemporaryDir>
#include <QThread>

#include <algorithm>
#include <chrono>

namespace rillmark::sync {

namespace {

namespace fs = std::filesystem;

constexpr Milliseconds kLookForStop{50};

constexpr std::chrono::hours kForgotten{24};

/// The files of one round, in a folder that goes away with it. What a killed program left is taken away a day later.
class WorkFolder {
public:
    explicit WorkFolder(const fs::path& beside)
        : m_folder(QString::fromStdU16String((beside / "round-XXXXXX").u16string())) {
        std::error_code failed;
        for (const fs::directory_entry& entry : fs::directory_iterator(beside, failed)) {
            const fs::file_time_type written = entry.last_write_time(failed);
            if (!failed && entry.path().filename().string().starts_with("round-") &&
                fs::file_time_type::clock::now() - written > kForgotten)
                fs::remove_all(entry.path(), failed);
        }
    }
    [[nodiscard]] fs::path operator/(const char* name) const {
        return fs::path(m_folder.path().toStdU16String()) / name;
    }

private:
    QTemporaryDir m_folder;
};

Expected<ClosedCopy> closed_copy(const fs::path& site, const fs::path& to) {
    std::error_code ignored;
    fs::remove(to, ignored);
    const Expected<Project> project = Project::open(site, OpenMode::ReadOnly);
    if (!project)
        return project.error();
    if (const Expected<void> saved = project->save_copy(to); !saved)
        return saved.error();
    return hash_of(to);
}

/// A file from the server is hostile until proven: opened defensively, brought up to date, searched for faults.
Expected<void> check_fetched(const fs::path& fetched, Id site_id, const std::string& content_type) {
    const Expected<Project> project = Project::open(fetched);
    if (!project) {
        const std::string& code = project.error().code;
        if (code == "project.disk_full" || code == "project.io" || code == "project.busy" ||
            code == "project.read_only")
            return project.error();
        if (code == "project.not_a_database" && content_type.starts_with("text/html"))
            return refusal("exchange.server_web_page");
        if (code == "project.damaged")
            return refusal("exchange.server_file_damaged", {}, {{"detail", code}});
        return refusal("exchange.server_no_project");
    }
    if (project->newer())
        return refusal("exchange.server_newer");
    if (const Findings faults = project->verify(); !faults.empty())
        return refusal("exchange.server_file_damaged", {}, {{"detail", faults.front().code}});
    const Expected<SiteRow> site = project->site();
    if (!site)
        return site.error();
    if (site->id != site_id)
        return refusal("exchange.server_other_site");
    return {};
}

class Driver {
public:
    Driver(const SiteOrder& order, const SiteHooks& hooks, const std::atomic<bool>& stop)
        : m_order(order), m_hooks(hooks), m_stop(stop), m_memory(order.memory, order.server, order.site_id),
          m_work(order.memory), m_client(order.access, stop, hooks.progress),
          m_round(order.server, order.site_id, m_memory.device(), m_memory.read(), order.patience,
                  [] { return QRandomGenerator::global()->generateDouble(); }) {}

    SiteOutcome run();

private:
    void answer(const Request& request);
    void take_in();
    void make_copy();
    void wait(const Wait& wait);
    void tell(const std::optional<Finding>& why = {});

    const SiteOrder& m_order;
    const SiteHooks& m_hooks;
    const std::atomic<bool>& m_stop;
    Memory m_memory;
    WorkFolder m_work;
    DavClient m_client;
    Round m_round;
    std::string m_content_type;
    SiteOutcome m_outcome;
    std::string m_told;
};

SiteOutcome Driver::run() {
    for (;;) {
        const Step step = m_round.step();
        if (const auto* request = std::get_if<Request>(&step)) {
            tell();
            answer(*request);
        } else if (const auto* task = std::get_if<Task>(&step)) {
            tell();
            *task == Task::TakeIn ? take_in() : make_copy();
        } else if (const auto* pause = std::get_if<Wait>(&step)) {
            tell(pause->why);
            wait(*pause);
        } else {
            m_outcome.refusal = std::get<Ended>(step).refusal;
            tell(m_outcome.refusal);
            break;
        }
    }
    m_memory.write(m_round.remembered());
    m_outcome.sent = m_round.sent();
    m_outcome.fingerprint = m_client.refused_fingerprint();
    return m_outcome;
}

void Driver::tell(const std::optional<Finding>& why) {
    if (m_hooks.doing && (m_told != m_round.doing() || why))
        m_hooks.doing(m_round.doing(), why);
    m_told = m_round.doing();
}

void Driver::answer(const Request& request) {
    const Answer answer =
        m_client.perform(request, m_work / (request.verb == Verb::Get ? "fetched.gpkg" : "closed.gpkg"));
    if (request.verb == Verb::Get)
        m_content_type = answer.content_type;
    m_round.answered(answer);
}

void Driver::take_in() {
    const fs::path fetched = m_work / "fetched.gpkg";
    if (const Expected<void> sound = check_fetched(fetched, m_order.site_id, m_content_type); !sound)
        return m_round.stop(sound.error());
    std::error_code ignored;
    if (!fs::exists(m_order.site, ignored)) {
        const Expected<Project> project = Project::open(fetched, OpenMode::ReadOnly);
        const Expected<void> made = project ? project->save_copy(m_order.site) : Expected<void>(project.error());
        if (!made)
            return m_round.stop(made.error());
        m_outcome.merged.changed = true;
    } else {
        const Expected<MergeReport> merged =
            m_hooks.take_in ? m_hooks.take_in(fetched) : merge_into(m_order.site, {fetched});
        if (!merged)
            return m_round.stop(merged.error());
        m_outcome.merged = *merged;
    }
    const fs::path closed = m_work / "closed.gpkg";
    const Expected<ClosedCopy> copy = closed_copy(m_order.site, closed);
    if (!copy)
        return m_round.stop(copy.error());
    // what would the server's file gain from ours?
    const Expected<MergeReport> lacking = merge_into(fetched, {closed});
    if (!lacking)
        return m_round.stop(lacking.error());
    m_round.taken_in({lacking->changed, copy->sha256});
}

void Driver::make_copy() {
    const Expected<ClosedCopy> copy = closed_copy(m_order.site, m_work / "closed.gpkg");
    if (copy)
        m_round.copied(*copy);
    else
        m_round.stop(copy.error());
}

void Driver::wait(const Wait& wait) {
    for (Milliseconds left = wait.time; left.count() > 0 && !m_stop; left -= kLookForStop)
        QThread::msleep(static_cast<unsigned long>(std::min(left, kLookForStop).count()));
    if (m_stop)
        m_round.stop(refusal("exchange.sync_cancelled"));
    else
        m_round.waited();
}

} // namespace

SiteOutcome sync_site(const SiteOrder& order, const SiteHooks& hooks, const std::atomic<bool>& stop) {
    return Driver(order, hooks, stop).run();
}

} // namespace rillmark::sync
