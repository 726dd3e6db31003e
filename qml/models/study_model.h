// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "open_project.h"
#include "plant_model.h"
#include "power/chain_draws.h"
#include "power/energy.h"
#include "settings_model.h"

#include <QList>
#include <QObject>
#include <QPointF>
#include <QThread>
#include <QtQml/qqmlregistration.h>

#include <array>
#include <atomic>
#include <memory>
#include <optional>
#include <vector>

/// One line of the comparison of alternatives: a figure in every column.
class CompareItem {
    Q_GADGET
    QML_VALUE_TYPE(compareItem)
    Q_PROPERTY(QString label MEMBER label CONSTANT FINAL)
    Q_PROPERTY(QStringList values MEMBER values CONSTANT FINAL)
    Q_PROPERTY(bool differs MEMBER differs CONSTANT FINAL)
public:
    QString label;
    QStringList values;
    bool differs = false;
    friend bool operator==(const CompareItem&, const CompareItem&) = default;
};

/// What one input would be in a trial; `part` of the recorded value.
class TrialItem {
    Q_GADGET
    QML_VALUE_TYPE(trialItem)
    Q_PROPERTY(QString key MEMBER key CONSTANT FINAL)
    Q_PROPERTY(QString label MEMBER label CONSTANT FINAL)
    Q_PROPERTY(QString value MEMBER value CONSTANT FINAL)
    Q_PROPERTY(double part MEMBER part CONSTANT FINAL)
public:
    QString key, label, value;
    double part = 1.0;
    friend bool operator==(const TrialItem&, const TrialItem&) = default;
};

/// One priced size of pipe.
class PriceItem {
    Q_GADGET
    QML_VALUE_TYPE(priceItem)
    Q_PROPERTY(QString label MEMBER label CONSTANT FINAL)
    Q_PROPERTY(QString detail MEMBER detail CONSTANT FINAL)
    Q_PROPERTY(bool cheapest MEMBER cheapest CONSTANT FINAL)
public:
    QString label, detail;
    bool cheapest = false;
    friend bool operator==(const PriceItem&, const PriceItem&) = default;
};

/// What follows from the chain and never touches the record: the draws and what to do next, alternatives side by side,
/// trials, the year, the money.
class StudyModel : public QObject {
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("made by the program")
    Q_PROPERTY(QList<FindingText> next READ next NOTIFY changed)
    Q_PROPERTY(QString drawn READ drawn NOTIFY drawing)
    Q_PROPERTY(bool working READ working NOTIFY drawing)
    Q_PROPERTY(double progress READ progress NOTIFY drawing)
    Q_PROPERTY(QString greatest READ greatest NOTIFY changed)
    Q_PROPERTY(QStringList columns READ columns NOTIFY changed)
    Q_PROPERTY(QList<CompareItem> comparison READ comparison NOTIFY changed)
    Q_PROPERTY(QList<TrialItem> trials READ trials NOTIFY tried)
    Q_PROPERTY(QString trialWatts READ trialWatts NOTIFY tried)
    Q_PROPERTY(QString trialChange READ trialChange NOTIFY tried)
    Q_PROPERTY(bool seasonKnown READ seasonKnown NOTIFY changed)
    Q_PROPERTY(QList<FactItem> year READ year NOTIFY changed)
    Q_PROPERTY(QList<QPointF> designCurve READ designCurve NOTIFY changed)
    Q_PROPERTY(QList<QPointF> knee READ knee NOTIFY changed)
    Q_PROPERTY(QList<FindingText> yearFindings READ yearFindings NOTIFY changed)
    Q_PROPERTY(QList<Choice> priceable READ priceable CONSTANT)
    Q_PROPERTY(EntryForm* priceForm READ priceForm CONSTANT)
    Q_PROPERTY(QList<PriceItem> money READ money NOTIFY changed)
    Q_PROPERTY(QList<FindingText> moneyFindings READ moneyFindings NOTIFY changed)
public:
    StudyModel(OpenProject& project, SettingsModel& settings, ResumeState& resume, QObject* parent = nullptr);
    ~StudyModel() override;

    /// The season of the creek: its flow-duration curve, and its daily flows where there are any. Plain vectors, so that
    /// whatever knows the season can tell it.
    void setSeason(std::vector<rillmark::DurationPoint> duration, std::vector<rillmark::FlowDay> days);

    [[nodiscard]] QList<FindingText> next() const;
    [[nodiscard]] QString drawn() const;
    [[nodiscard]] bool working() const { return m_thread != nullptr; }
    [[nodiscard]] double progress() const { return m_progress ? m_progress->load() : 0.0; }
    [[nodiscard]] QString greatest() const;
    [[nodiscard]] QStringList columns() const;
    [[nodiscard]] QList<CompareItem> comparison() const;
    [[nodiscard]] QList<TrialItem> trials() const;
    [[nodiscard]] QString trialWatts() const;
    [[nodiscard]] QString trialChange() const;
    [[nodiscard]] bool seasonKnown() const { return m_duration.size() > 1 || !m_days.empty(); }
    [[nodiscard]] QList<FactItem> year() const;
    [[nodiscard]] QList<QPointF> designCurve() const;
    [[nodiscard]] QList<QPointF> knee() const;
    [[nodiscard]] QList<FindingText> yearFindings() const;
    [[nodiscard]] QList<Choice> priceable() const;
    [[nodiscard]] EntryForm* priceForm() { return &m_price; }
    [[nodiscard]] QList<PriceItem> money() const;
    [[nodiscard]] QList<FindingText> moneyFindings() const;

    /// Makes 100,000 draws on a thread of their own.
    Q_INVOKABLE void draw();
    Q_INVOKABLE void stop();
    Q_INVOKABLE void tryPart(const QString& key, double part);
    Q_INVOKABLE void tryNothing();
    Q_INVOKABLE void addPrice(const QString& pipe);

signals:
    void changed();
    void drawing();
    void tried();

private:
    void renew();
    void study_year();
    void study_money();
    [[nodiscard]] const rillmark::AlternativeEstimate& chosen() const { return m_project.estimate().chosen; }
    [[nodiscard]] std::optional<rillmark::Estimate> watts_of(const rillmark::ChainResult& result) const;
    [[nodiscard]] rillmark::ChainInput trial() const;

    static constexpr std::size_t kTrials = 5;
    OpenProject& m_project;
    SettingsModel& m_settings;
    rillmark::TurbineTables m_turbines;
    EntryForm m_price;
    std::array<double, kTrials> m_parts;
    std::vector<rillmark::DurationPoint> m_duration;
    std::vector<rillmark::FlowDay> m_days;
    std::optional<rillmark::EnergyYear> m_year;
    std::optional<rillmark::DesignCurve> m_design;
    rillmark::Findings m_year_findings;
    QList<PriceItem> m_money;
    rillmark::Findings m_money_findings;
    std::unique_ptr<QThread> m_thread;
    std::shared_ptr<std::atomic<bool>> m_stopped;
    std::shared_ptr<std::atomic<double>> m_progress;
    std::optional<rillmark::Expected<rillmark::DrawnEstimate>> m_drawn;
};
