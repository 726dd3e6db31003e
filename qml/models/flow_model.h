// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "entry_form.h"
#include "open_project.h"
#include "reading_item.h"
#include "resume_state.h"
#include "settings_model.h"
#include "station_choices.h"

#include <QList>
#include <QObject>
#include <QtQml/qqmlregistration.h>

/// One flow test in the list.
class FlowTestItem {
    Q_GADGET
    QML_VALUE_TYPE(flowTestItem)
    Q_PROPERTY(QString id MEMBER id CONSTANT FINAL)
    Q_PROPERTY(QString name MEMBER name CONSTANT FINAL)
    Q_PROPERTY(QString method MEMBER method CONSTANT FINAL)
    Q_PROPERTY(QString result MEMBER result CONSTANT FINAL)
    Q_PROPERTY(QString when MEMBER when CONSTANT FINAL)
    Q_PROPERTY(bool counts MEMBER counts CONSTANT FINAL)
    Q_PROPERTY(bool struck MEMBER struck CONSTANT FINAL)
public:
    QString id, name, method, result, when;
    bool counts = true;
    bool struck = false;
    friend bool operator==(const FlowTestItem&, const FlowTestItem&) = default;
};

/// Flow tests: the list and the flow to use, and the test in hand with its entry forms and live result.
class FlowModel : public QObject {
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("made by the program")
    Q_PROPERTY(QList<FlowTestItem> tests READ tests NOTIFY changed)
    Q_PROPERTY(QList<Choice> methods READ methods CONSTANT)
    Q_PROPERTY(QString choice READ choice WRITE setChoice NOTIFY changed)
    Q_PROPERTY(FigureText toUse READ toUse NOTIFY changed)
    Q_PROPERTY(QList<FindingText> findings READ findings NOTIFY changed)
    Q_PROPERTY(QList<Choice> leaveRules READ leaveRules CONSTANT)
    Q_PROPERTY(QString leaveRule READ leaveRule WRITE setLeaveRule NOTIFY changed) // as SiteRow::leave_rule
    Q_PROPERTY(EntryForm* leaveForm READ leaveForm NOTIFY changed) // null without a rule
    Q_PROPERTY(QString leaveText READ leaveText NOTIFY changed)
    Q_PROPERTY(QList<FindingText> leaveFindings READ leaveFindings NOTIFY changed)
    // the test in hand
    Q_PROPERTY(QString test READ test WRITE setTest NOTIFY changed) // empty: none
    Q_PROPERTY(QString testName READ testName NOTIFY changed)
    Q_PROPERTY(QString method READ method NOTIFY changed)
    Q_PROPERTY(FigureText result READ result NOTIFY changed)
    Q_PROPERTY(QString resultDetail READ resultDetail NOTIFY changed)
    Q_PROPERTY(QList<FindingText> testFindings READ testFindings NOTIFY changed)
    Q_PROPERTY(QList<ReadingItem> readings READ readings NOTIFY changed)
    Q_PROPERTY(QString stageText READ stageText NOTIFY changed) // staff gauge at the test; empty: not read
    Q_PROPERTY(EntryForm* stageForm READ stageForm CONSTANT)
    Q_PROPERTY(EntryForm* fillForm READ fillForm NOTIFY changed)
    Q_PROPERTY(QString volumeBy READ volumeBy WRITE setVolumeBy NOTIFY changed) // of a fill: mark, weight
public:
    FlowModel(OpenProject& project, SettingsModel& settings, ResumeState& resume, QObject* parent = nullptr);

    [[nodiscard]] QList<FlowTestItem> tests() const;
    [[nodiscard]] QList<Choice> methods() const;
    [[nodiscard]] QString choice() const;
    void setChoice(const QString& choice);
    [[nodiscard]] FigureText toUse() const;
    [[nodiscard]] QList<FindingText> findings() const;

    [[nodiscard]] QList<Choice> leaveRules() const;
    [[nodiscard]] QString leaveRule() const;
    void setLeaveRule(const QString& rule);
    [[nodiscard]] EntryForm* leaveForm();
    /// What stays in the creek as the rule stands, in words.
    [[nodiscard]] QString leaveText() const;
    [[nodiscard]] QList<FindingText> leaveFindings() const;

    [[nodiscard]] QString test() const { return m_test == 0 ? QString() : key_text(m_test); }
    void setTest(const QString& key);
    [[nodiscard]] QString testName() const;
    [[nodiscard]] QString method() const;
    [[nodiscard]] FigureText result() const;
    [[nodiscard]] QString resultDetail() const;
    [[nodiscard]] QList<FindingText> testFindings() const;
    [[nodiscard]] QList<ReadingItem> readings() const;
    [[nodiscard]] QString stageText() const;
    [[nodiscard]] EntryForm* stageForm() { return &m_stage; }
    [[nodiscard]] EntryForm* fillForm();
    [[nodiscard]] QString volumeBy() const;
    void setVolumeBy(const QString& by);

    Q_INVOKABLE void keepLeave();
    Q_INVOKABLE void keepStage();
    Q_INVOKABLE void newTest(const QString& method, const QString& name);
    Q_INVOKABLE void renameTest(const QString& name);
    Q_INVOKABLE void setCounts(const QString& test, bool counts);
    Q_INVOKABLE void chooseTest(const QString& test);
    Q_INVOKABLE void strikeTest(const QString& test, const QString& reason);
    Q_INVOKABLE void bookFill();
    /// Puts a stopwatch's time into the field of the fill.
    Q_INVOKABLE void takeTime(double seconds);
    Q_INVOKABLE void strikeReading(const QString& id, const QString& reason);
    Q_INVOKABLE void restoreReading(const QString& id);

signals:
    void changed();
    void refused(const FindingText& why);

private:
    static constexpr const char* kLeave = "leave"; // the field of the forms of one number
    static constexpr const char* kStage = "stage";
    [[nodiscard]] const rillmark::FlowTestRow* row() const;
    [[nodiscard]] const rillmark::TestResult* outcome(rillmark::Id test) const;
    [[nodiscard]] QList<ReadingItem> fills() const;
    [[nodiscard]] QList<ReadingItem> verticals() const;
    /// Shows the monthly table of the file, where another site is in hand than before.
    void show_leave_months();
    [[nodiscard]] const char* reading_table() const;

    OpenProject& m_project;
    SettingsModel& m_settings;
    ResumeState& m_resume;
    EntryForm m_fill;
    EntryForm m_weighed;
    EntryForm m_leave_flow;
    EntryForm m_leave_share;
    EntryForm m_leave_q95;
    EntryForm m_leave_months; // a field for each, by its number
    EntryForm m_stage;
    rillmark::Id m_test = 0;
};
