// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "budget_bars.h"
#include "open_project.h"
#include "plant_model.h"
#include "power/chain_draws.h"
#include "season_model.h"
#include "settings_model.h"
#include "site/plant_year.h"

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
    Q_PROPERTY(bool yearKnown READ yearKnown NOTIFY changed)
    Q_PROPERTY(QList<FactItem> year READ year NOTIFY changed)
    Q_PROPERTY(QList<MonthItem> months READ months NOTIFY changed)
    Q_PROPERTY(QString flowUnit READ flowUnit NOTIFY changed)
    Q_PROPERTY(QString energyUnit READ energyUnit NOTIFY changed)
    Q_PROPERTY(QList<QPointF> designCurve READ designCurve NOTIFY changed)
    Q_PROPERTY(QList<QPointF> knee READ knee NOTIFY changed)
    Q_PROPERTY(QList<FindingText> yearFindings READ yearFindings NOTIFY changed)
    Q_PROPERTY(QList<Choice> priceable READ priceable CONSTANT)
    Q_PROPERTY(EntryForm* priceForm READ priceForm CONSTANT)
    Q_PROPERTY(QList<PriceItem> money READ money NOTIFY changed)
    Q_PROPERTY(QList<FactItem> totals READ totals NOTIFY changed)
    Q_PROPERTY(QList<FindingText> moneyFindings READ moneyFindings NOTIFY changed)
public:
    StudyModel(OpenProject& project, SettingsModel& settings, ResumeState& resume, QObject* parent = nullptr);
    ~StudyModel() override;

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
    [[nodiscard]] bool yearKnown() const { return plantYear().year.has_value(); }
    [[nodiscard]] QList<FactItem> year() const;
    [[nodiscard]] QList<MonthItem> months() const;
    [[nodiscard]] QString flowUnit() const;
    [[nodiscard]] QString energyUnit() const;
    [[nodiscard]] QList<QPointF> designCurve() const;
    [[nodiscard]] QList<QPointF> knee() const;
    [[nodiscard]] QList<FindingText> yearFindings() const;
    [[nodiscard]] QList<Choice> priceable() const;
    [[nodiscard]] EntryForm* priceForm() { return &m_price; }
    [[nodiscard]] QList<PriceItem> money() const;
    [[nodiscard]] QList<FactItem> totals() const;
    [[nodiscard]] QList<FindingText> moneyFindings() const;

    /// What the +/- of the year's energy is made of, and what to repeat.
    Q_INVOKABLE QList<BudgetBar> energyBars() const;
    Q_INVOKABLE QString energyAdvice() const;
    /// Makes 100,000 draws on a thread of their own; anew where the record changed under those that are being made.
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
    struct Money {
        QList<PriceItem> sizes;
        QList<FactItem> totals;
        rillmark::Findings findings;
    };
    void renew();
    /// Computed when a sheet asks: a long record takes its time.
    [[nodiscard]] const rillmark::PlantYear& plantYear() const;
    [[nodiscard]] const Money& priced() const;
    [[nodiscard]] Money price_sizes() const;
    [[nodiscard]] const rillmark::AlternativeEstimate& chosen() const { return m_project.estimate().chosen; }
    [[nodiscard]] std::optional<rillmark::Estimate> watts_of(const rillmark::ChainResult& result) const;
    [[nodiscard]] rillmark::ChainInput trial() const;

    static constexpr std::size_t kTrials = 5;
    OpenProject& m_project;
    SettingsModel& m_settings;
    rillmark::TurbineTables m_turbines;
    EntryForm m_price;
    std::array<double, kTrials> m_parts;
    mutable std::optional<rillmark::PlantYear> m_year;
    mutable std::optional<Money> m_money;
    std::unique_ptr<QThread> m_thread;
    bool m_draw_again = false;
    std::shared_ptr<std::atomic<bool>> m_stopped;
    std::shared_ptr<std::atomic<double>> m_progress;
    std::optional<rillmark::Expected<rillmark::DrawnEstimate>> m_drawn;
};
