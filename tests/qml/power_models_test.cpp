// SPDX-License-Identifier: GPL-3.0-or-later
// The presenters of the Power place without their pages.
#include "app_model.h"

#include "project/project.h"
#include "site/series_values.h"

#include <gtest/gtest.h>

#include <QTemporaryDir>
#include <QtTest/QSignalSpy>
#include <QtTest/QTest>

namespace {

using namespace rillmark;

QString value_of(const QList<FactItem>& facts, const QString& label) {
    for (const FactItem& fact : facts)
        if (fact.label.contains(label))
            return fact.value;
    return {};
}

/// An amount without what the locale puts between its thousands.
QString amount(const QList<FactItem>& facts, const char* label) {
    return value_of(facts, QString::fromLatin1(label)).remove(QLatin1Char(','));
}

class PowerModels : public ::testing::Test {
protected:
    /// 30 m of head by a level book, 350 m of pipe, 30 L/s, a cable: a plant with watts at the house.
    void SetUp() override {
        m_app = std::make_unique<AppModel>(m_folder.path());
        m_app->settings()->setMetric(true);
        m_app->settings()->setReceiver(QStringLiteral("replay"));
        ASSERT_TRUE(m_app->newSite(QStringLiteral("Creek")));
        WalkModel& walk = *m_app->walk();
        LevelsModel& levels = *m_app->levels();
        levels.newBook(QStringLiteral("B"), {});
        const auto read = [&levels](const char* reading) {
            levels.form()->setTypedByKey(QStringLiteral("reading"), QString::fromLatin1(reading));
            levels.bookSight();
        };
        walk.logStation(QStringLiteral("intake"), QStringLiteral("intake"));
        levels.setPoint(walk.station());
        read("0.2");
        for (int change_points = 0; change_points < 5; ++change_points) { // a staff is not 30 m long
            read("5.2");
            read("0.2");
        }
        walk.logStation(QStringLiteral("powerhouse"), QStringLiteral("powerhouse"));
        levels.setPoint(walk.station());
        read("5.2");
        power().choosePipe(QStringLiteral("pe100-sdr17-200"));
        power().load();
        type(power().pipeForm(), "length", "350 m");
        type(power().flowForm(), "flow", "30 L/s");
        type(power().cableForm(), "length", "200 m");
        type(power().cableForm(), "voltage", "240");
        power().setConductor(QStringLiteral("iec-cu-16"));
        ASSERT_TRUE(power().store());
        ASSERT_TRUE(result().house_W) << "no watts";
    }
    PowerModel& power() { return *m_app->power(); }
    PlantModel& plant() { return *m_app->plant(); }
    StudyModel& study() { return *m_app->study(); }
    const ChainResult& result() { return m_app->project().estimate().chosen.result; }
    const Survey& survey() { return m_app->project().survey(); }
    static void type(EntryForm* form, const char* key, const char* text) {
        form->setTypedByKey(QString::fromLatin1(key), QString::fromUtf8(text));
    }
    QString link(const char* key) {
        for (const LinkItem& one : power().links())
            if (one.key == QLatin1String(key))
                return one.value;
        return {};
    }
    /// Three years of this creek: 50 L/s, in July and August 4.
    void season() {
        DailyFlow daily;
        daily.first = std::chrono::sys_days(std::chrono::year(2021) / 1 / 1);
        for (std::size_t i = 0; i < 3 * 365; ++i) {
            daily.flow_m3s.push_back(0.0);
            const auto month = static_cast<unsigned>(daily.day(i).month());
            *daily.flow_m3s[i] = month == 7 || month == 8 ? 0.004 : 0.05;
        }
        m_app->project().act([daily](Project& project) -> Expected<void> {
            FlowSeriesRow series;
            series.kind = kDailyFlowSeries;
            series.name = "Gauge";
            const Expected<Id> id = book_series(project, series, daily_blocks(daily));
            return id ? Expected<void>() : Expected<void>(id.error());
        });
    }

    QTemporaryDir m_folder;
    std::unique_ptr<AppModel> m_app;
};

} // namespace

TEST_F(PowerModels, EveryLinkSaysHowItIsKnown) {
    for (const char* key : {"head", "pipe", "net-head", "turbine", "generator", "cable", "house"}) {
        const QList<BudgetBar> bars = power().bars(QString::fromLatin1(key));
        ASSERT_FALSE(bars.isEmpty()) << key;
        double shares = 0.0;
        for (const BudgetBar& bar : bars)
            shares += bar.share;
        EXPECT_NEAR(shares, 1.0, 0.01) << key;
        EXPECT_FALSE(power().advice(QString::fromLatin1(key)).isEmpty()) << key;
    }
    EXPECT_TRUE(power().bars(QStringLiteral("drive")).isEmpty() || result().drive_W);
    EXPECT_TRUE(power().bars(QStringLiteral("nothing")).isEmpty());
}

