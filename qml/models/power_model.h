// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "budget_bars.h"
#include "entry_form.h"
#include "open_project.h"
#include "plant_model.h"
#include "resume_state.h"
#include "power/cable_size.h"
#include "settings_model.h"
#include "station_choices.h"

#include <QList>
#include <QObject>
#include <QPointF>
#include <QtQml/qqmlregistration.h>

/// One link from water to wire: what it is, what it comes to, what it takes.
class LinkItem {
    Q_GADGET
    QML_VALUE_TYPE(linkItem)
    Q_PROPERTY(QString key MEMBER key CONSTANT FINAL) // head, flow, intake, pipe, net-head, turbine, drive, generator, cable, house
    Q_PROPERTY(QString label MEMBER label CONSTANT FINAL)
    Q_PROPERTY(QString value MEMBER value CONSTANT FINAL)
    Q_PROPERTY(QString detail MEMBER detail CONSTANT FINAL)
    Q_PROPERTY(bool missing MEMBER missing CONSTANT FINAL)
    Q_PROPERTY(bool opens MEMBER opens CONSTANT FINAL) // there is something to choose behind it
    Q_PROPERTY(bool known MEMBER known CONSTANT FINAL) // it has a budget, see bars()
public:
    QString key, label, value, detail;
    bool missing = false;
    bool opens = false;
    bool known = false;
    friend bool operator==(const LinkItem&, const LinkItem&) = default;
};

/// One line of the table over pipe sizes.
class SizeItem {
    Q_GADGET
    QML_VALUE_TYPE(sizeItem)
    Q_PROPERTY(QString id MEMBER id CONSTANT FINAL)
    Q_PROPERTY(QString label MEMBER label CONSTANT FINAL)
    Q_PROPERTY(QString speed MEMBER speed CONSTANT FINAL)
    Q_PROPERTY(QString loss MEMBER loss CONSTANT FINAL)
    Q_PROPERTY(QString watts MEMBER watts CONSTANT FINAL)
    Q_PROPERTY(QString note MEMBER note CONSTANT FINAL) // the worst warning, or empty
    Q_PROPERTY(bool chosen MEMBER chosen CONSTANT FINAL)
public:
    QString id, label, speed, loss, watts, note;
    bool chosen = false;
    friend bool operator==(const SizeItem&, const SizeItem&) = default;
};

/// Water to wire: the alternative in hand link by link, its forms, the table over pipe sizes, the profile.
class PowerModel : public QObject {
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("made by the program")
    Q_PROPERTY(QList<Choice> alternatives READ alternatives NOTIFY changed)
    Q_PROPERTY(QString alternative READ alternative WRITE setAlternative NOTIFY changed) // the one the strip shows
    Q_PROPERTY(QString name READ name NOTIFY changed)
    Q_PROPERTY(QList<LinkItem> links READ links NOTIFY changed)
    Q_PROPERTY(QList<FindingText> findings READ findings NOTIFY changed)
    Q_PROPERTY(EntryForm* pipeForm READ pipeForm CONSTANT)
    Q_PROPERTY(EntryForm* cableForm READ cableForm CONSTANT)
    Q_PROPERTY(EntryForm* lossForm READ lossForm CONSTANT)
    Q_PROPERTY(QString cableSize READ cableSize NOTIFY changed) // the conductor for that loss, in words; or why there is none
    Q_PROPERTY(bool cableSizeKnown READ cableSizeKnown NOTIFY changed)
    Q_PROPERTY(QList<FactItem> pipeFacts READ pipeFacts NOTIFY changed) // the other formula, and the pipe as it ages
    Q_PROPERTY(EntryForm* flowForm READ flowForm CONSTANT)
    Q_PROPERTY(EntryForm* waterForm READ waterForm CONSTANT)
    Q_PROPERTY(QList<Choice> materials READ materials CONSTANT)
    Q_PROPERTY(QString material READ material WRITE setMaterial NOTIFY changed)
    Q_PROPERTY(QList<SizeItem> sizes READ sizes NOTIFY changed)
    Q_PROPERTY(QString pipeSource READ pipeSource NOTIFY changed)
    Q_PROPERTY(QList<Choice> conductors READ conductors CONSTANT)
    Q_PROPERTY(QString conductor READ conductor WRITE setConductor NOTIFY changed)
    Q_PROPERTY(QString system READ system WRITE setSystem NOTIFY changed)
    Q_PROPERTY(QList<Choice> stations READ stations NOTIFY changed)
    Q_PROPERTY(QString intake READ intake WRITE setIntake NOTIFY changed)
    Q_PROPERTY(QString powerhouse READ powerhouse WRITE setPowerhouse NOTIFY changed)
    Q_PROPERTY(QList<Choice> lowerEnds READ lowerEnds CONSTANT)
    Q_PROPERTY(QString lowerEnd READ lowerEnd WRITE setLowerEnd NOTIFY changed) // turbine-axis, tailwater
    Q_PROPERTY(QList<QPointF> ground READ ground NOTIFY changed)       // chainage, height below the intake, in the user's unit
    Q_PROPERTY(QList<QPointF> gradeLine READ gradeLine NOTIFY changed) // hydraulic grade line at the design flow
    Q_PROPERTY(QString lengthUnit READ lengthUnit NOTIFY changed)
public:
    PowerModel(OpenProject& project, SettingsModel& settings, ResumeState& resume, QObject* parent = nullptr);

