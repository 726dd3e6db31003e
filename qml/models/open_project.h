// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "project/project.h"
#include "site/site_estimate.h"
#include "site/survey.h"

#include <QObject>
#include <QString>
#include <QTimer>

#include <deque>
#include <functional>
#include <memory>
#include <optional>
#include <vector>

/// The project file that is open, what it holds, and the figures that follow from it. Presenters read `survey()` and
/// `estimate()`, send their bookings here, and listen to changed().
///
/// While another program holds the file a booking waits and is tried again; saving() says so. Nothing is acknowledged
/// before it is on the disk.
class OpenProject : public QObject {
    Q_OBJECT
public:
    explicit OpenProject(QObject* parent = nullptr);
    ~OpenProject() override;

    enum class Saving { Saved, Waiting, Failed };

    /// Opens or makes a file in place of the one that is open; on a refusal that one stays open.
    rillmark::Expected<void> open(const QString& path);
    rillmark::Expected<void> create(const QString& path, const QString& site_name);
    void close();

    [[nodiscard]] bool is_open() const { return m_project.has_value(); }
    [[nodiscard]] rillmark::Project* project() { return m_project ? &*m_project : nullptr; }
    [[nodiscard]] QString path() const;
    [[nodiscard]] const rillmark::Survey& survey() const { return m_survey; }
    [[nodiscard]] const rillmark::SiteEstimate& estimate() const { return m_estimate; }
    [[nodiscard]] const rillmark::PowerTables& tables() const { return m_tables; }
    [[nodiscard]] Saving saving() const { return m_saving; }
    /// The refusal behind Saving::Failed or Waiting.
    [[nodiscard]] const std::optional<rillmark::Finding>& save_problem() const { return m_save_problem; }

    using Done = std::function<void()>;
    /// One user action: its bookings and changes, in order. When the file is held by another program the action waits and
    /// is tried again; any other refusal drops it and is told by refused(). `then` runs once it is on the disk.
    using Action = std::function<rillmark::Expected<void>(rillmark::Project&)>;
    /// Brings what an action wrote into the survey and says whether that changed it; without one the whole file is read
    /// again.
    using Take = std::function<bool(rillmark::Survey&)>;
    void act(Action action, Done then = {}, Take take = {});

    /// Books one row by act(); `then` gets its id.
    template <class Record>
    void book(Record row, std::function<void(rillmark::Id)> then = {}) {
        auto booked = std::make_shared<rillmark::Booked<Record>>();
        act(
            [row = std::move(row), booked](rillmark::Project& project) -> rillmark::Expected<void> {
                const rillmark::Expected<rillmark::Id> id = project.book(row);
                if (!id)
                    return id.error();
                booked->row = row;
                booked->row.id = *id;
                if (const rillmark::Expected<rillmark::Booked<Record>> stored = project.get<Record>(*id))
                    *booked = *stored; // with the time that the booking gave it
                return {};
            },
            [then = std::move(then), booked] {
                if (then)
                    then(booked->row.id);
            },
            [booked](rillmark::Survey& survey) {
                survey.rows<Record>().push_back(*booked);
                return true;
            });
    }
    /// A fix of the track: the survey does not hold it and no figure rests on it.
    void book_track(const rillmark::FixRow& fix);
    template <class Record>
    void change(Record row) {
        act([row = std::move(row)](rillmark::Project& project) { return project.change(row); });
    }
    void strike(const char* table, rillmark::Id id, const QString& reason);
    void restore(const char* table, rillmark::Id id, const QString& reason);
    void undo();

    /// Reads the file again: after another connection (a photo worker) has written to it.
    void reload();
    /// The same, with the readings of a series that the other connection has written: a million need not be read twice.
    void reload_with(rillmark::Id series, std::shared_ptr<const rillmark::SeriesValues> values);

signals:
    /// Survey and estimate are new.
    void changed();
    void opened();
    void savingChanged();
    /// An action was dropped; nothing of it was stored.
    void refused(const rillmark::Finding& why);

private:
    struct Pending {
        Action action;
        Done then;
        Take take;
    };
    rillmark::Expected<void> take_over(rillmark::Expected<rillmark::Project> project);
    void run_pending();
    void figure_anew();
    void set_saving(Saving saving, std::optional<rillmark::Finding> why = {});

    std::optional<rillmark::Project> m_project;
    rillmark::Survey m_survey;
    rillmark::SiteEstimate m_estimate;
    rillmark::PowerTables m_tables;
    std::deque<Pending> m_pending;
    QTimer m_retry;
    Saving m_saving = Saving::Saved;
    std::optional<rillmark::Finding> m_save_problem;
};
