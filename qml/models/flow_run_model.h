// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "entry_form.h"
#include "flow_fields.h"
#include "logged_trace.h"
#include "open_project.h"
#include "reading_item.h"
#include "resume_state.h"
#include "salt_plan_model.h"
#include "settings_model.h"
#include "site/flow_tests.h"
#include "station_choices.h"
#include "trace_clock.h"

#include <QObject>
#include <QPointF>
#include <QtQml/qqmlregistration.h>

#include <map>
#include <memory>
#include <utility>
#include <vector>

/// A choice of the set-up with what is chosen.
class SetupChoiceItem {
    Q_GADGET
    QML_VALUE_TYPE(setupChoiceItem)
    Q_PROPERTY(QString label MEMBER label CONSTANT FINAL)
    Q_PROPERTY(QList<Choice> choices MEMBER choices CONSTANT FINAL)
    Q_PROPERTY(QString chosen MEMBER chosen CONSTANT FINAL)
public:
    QString label;
    QList<Choice> choices;
    QString chosen;
    friend bool operator==(const SetupChoiceItem&, const SetupChoiceItem&) = default;
};

/// A flow test by float, tracer, weir, flume or high-water marks: its set-up, the reading to be booked next, its wave.
class FlowRunModel : public QObject {
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("made by the program")
    Q_PROPERTY(QString test READ test WRITE setTest NOTIFY changed)
    Q_PROPERTY(QString methodName READ methodName NOTIFY changed)
    Q_PROPERTY(QString advice READ advice NOTIFY changed)
    Q_PROPERTY(QString caution READ caution NOTIFY changed)
    Q_PROPERTY(EntryForm* setup READ setup NOTIFY changed) // null without a test
    Q_PROPERTY(QList<SetupChoiceItem> setupChoices READ setupChoices NOTIFY changed)
    Q_PROPERTY(QList<Choice> roles READ roles NOTIFY changed)
    Q_PROPERTY(QString role READ role WRITE setRole NOTIFY changed)
    Q_PROPERTY(QString partLabel READ partLabel NOTIFY changed) // empty: the reading belongs to no section or probe
    Q_PROPERTY(QList<Choice> parts READ parts NOTIFY changed)
    Q_PROPERTY(QString part READ part WRITE setPart NOTIFY changed)
    Q_PROPERTY(EntryForm* form READ form NOTIFY changed)
    Q_PROPERTY(bool timed READ timed NOTIFY changed) // a stopwatch helps
    Q_PROPERTY(QList<ReadingItem> readings READ readings NOTIFY changed)
    Q_PROPERTY(QStringList details READ details NOTIFY changed)
    Q_PROPERTY(bool hasWave READ hasWave NOTIFY changed)
    Q_PROPERTY(QList<QPointF> wave READ wave NOTIFY changed) // seconds, microsiemens per centimetre
    Q_PROPERTY(double waveFrom READ waveFrom NOTIFY changed)
    Q_PROPERTY(double waveTo READ waveTo NOTIFY changed)
    Q_PROPERTY(QList<QPointF> leftOut READ leftOut NOTIFY changed) // readings of the wave that do not count
    Q_PROPERTY(LoggedTrace* logged READ logged CONSTANT)
    Q_PROPERTY(TraceClock* clock READ clock CONSTANT)
    Q_PROPERTY(SaltPlanModel* saltPlan READ saltPlan CONSTANT)
    Q_PROPERTY(bool plansSalt READ plansSalt NOTIFY changed) // advice on reach and salt is of use
    Q_PROPERTY(QList<Choice> heightStations READ heightStations NOTIFY changed) // to take a section point or mark from
    Q_PROPERTY(int marksToTake READ marksToTake NOTIFY changed) // flood-mark stations with a height that are not booked yet
public:
    FlowRunModel(OpenProject& project, SettingsModel& settings, ResumeState& resume, QObject* parent = nullptr);

