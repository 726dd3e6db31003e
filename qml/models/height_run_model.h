// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "entry_form.h"
#include "height_fields.h"
#include "held_reading.h"
#include "open_project.h"
#include "peg_guide.h"
#include "reading_item.h"
#include "resume_state.h"
#include "settings_model.h"
#include "site/height_runs.h"
#include "station_choices.h"

#include <QObject>
#include <QtQml/qqmlregistration.h>

#include <map>
#include <memory>

/// The run of heights in hand: its instrument, the reading to be booked next, and what it comes to.
class HeightRunModel : public QObject {
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("made by the program")
    Q_PROPERTY(QString run READ run WRITE setRun NOTIFY changed) // empty: none
    Q_PROPERTY(QString name READ name NOTIFY changed)
    Q_PROPERTY(QString method READ method NOTIFY changed)
    Q_PROPERTY(QString methodName READ methodName NOTIFY changed)
    Q_PROPERTY(QString instrument READ instrument NOTIFY changed)
    Q_PROPERTY(QString advice READ advice NOTIFY changed)   // how it is done
    Q_PROPERTY(QString caution READ caution NOTIFY changed) // where someone can be hurt; empty: nowhere special
    Q_PROPERTY(QList<Choice> methods READ methods CONSTANT)
    Q_PROPERTY(EntryForm* form READ form NOTIFY changed)             // of the reading; null without a run
    Q_PROPERTY(EntryForm* instrumentForm READ instrumentForm NOTIFY changed) // null where the method has no such fields
    Q_PROPERTY(int ends READ ends NOTIFY changed)                    // points that a reading belongs to: 0, 1, 2
    Q_PROPERTY(QList<Choice> points READ points NOTIFY changed)
    Q_PROPERTY(QString from READ from WRITE setFrom NOTIFY changed)  // key of a station, or "cp:<name>"
    Q_PROPERTY(QString to READ to WRITE setTo NOTIFY changed)
    Q_PROPERTY(QList<Choice> roles READ roles NOTIFY changed)
    Q_PROPERTY(QString role READ role WRITE setRole NOTIFY changed)
    Q_PROPERTY(HeldReading* sensor READ sensor CONSTANT)
    Q_PROPERTY(QList<Choice> holds READ holds NOTIFY changed) // what the sensor may be held for; empty: no sensor for this method
    Q_PROPERTY(QString levelCheck READ levelCheck NOTIFY changed) // where the check on a level surface stands
    Q_PROPERTY(bool ready READ ready NOTIFY changed)
    Q_PROPERTY(QString result READ result NOTIFY changed)
    Q_PROPERTY(QString resultDetail READ resultDetail NOTIFY changed)
    Q_PROPERTY(QList<FindingText> doubts READ doubts NOTIFY changed) // what speaks against the reading as typed
    Q_PROPERTY(QList<FindingText> findings READ findings NOTIFY changed)
    Q_PROPERTY(PegGuide pegGuide READ pegGuide NOTIFY changed)
    Q_PROPERTY(QList<ReadingItem> readings READ readings NOTIFY changed)
public:
    HeightRunModel(OpenProject& project, SettingsModel& settings, ResumeState& resume, QObject* parent = nullptr);

    [[nodiscard]] QString run() const { return m_run == 0 ? QString() : key_text(m_run); }
    void setRun(const QString& key);
    [[nodiscard]] QString name() const;
    [[nodiscard]] QString method() const;
    [[nodiscard]] QString methodName() const;
    [[nodiscard]] QString instrument() const;
    [[nodiscard]] QString advice() const;
    [[nodiscard]] QString caution() const;
    [[nodiscard]] QList<Choice> methods() const;
    [[nodiscard]] EntryForm* form() const;
    [[nodiscard]] EntryForm* instrumentForm() const;
    [[nodiscard]] int ends() const;
    [[nodiscard]] QList<Choice> points() const;
    [[nodiscard]] QString from() const;
    void setFrom(const QString& point);
    [[nodiscard]] QString to() const;
    void setTo(const QString& point);
    [[nodiscard]] QList<Choice> roles() const;
    [[nodiscard]] QString role() const;
    void setRole(const QString& role);
    [[nodiscard]] HeldReading* sensor() { return &m_sensor; }
    [[nodiscard]] QList<Choice> holds() const;
    [[nodiscard]] QString levelCheck() const;
    [[nodiscard]] bool ready() const;
    [[nodiscard]] QString result() const;
    [[nodiscard]] QString resultDetail() const;
    [[nodiscard]] QList<FindingText> doubts() const;
    /// Of the run, and of its readings in the network.
    [[nodiscard]] QList<FindingText> findings() const;
    [[nodiscard]] PegGuide pegGuide() const;
    [[nodiscard]] QList<ReadingItem> readings() const;

    Q_INVOKABLE void newRun(const QString& method, const QString& name, const QString& instrument);
    Q_INVOKABLE void rename(const QString& name);
    Q_INVOKABLE void setInstrument(const QString& instrument);
    /// Takes the fields of the instrument over into the run.
    Q_INVOKABLE void keepInstrument();
    /// Holds the sensor for one of `holds`; what it reads is put into the field it belongs to.
    Q_INVOKABLE void hold(const QString& what);
    Q_INVOKABLE void book();
    Q_INVOKABLE void strikeReading(const QString& id, const QString& reason);
    Q_INVOKABLE void restoreReading(const QString& id);
    Q_INVOKABLE void strikeRun(const QString& reason);

signals:
    void changed();

private:
    /// The forms of one method.
    struct Forms {
        std::vector<RecordField<rillmark::HeightReadingRow>> reading_fields;
        std::vector<RecordField<rillmark::HeightRunRow>> run_fields;
        std::unique_ptr<EntryForm> reading;
        std::unique_ptr<EntryForm> run; // null where there is nothing to say of the instrument
    };
    [[nodiscard]] const rillmark::HeightRunRow* row() const;
    [[nodiscard]] std::optional<rillmark::HeightMethod> height_method() const;
    [[nodiscard]] const Forms* forms() const;
    [[nodiscard]] const rillmark::RunResult* outcome() const;
    [[nodiscard]] std::vector<rillmark::Booked<rillmark::HeightReadingRow>> booked() const;
    [[nodiscard]] rillmark::HeightReadingRow typed_reading() const;
    void load_instrument();
    void take(const rillmark::Estimate& reading);
    void check_level(const rillmark::Estimate& angle_rad);
    void propose_points();

    OpenProject& m_project;
    SettingsModel& m_settings;
    ResumeState& m_resume;
    mutable std::map<rillmark::HeightMethod, Forms> m_forms; // made when first shown
    rillmark::Id m_run = 0;
    QString m_from;
    QString m_to;
    QString m_role;
    HeldReading m_sensor;
    QString m_hold;                              // what it is held for
    std::optional<rillmark::Estimate> m_first_way; // of the check on a level surface
    QString m_level_check;
};
