// SPDX-License-Identifier: GPL-3.0-or-later
#include "photos/photo_worker.h"

#include <algorithm>
#include <chrono>

namespace rillmark {

namespace {

// Another program holds the file while it merges or copies, seldom longer than this. Our choice, no source.
constexpr int kBusyTries = 20;
constexpr std::chrono::milliseconds kBusyPause{500};

} // namespace

PhotoWorker::PhotoWorker(PhotoStore store, QObject* parent)
    : QObject(parent), m_store(std::move(store)), m_thread(QThread::create([this] { run(); })) {
    m_thread->start(QThread::LowPriority);
}

PhotoWorker::~PhotoWorker() {
    {
        const std::lock_guard lock(m_lock);
        m_closing = true;
    }
    m_wake.notify_all();
    m_thread->wait();
}

qint64 PhotoWorker::add(std::vector<unsigned char> picture, PhotoContext context, Id station_id) {
    return enqueue({.picture = std::move(picture), .context = std::move(context), .station_id = station_id});
}

qint64 PhotoWorker::add(const QString& file, PhotoContext context, Id station_id) {
    return enqueue({.picture = file, .context = std::move(context), .station_id = station_id});
}

qint64 PhotoWorker::enqueue(Job job) {
    job.number = ++m_last_number;
    {
        const std::lock_guard lock(m_lock);
        m_jobs.push_back(std::make_shared<Job>(std::move(job)));
    }
    m_wake.notify_all();
    emit pendingChanged();
    return m_last_number;
}

void PhotoWorker::cancel(qint64 number) {
    {
        const std::lock_guard lock(m_lock);
        for (const auto& job : m_jobs)
            job->cancelled |= job->number == number;
    }
    m_wake.notify_all();
}

int PhotoWorker::pending() const {
    const std::lock_guard lock(m_lock);
    return static_cast<int>(m_jobs.size());
}

void PhotoWorker::run() {
    std::unique_lock lock(m_lock);
    for (;;) {
        m_wake.wait(lock, [this] { return m_closing || !m_jobs.empty(); });
        if (m_jobs.empty())
            return;
        const std::shared_ptr<Job> job = m_jobs.front();
        lock.unlock();
        const std::optional<Expected<Id>> outcome = carry_out(*job);
        lock.lock();
        m_jobs.pop_front();
        report(job->number, outcome);
    }
}

std::optional<Expected<Id>> PhotoWorker::carry_out(const Job& job) {
    if (given_up(job))
        return std::nullopt;
    const auto photo =
        std::visit([&job](const auto& picture) { return prepare_photo(picture, job.context); }, job.picture);
    if (!photo)
        return photo.error();
    for (int tries = 1;; ++tries) {
        if (given_up(job))
            return std::nullopt;
        Expected<Id> outcome = m_store(*photo, job.station_id);
        if (outcome || outcome.error().code != "project.busy" || tries == kBusyTries)
            return outcome;
        std::unique_lock lock(m_lock);
        m_wake.wait_for(lock, kBusyPause, [&] { return job.cancelled; });
    }
}

bool PhotoWorker::given_up(const Job& job) const {
    const std::lock_guard lock(m_lock);
    return job.cancelled;
}

// Passed on through the event loop of our own thread, so that no slot ever runs on the worker's.
void PhotoWorker::report(qint64 number, const std::optional<Expected<Id>>& outcome) {
    QMetaObject::invokeMethod(
        this,
        [this, number, outcome] {
            emit pendingChanged();
            if (!outcome)
                emit cancelled(number);
            else if (*outcome)
                emit stored(number, outcome->value());
            else
                emit failed(number, outcome->error());
        },
        Qt::QueuedConnection);
}

} // namespace rillmark
