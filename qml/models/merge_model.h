// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "open_project.h"
#include "project/merge.h"
#include "settings_model.h"

#include <QObject>
#include <QThread>
#include <QUrl>
#include <QtQml/qqmlregistration.h>

#include <memory>
#include <optional>
#include <vector>

/// A value that two books of the site said differently.
class ConflictItem {
    Q_GADGET
    QML_VALUE_TYPE(conflictItem)
    Q_PROPERTY(QString what MEMBER what CONSTANT FINAL)
    Q_PROPERTY(QString mine MEMBER mine CONSTANT FINAL)
    Q_PROPERTY(QString other MEMBER other CONSTANT FINAL)
    Q_PROPERTY(bool otherHolds MEMBER otherHolds CONSTANT FINAL)
public:
    QString what; // item and column
    QString mine; // value, who and when
    QString other;
    bool otherHolds = false; // which of the two stands in the file now
    friend bool operator==(const ConflictItem&, const ConflictItem&) = default;
};

/// Takes other copies of the open site into it. The site is closed while that is done and opened again.
class MergeModel : public QObject {
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("made by the program")
    Q_PROPERTY(bool working READ working NOTIFY changed)
    Q_PROPERTY(QStringList report READ report NOTIFY changed) // what came of the last one; empty: none yet
    Q_PROPERTY(QList<FindingText> refusal READ refusal NOTIFY changed)
    Q_PROPERTY(QList<ConflictItem> conflicts READ conflicts NOTIFY changed)
public:
    MergeModel(OpenProject& project, SettingsModel& settings, QObject* parent = nullptr);
    ~MergeModel() override;

    [[nodiscard]] bool working() const { return m_thread != nullptr; }
    [[nodiscard]] QStringList report() const;
    [[nodiscard]] QList<FindingText> refusal() const;
    [[nodiscard]] QList<ConflictItem> conflicts() const;

    /// Shows what a merge of another kind (from a server) took in, so that its conflicts can be settled here.
    void show(const rillmark::MergeReport& report);
    Q_INVOKABLE void takeIn(const QList<QUrl>& others);
    /// Lets one of the two values of a conflict stand.
    Q_INVOKABLE void settle(int conflict, bool takeOther);

signals:
    void changed();

private:
    void finish(const QString& path, rillmark::Expected<rillmark::MergeReport> outcome);

    OpenProject& m_project;
    SettingsModel& m_settings;
    std::optional<rillmark::MergeReport> m_report;
    std::optional<rillmark::Finding> m_refusal;
    std::vector<bool> m_other_holds; // of each conflict
    std::unique_ptr<QThread> m_thread;
};