TEST_F(PowerModels, BadInputIsNotStoredAndSaysWhy) {
    const std::optional<double> before = survey().alternative()->pipe_length_m;
    for (const char* bad : {"abc", "-5 m", "3 kg"}) {
        power().load();
        type(power().pipeForm(), "length", bad);
        EXPECT_FALSE(power().store()) << bad;
        EXPECT_EQ(survey().alternative()->pipe_length_m, before) << bad;
    }
    plant().load(QStringLiteral("laying"));
    plant().form(QStringLiteral("laying"))->setTyped(1, QStringLiteral("soon"));
    EXPECT_FALSE(plant().store(QStringLiteral("laying")));
    // beyond what the head can push: no watts, and a sentence
    power().load();
    type(power().flowForm(), "flow", "900 L/s");
    EXPECT_TRUE(power().store());
    EXPECT_FALSE(result().house_W);
    EXPECT_FALSE(power().findings().isEmpty());
    EXPECT_EQ(study().trialWatts(), QStringLiteral("no watts"));
    EXPECT_TRUE(study().next().isEmpty());
}

TEST_F(PowerModels, SectionsAndFittingsMakeThePipe) {
    plant().sectionForm()->setTypedByKey(QStringLiteral("length"), QStringLiteral("100 m"));
    plant().addSection(QStringLiteral("pe100-sdr26-200"));
    plant().addSection(QStringLiteral("pe100-sdr11-200"));
    ASSERT_EQ(plant().sections().size(), 2);
    EXPECT_TRUE(plant().sections()[1].detail.startsWith(QStringLiteral("250"))) << plant().sections()[1].detail.toStdString();
    const double before_m = result().minor_loss_m->value;
    plant().addFitting(QStringLiteral("entrance-square"));
    EXPECT_LT(result().minor_loss_m->value, before_m); // K = 0.5 in the place of the K = 2 that is taken without a list
    plant().strikeSection(plant().sections()[0].id, QStringLiteral("not sold here"));
    EXPECT_EQ(plant().sections().size(), 1);
}

TEST_F(PowerModels, ThePipeByAnotherFormulaAndWithAge) {
    const QList<FactItem> facts = power().pipeFacts();
    EXPECT_FALSE(value_of(facts, QStringLiteral("Hazen")).isEmpty());
    EXPECT_FALSE(value_of(facts, QStringLiteral("The head pushes at most")).isEmpty());
    EXPECT_FALSE(value_of(facts, QStringLiteral("Bore that loses 10 %")).isEmpty());
    for (const char* age : {"After 10 years", "After 20 years", "After 30 years"})
        EXPECT_FALSE(value_of(facts, QString::fromLatin1(age)).isEmpty()) << age;
}

TEST_F(PowerModels, TheConductorForALoss) {
    EXPECT_TRUE(power().cableSize().isEmpty());
    type(power().lossForm(), "loss", "2 %");
    EXPECT_TRUE(power().cableSizeKnown());
    const double before_W = result().cable_loss_W->value;
    power().takeCableSize();
    EXPECT_LT(result().cable_loss_W->value, before_W);
    EXPECT_LE(result().cable_loss_W->value, 0.02 * result().generator_W->value);
    const double cold_W = result().cable_loss_W->value;
    power().load();
    type(power().cableForm(), "conductor-temperature", "70");
    ASSERT_TRUE(power().store());
    EXPECT_NEAR(result().cable_loss_W->value / cold_W, 300.0 / 270.0, 1e-6); // (230 + t) of IEC 60228
    type(power().lossForm(), "loss", "0.001 %");
    EXPECT_FALSE(power().cableSizeKnown());
    EXPECT_TRUE(power().cableSize().contains(QStringLiteral("No conductor")));
}

TEST_F(PowerModels, AlternativesSideBySideAndOneChosen) {
    const QString first = power().alternative();
    power().addAlternative(QStringLiteral("Wider"));
    power().choosePipe(QStringLiteral("pe100-sdr17-280"));
    ASSERT_EQ(study().columns().size(), 2);
    for (const CompareItem& row : study().comparison()) {
        ASSERT_EQ(row.values.size(), 2) << row.label.toStdString();
        EXPECT_EQ(row.differs, row.values[0] != row.values[1]) << row.label.toStdString();
        if (row.label == QStringLiteral("Pipe") || row.label == QStringLiteral("Watts")) {
            EXPECT_TRUE(row.differs) << row.label.toStdString();
        }
        if (row.label == QStringLiteral("Gross head")) {
            EXPECT_FALSE(row.differs);
        }
    }
    const QString wider = link("house");
    power().setAlternative(first);
    EXPECT_NE(link("house"), wider);
    EXPECT_EQ(survey().site.alternative_id, survey().alternative()->id);
}