    [[nodiscard]] QString test() const { return m_test == 0 ? QString() : key_text(m_test); }
    void setTest(const QString& key);
    [[nodiscard]] QString methodName() const;
    [[nodiscard]] QString advice() const;
    [[nodiscard]] QString caution() const;
    [[nodiscard]] EntryForm* setup() const;
    [[nodiscard]] QList<SetupChoiceItem> setupChoices() const;
    [[nodiscard]] QList<Choice> roles() const;
    [[nodiscard]] QString role() const;
    void setRole(const QString& role);
    [[nodiscard]] QString partLabel() const;
    [[nodiscard]] QList<Choice> parts() const;
    [[nodiscard]] QString part() const { return QString::number(m_part); }
    void setPart(const QString& part);
    [[nodiscard]] EntryForm* form() const;
    [[nodiscard]] bool timed() const;
    [[nodiscard]] QList<ReadingItem> readings() const;
    [[nodiscard]] QStringList details() const;
    [[nodiscard]] bool hasWave() const { return slug() != nullptr; }
    [[nodiscard]] QList<QPointF> wave() const;
    [[nodiscard]] double waveFrom() const;
    [[nodiscard]] double waveTo() const;
    [[nodiscard]] QList<QPointF> leftOut() const;
    [[nodiscard]] LoggedTrace* logged() { return &m_logged; }
    [[nodiscard]] TraceClock* clock() { return &m_clock; }
    [[nodiscard]] SaltPlanModel* saltPlan() { return &m_salt_plan; }
    [[nodiscard]] bool plansSalt() const;
    [[nodiscard]] QList<Choice> heightStations() const;
    [[nodiscard]] int marksToTake() const;

    Q_INVOKABLE void keepSetup();
    Q_INVOKABLE void choose(int which, const QString& id);
    Q_INVOKABLE void takeTime(double seconds);
    Q_INVOKABLE void book();
    Q_INVOKABLE void strikeReading(const QString& id, const QString& reason);
    Q_INVOKABLE void restoreReading(const QString& id);
    /// The wave begins and ends there; both are kept with the test.
    Q_INVOKABLE void setWave(double from_s, double to_s);
    /// The flow by this probe if the wave began and ended there; empty where there is none.
    Q_INVOKABLE QString flowIfWave(double from_s, double to_s) const;
    /// Puts the clock's time into the reading to be booked.
    Q_INVOKABLE void takeMoment();
    /// Fills the reading to be booked with the height of a station and its distance down the creek.
    Q_INVOKABLE void takeStation(const QString& id);
    /// Books a mark for each flood-mark station that has a height and a position.
    Q_INVOKABLE void bookMarks();

signals:
    void changed();
    void refused(const FindingText& why);

private:
    struct Forms {
        std::vector<RecordField<rillmark::FlowTestRow>> setup_fields;
        std::unique_ptr<EntryForm> setup;
        std::vector<ReadingRole> roles;
        std::vector<std::unique_ptr<EntryForm>> readings; // one a role
    };
    [[nodiscard]] const rillmark::FlowTestRow* row() const;
    [[nodiscard]] std::optional<rillmark::FlowMethod> flow_method() const;
    [[nodiscard]] const Forms* forms() const;
    [[nodiscard]] const ReadingRole* reading_role() const;
    [[nodiscard]] const rillmark::TestResult* outcome() const;
    [[nodiscard]] const rillmark::SlugTrace* slug() const;
    [[nodiscard]] std::int64_t next_position() const;
    [[nodiscard]] bool dye() const;
    void show_setup();
    void fill_field(std::optional<double> rillmark::FlowReadingRow::* column, const QString& text);
    [[nodiscard]] std::vector<rillmark::FlowReadingRow> marks_to_take() const;
    void strike_group(const QString& id, const QString& reason);

    OpenProject& m_project;
    SettingsModel& m_settings;
    ResumeState& m_resume;
    LoggedTrace m_logged;
    TraceClock m_clock;
    SaltPlanModel m_salt_plan;
    mutable std::map<std::pair<rillmark::FlowMethod, bool>, Forms> m_forms; // with dye or not; made when first shown
    rillmark::Id m_test = 0;
    std::size_t m_role = 0;
    std::int64_t m_part = 0;
};
