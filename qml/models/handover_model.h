// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "open_project.h"
#include "resume_state.h"
#include "settings_model.h"
#include "share/share_file.h"

#include <QList>
#include <QObject>
#include <QThread>
#include <QUrl>
#include <QtQml/qqmlregistration.h>

#include <functional>
#include <memory>

/// One thing that the designer will ask for.
class AskItem {
    Q_GADGET
    QML_VALUE_TYPE(askItem)
    Q_PROPERTY(QString key MEMBER key CONSTANT FINAL)
    Q_PROPERTY(QString label MEMBER label CONSTANT FINAL)
    Q_PROPERTY(int state MEMBER state CONSTANT FINAL) // 0 done, 1 thin, 2 missing, 3 not needed
    Q_PROPERTY(QString why MEMBER why CONSTANT FINAL)
    Q_PROPERTY(QString place MEMBER place CONSTANT FINAL)
    Q_PROPERTY(QString takes MEMBER takes CONSTANT FINAL)
    Q_PROPERTY(QString answer MEMBER answer CONSTANT FINAL)
    Q_PROPERTY(bool answered MEMBER answered CONSTANT FINAL)
public:
    QString key;
    QString label;
    int state = 2;
    QString why;
    QString place;  // where it is mended; handover: by an answer
    QString takes;  // yes-no, text; empty: the record alone tells
    QString answer; // what was answered, in words, or why it is not needed
    bool answered = false;
    friend bool operator==(const AskItem&, const AskItem&) = default;
};

/// Whether the designer has what they need, and the file that goes to them.
class HandoverModel : public QObject {
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("made by the program")
    Q_PROPERTY(QList<AskItem> asks READ asks NOTIFY changed)
    Q_PROPERTY(QString tally READ tally NOTIFY changed)
    Q_PROPERTY(bool working READ working NOTIFY workChanged)
    Q_PROPERTY(QList<FindingText> outcome READ outcome NOTIFY workChanged)
    Q_PROPERTY(QString done READ done NOTIFY workChanged)
    Q_PROPERTY(bool canShare READ canShare CONSTANT)
public:
    HandoverModel(OpenProject& project, SettingsModel& settings, ResumeState& resume, QObject* parent = nullptr);
    ~HandoverModel() override;

    [[nodiscard]] QList<AskItem> asks() const;
    /// "9 of 13 done, 2 thin".
    [[nodiscard]] QString tally() const;
    [[nodiscard]] bool working() const { return m_thread != nullptr; }
    /// What the last check or copy found; empty when nothing.
    [[nodiscard]] QList<FindingText> outcome() const { return m_settings.formatter().findings(m_outcome); }
    [[nodiscard]] QString done() const { return m_done; }

    /// Answers an item of the list: yes, no, text (with `text`) or not-needed (`text` says why).
    Q_INVOKABLE void answer(const QString& key, const QString& verdict, const QString& text);
    /// Strikes the answer out; the one before it holds again.
    Q_INVOKABLE void takeAnswerBack(const QString& key);

    /// Both run behind the screen, with a connection of their own to the file.
    Q_INVOKABLE void check();
    Q_INVOKABLE void saveCopy(const QUrl& to);
    /// A copy in the folder `handover` beside the project file, named by site and day.
    Q_INVOKABLE void saveCopyHere();
    /// The same copy, and the system's share sheet with it.
    Q_INVOKABLE void share();
    [[nodiscard]] bool canShare() const { return rillmark::can_share_files(); }

signals:
    void changed();
    void workChanged();

private:
    struct Outcome {
        rillmark::Findings findings;
        QString done;
        QString copy; // the closed file that was made
    };
    void work(std::function<Outcome(const rillmark::Project&)> task, std::function<void(const Outcome&)> then = {});
    static Outcome copied(const rillmark::Project& project, const QString& target);
    void share_copy(const Outcome& outcome);
    [[nodiscard]] QUrl place_here() const;

    OpenProject& m_project;
    SettingsModel& m_settings;
    rillmark::Findings m_outcome;
    QString m_done;
    std::unique_ptr<QThread> m_thread;
};
