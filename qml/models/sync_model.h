// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "merge_model.h"
#include "open_project.h"
#include "settings_model.h"
#include "sync/password_store.h"
#include "sync/site_sync.h"

#include <QObject>
#include <QSemaphore>
#include <QThread>
#include <QtQml/qqmlregistration.h>

#include <atomic>
#include <memory>

/// Sends the open site to a WebDAV server and takes in what others sent, behind the screen. The password stays in
/// memory or in the system's key store; the address and the user name are a choice of this device.
class SyncModel : public QObject {
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("made by the program")
    Q_PROPERTY(QString address READ address WRITE setAddress NOTIFY changed)
    Q_PROPERTY(QString user READ user WRITE setUser NOTIFY changed)
    Q_PROPERTY(bool plainAllowed READ plainAllowed WRITE setPlainAllowed NOTIFY changed)
    Q_PROPERTY(bool keepPassword READ keepPassword WRITE setKeepPassword NOTIFY changed)
    Q_PROPERTY(bool passwordKnown READ passwordKnown NOTIFY changed)
    Q_PROPERTY(QString trusted READ trusted NOTIFY changed)     // fingerprint trusted by hand; empty: none
    Q_PROPERTY(QString offered READ offered NOTIFY workChanged) // fingerprint that was not believed; empty: none
    Q_PROPERTY(bool working READ working NOTIFY workChanged)
    Q_PROPERTY(QString state READ state NOTIFY workChanged)      // in words
    Q_PROPERTY(double progress READ progress NOTIFY workChanged) // 0..1 of what is on the way
    Q_PROPERTY(QStringList done READ done NOTIFY workChanged)    // what the last round came to
    Q_PROPERTY(int conflicts READ conflicts NOTIFY workChanged)
    Q_PROPERTY(QList<FindingText> outcome READ outcome NOTIFY workChanged)
public:
    SyncModel(OpenProject& project, SettingsModel& settings, MergeModel& merge, QString data_folder,
              QObject* parent = nullptr);
    ~SyncModel() override;

    [[nodiscard]] QString address() const;
    void setAddress(const QString& address);
    [[nodiscard]] QString user() const;
    void setUser(const QString& user);
    /// http beyond this device, on a network of one's own.
    [[nodiscard]] bool plainAllowed() const;
    void setPlainAllowed(bool allowed);
    [[nodiscard]] bool keepPassword() const;
    void setKeepPassword(bool keep);
    [[nodiscard]] bool passwordKnown() const { return !m_password.isEmpty(); }
    [[nodiscard]] QString trusted() const;
    [[nodiscard]] QString offered() const { return m_offered; }
    [[nodiscard]] bool working() const { return m_thread != nullptr; }
    [[nodiscard]] QString state() const;
    [[nodiscard]] double progress() const { return m_progress; }
    [[nodiscard]] QStringList done() const { return m_done; }
    [[nodiscard]] int conflicts() const { return m_conflicts; }
    [[nodiscard]] QList<FindingText> outcome() const { return m_settings.formatter().findings(m_outcome); }

    Q_INVOKABLE void setPassword(const QString& password);
    Q_INVOKABLE void sendAndFetch();
    Q_INVOKABLE void cancel();
    /// Believes the offered certificate from now on, by the person's own act.
    Q_INVOKABLE void trustOffered();
    Q_INVOKABLE void trustNone();

signals:
    void changed();
    void workChanged();

private:
    /// What the thread and the screen share.
    struct Job {
        std::atomic<bool> stop = false;
        QSemaphore lent;        // the screen has answered whether the site may be written
        bool may_write = false; // set before `lent` is released
        rillmark::sync::SiteOutcome outcome;
    };
    void recall();
    void start(const rillmark::sync::ServerAddress& server);
    void lend(const std::shared_ptr<Job>& job, const QString& site);
    void take_back();
    void finished(const Job& job, const QString& host);
    void refuse(const rillmark::Finding& why);

    OpenProject& m_project;
    SettingsModel& m_settings;
    MergeModel& m_merge;
    QString m_data_folder;
    rillmark::sync::PasswordStore m_store;
    QString m_password;
    QString m_lent; // the site that was closed for the merge
    std::shared_ptr<Job> m_job;
    std::unique_ptr<QThread> m_thread;
    std::string m_doing;
    double m_progress = 0.0;
    QString m_offered;
    QStringList m_done;
    int m_conflicts = 0;
    rillmark::Findings m_outcome;
};
