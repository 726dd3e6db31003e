// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "entry_form.h"
#include "open_project.h"
#include "power/turbine_tables.h"
#include "record_fields.h"
#include "resume_state.h"
#include "settings_model.h"
#include "station_choices.h"

#include <QList>
#include <QObject>
#include <QtQml/qqmlregistration.h>

#include <map>
#include <memory>
#include <vector>

/// A figure of a link with what it is.
class FactItem {
    Q_GADGET
    QML_VALUE_TYPE(factItem)
    Q_PROPERTY(QString label MEMBER label CONSTANT FINAL)
    Q_PROPERTY(QString value MEMBER value CONSTANT FINAL)
public:
    QString label, value;
    friend bool operator==(const FactItem&, const FactItem&) = default;
};

/// A row of the record that belongs to the pipe: a section, a sort of fitting.
class PartItem {
    Q_GADGET
    QML_VALUE_TYPE(partItem)
    Q_PROPERTY(QString id MEMBER id CONSTANT FINAL)
    Q_PROPERTY(QString label MEMBER label CONSTANT FINAL)
    Q_PROPERTY(QString detail MEMBER detail CONSTANT FINAL)
public:
    QString id, label, detail;
    friend bool operator==(const PartItem&, const PartItem&) = default;
};

/// What the links of the alternative in hand are made of: intake, pipe sections and fittings, laying, machines, prices.
/// The links are keyed "intake", "laying", "turbine", "drive", "prices"; each has a form, choices, figures, findings.
class PlantModel : public QObject {
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("made by the program")
    Q_PROPERTY(QList<PartItem> sections READ sections NOTIFY changed)
    Q_PROPERTY(QList<PartItem> fittings READ fittings NOTIFY changed)
    Q_PROPERTY(QList<Choice> pipes READ pipes CONSTANT)
    Q_PROPERTY(QList<Choice> fittingKinds READ fittingKinds CONSTANT)
    Q_PROPERTY(EntryForm* sectionForm READ sectionForm CONSTANT)
    Q_PROPERTY(EntryForm* fittingForm READ fittingForm CONSTANT)
    Q_PROPERTY(QString currency READ currency WRITE setCurrency NOTIFY changed) // of all prices, a word as typed
    Q_PROPERTY(QString pipeSummary READ pipeSummary NOTIFY changed)
public:
    PlantModel(OpenProject& project, SettingsModel& settings, ResumeState& resume, QObject* parent = nullptr);
    ~PlantModel() override;

    [[nodiscard]] QList<PartItem> sections() const;
    [[nodiscard]] QList<PartItem> fittings() const;
    [[nodiscard]] QList<Choice> pipes() const;
    [[nodiscard]] QList<Choice> fittingKinds() const;
    [[nodiscard]] EntryForm* sectionForm() { return &m_section; }
    [[nodiscard]] EntryForm* fittingForm() { return &m_fitting; }
    [[nodiscard]] QString currency() const;
    void setCurrency(const QString& word);
    [[nodiscard]] QString pipeSummary() const;

    Q_INVOKABLE EntryForm* form(const QString& link);
    /// The labels of what is chosen from a list in a link, by key of the choice.
    Q_INVOKABLE QList<Choice> lists(const QString& link) const;
    Q_INVOKABLE QList<Choice> choicesOf(const QString& key) const;
    Q_INVOKABLE QString chosenOf(const QString& key) const;
    Q_INVOKABLE void choose(const QString& key, const QString& id);
    Q_INVOKABLE QList<FactItem> facts(const QString& link) const;
    Q_INVOKABLE QList<FindingText> findingsOf(const QString& link) const;
    /// Fills the form of a link from the record, and stores what it holds; false where a field is not understood.
    Q_INVOKABLE void load(const QString& link);
    Q_INVOKABLE bool store(const QString& link);

    /// A section below those that are there; a length that is empty takes what is left of the route.
    Q_INVOKABLE void addSection(const QString& pipe);
    Q_INVOKABLE void addFitting(const QString& kind);
    Q_INVOKABLE void strikeSection(const QString& id, const QString& reason);
    Q_INVOKABLE void strikeFitting(const QString& id, const QString& reason);

signals:
    void changed();

private:
    struct Link {
        std::vector<RecordField<rillmark::AlternativeRow>> fields;
        std::unique_ptr<EntryForm> form;
    };
    [[nodiscard]] rillmark::AlternativeRow row() const;
    void put(rillmark::AlternativeRow row);
    [[nodiscard]] QList<FactItem> intakeFacts() const;
    [[nodiscard]] QList<FactItem> turbineFacts() const;

    OpenProject& m_project;
    SettingsModel& m_settings;
    rillmark::TurbineTables m_turbines;
    std::map<QString, Link> m_links;
    EntryForm m_section;
    EntryForm m_fitting;
};
