// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "finding.h"
#include "photos/photo_intake.h"

#include <QObject>
#include <QThread>

#include <condition_variable>
#include <deque>
#include <filesystem>
#include <functional>
#include <memory>
#include <mutex>
#include <optional>
#include <string>
#include <variant>
#include <vector>

namespace rillmark {

/// Stores one prepared photo with its station (0: none) and gives its id.
using PhotoStore = std::function<Expected<Id>(const PhotoData&, Id station_id)>;

/// A store that opens its own connection to the project file for each photo, so that it may run on any thread.
[[nodiscard]] PhotoStore store_in_project(std::filesystem::path file, std::string device);

/// Takes photos in behind the screen: one thread prepares and stores them in the order of their arrival.
///
/// Use it from one thread (the UI's); its signals arrive there. A file held by another program (`project.busy`) is
/// tried again for some ten seconds. At its end it first stores what is still waiting, so that no photo is lost.
class PhotoWorker : public QObject {
    Q_OBJECT
public:
    explicit PhotoWorker(PhotoStore store, QObject* parent = nullptr);
    ~PhotoWorker() override;

    /// Queues a picture, as bytes or as the name of a file, and gives its number for the signals. Returns at once.
    qint64 add(std::vector<unsigned char> picture, PhotoContext context, Id station_id);
    qint64 add(const QString& file, PhotoContext context, Id station_id);

    /// Gives a photo up unless it is already being stored; cancelled() or stored() tells which.
    void cancel(qint64 number);

    /// How many are waiting or in work.
    [[nodiscard]] int pending() const;

signals:
    void stored(qint64 number, qint64 photo_id);
    void failed(qint64 number, const rillmark::Finding& finding);
    void cancelled(qint64 number);
    void pendingChanged();

private:
    struct Job {
        qint64 number = 0;
        std::variant<std::vector<unsigned char>, QString> picture;
        PhotoContext context;
        Id station_id = 0;
        bool cancelled = false;
    };

    qint64 enqueue(Job job);
    void run();
    std::optional<Expected<Id>> carry_out(const Job& job); // nothing: given up
    bool given_up(const Job& job) const;
    void report(qint64 number, const std::optional<Expected<Id>>& outcome);

    PhotoStore m_store;
    mutable std::mutex m_lock;
    std::condition_variable m_wake;
    std::deque<std::shared_ptr<Job>> m_jobs; // the first one is in work
    bool m_closing = false;
    qint64 m_last_number = 0;
    std::unique_ptr<QThread> m_thread;
};

} // namespace rillmark