    [[nodiscard]] QList<Choice> alternatives() const;
    [[nodiscard]] QString alternative() const;
    void setAlternative(const QString& key);
    [[nodiscard]] QString name() const;
    [[nodiscard]] QList<LinkItem> links() const;
    [[nodiscard]] QList<FindingText> findings() const;
    [[nodiscard]] EntryForm* pipeForm() { return &m_pipe; }
    [[nodiscard]] EntryForm* cableForm() { return &m_cable; }
    [[nodiscard]] EntryForm* lossForm() { return &m_loss; }
    [[nodiscard]] QString cableSize() const;
    [[nodiscard]] bool cableSizeKnown() const;
    [[nodiscard]] QList<FactItem> pipeFacts() const;
    [[nodiscard]] EntryForm* flowForm() { return &m_flow; }
    [[nodiscard]] EntryForm* waterForm() { return &m_water; }
    [[nodiscard]] QList<Choice> materials() const;
    [[nodiscard]] QString material() const;
    void setMaterial(const QString& material);
    [[nodiscard]] QList<SizeItem> sizes() const;
    [[nodiscard]] QString pipeSource() const;
    [[nodiscard]] QList<Choice> conductors() const;
    [[nodiscard]] QString conductor() const;
    void setConductor(const QString& id);
    [[nodiscard]] QString system() const;
    void setSystem(const QString& system);
    [[nodiscard]] QList<Choice> stations() const;
    [[nodiscard]] QString intake() const;
    void setIntake(const QString& key);
    [[nodiscard]] QString powerhouse() const;
    [[nodiscard]] QList<Choice> lowerEnds() const;
    [[nodiscard]] QString lowerEnd() const;
    void setLowerEnd(const QString& end);
    void setPowerhouse(const QString& key);
    [[nodiscard]] QList<QPointF> ground() const;
    [[nodiscard]] QList<QPointF> gradeLine() const;
    [[nodiscard]] QString lengthUnit() const;

    /// Makes an alternative, a copy of the one in hand where there is one, and shows it.
    Q_INVOKABLE void addAlternative(const QString& name);
    Q_INVOKABLE void rename(const QString& name);
    Q_INVOKABLE void strikeAlternative(const QString& reason);
    Q_INVOKABLE void choosePipe(const QString& id);
    /// Takes the conductor of cableSize.
    Q_INVOKABLE void takeCableSize();
    /// What the +/- of a link is made of, and what to repeat, by its key.
    Q_INVOKABLE QList<BudgetBar> bars(const QString& link) const;
    Q_INVOKABLE QString advice(const QString& link) const;
    /// Fills the forms from the alternative in hand, for a sheet that opens.
    Q_INVOKABLE void load();
    /// Stores what the forms hold; an empty field goes back to the default. False where a field is not understood.
    Q_INVOKABLE bool store();

signals:
    void changed();

private:
    [[nodiscard]] rillmark::AlternativeRow row() const;
    void put(rillmark::AlternativeRow row);
    [[nodiscard]] const rillmark::ChainResult& result() const;
    [[nodiscard]] std::optional<rillmark::Budgeted> budget(const QString& link) const;
    /// Nothing while no loss is typed or the chain has no generator.
    [[nodiscard]] std::optional<rillmark::Expected<rillmark::SizedConductor>> sized() const;

    OpenProject& m_project;
    SettingsModel& m_settings;
    EntryForm m_pipe;
    EntryForm m_cable;
    EntryForm m_loss;
    EntryForm m_flow;
    EntryForm m_water;
    QString m_material;
};