TEST_F(PowerModels, WhatIfNeverTouchesTheRecord) {
    const QString watts = link("house");
    const std::size_t undos = survey().alternatives.size();
    const QString undo = m_app->undoText();
    for (const TrialItem& trial : study().trials()) {
        const QString same = study().trialChange();
        study().tryPart(trial.key, 0.5);
        EXPECT_NE(study().trialChange(), same) << trial.key.toStdString();
        study().tryNothing();
        EXPECT_EQ(study().trialWatts(), watts) << trial.key.toStdString();
    }
    study().tryPart(QStringLiteral("head"), 99.0);
    EXPECT_EQ(study().trials().front().part, 1.5);
    EXPECT_EQ(link("house"), watts);
    EXPECT_EQ(m_app->undoText(), undo);
    EXPECT_EQ(survey().alternatives.size(), undos);
}

TEST_F(PowerModels, TheDrawsEndAndAreMadeAnewAfterAChange) {
    study().draw();
    EXPECT_TRUE(study().working());
    ASSERT_TRUE(QTest::qWaitFor([&] { return !study().working(); }, 20000));
    EXPECT_TRUE(study().drawn().contains(QStringLiteral("draws")));
    study().draw();
    power().choosePipe(QStringLiteral("pe100-sdr17-225")); // while they are being made
    EXPECT_TRUE(study().drawn().isEmpty());
    study().draw();
    ASSERT_TRUE(QTest::qWaitFor([&] { return !study().working() && !study().drawn().isEmpty(); }, 20000));
    study().draw();
    study().stop();
    ASSERT_TRUE(QTest::qWaitFor([&] { return !study().working(); }, 20000));
}

TEST_F(PowerModels, TheYearByTheSeasonOfTheSite) {
    EXPECT_FALSE(study().yearKnown());
    ASSERT_EQ(study().yearFindings().size(), 1);
    EXPECT_TRUE(study().yearFindings()[0].sentence.contains(QStringLiteral("The season"))); // where to enter it
    EXPECT_TRUE(study().months().isEmpty());
    season();
    ASSERT_TRUE(study().yearKnown());
    EXPECT_EQ(value_of(study().year(), QStringLiteral("Months without power")), QStringLiteral("0")); // 4 L/s do turn it
    ASSERT_EQ(study().months().size(), 12);
    EXPECT_NEAR(study().months()[0].middle, 1.0, 1e-9);
    EXPECT_LT(study().months()[6].middle, 0.2);
    EXPECT_EQ(study().designCurve().size(), 25);
    EXPECT_EQ(study().knee().size(), 1);
    EXPECT_FALSE(study().energyBars().isEmpty());
    const QString energy = value_of(study().year(), QStringLiteral("Energy"));
    SiteRow site = survey().site;
    site.leave_rule = "share-of-flow";
    site.leave_share = 0.5;
    m_app->project().change(site);
    EXPECT_NE(value_of(study().year(), QStringLiteral("Energy")), energy);
    site = survey().site;
    site.leave_rule = "fixed";
    site.leave_m3s = 0.004;
    m_app->project().change(site);
    EXPECT_EQ(value_of(study().year(), QStringLiteral("Months without power")), QStringLiteral("2"));
    m_app->settings()->setMetric(false);
    EXPECT_EQ(study().designCurve().size(), 25);
}

TEST_F(PowerModels, PricesGiveTheEconomicPipeInTheCurrencyThatIsTyped) {
    EXPECT_TRUE(study().money().isEmpty());
    plant().setCurrency(QStringLiteral("talers"));
    plant().load(QStringLiteral("prices"));
    EntryForm* prices = plant().form(QStringLiteral("prices"));
    const char* typed[] = {"0.10", "20", "5 %", "7", "1000"};
    for (int i = 0; i < 5; ++i)
        prices->setTyped(i, QString::fromLatin1(typed[i]));
    ASSERT_TRUE(plant().store(QStringLiteral("prices")));
    for (const auto& [pipe, price] : {std::pair("pe100-sdr17-180", "18"), {"pe100-sdr17-200", "22"}, {"pe100-sdr17-225", "28"}}) {
        type(study().priceForm(), "pipe", price);
        type(study().priceForm(), "trench", "10");
        study().addPrice(QString::fromLatin1(pipe));
    }
    ASSERT_EQ(study().money().size(), 3);
    EXPECT_EQ(std::ranges::count(study().money(), true, &PriceItem::cheapest), 1);
    EXPECT_TRUE(study().money()[0].detail.contains(QStringLiteral("talers")));
    // 350 m at 32, 200 m of cable at 7, 1000 of all else
    EXPECT_EQ(amount(study().totals(), "Pipe as chosen"), QStringLiteral("11200 talers"));
    EXPECT_EQ(amount(study().totals(), "Together"), QStringLiteral("13600 talers"));
    // a price given again takes the place of the one before
    type(study().priceForm(), "pipe", "1");
    study().addPrice(QStringLiteral("pe100-sdr17-225"));
    EXPECT_EQ(study().money().size(), 3);
    EXPECT_TRUE(study().money()[2].cheapest);
}

TEST_F(PowerModels, PressuresSayWhatTheyLack) {
    EXPECT_FALSE(m_app->pressure()->known()); // the stations have no position
    EXPECT_FALSE(m_app->pressure()->findings().isEmpty());
    EXPECT_TRUE(m_app->pressure()->pipe().isEmpty());
}
